import { fieldName, type Key, type ListKey, nearest } from "@rideon/sim-core";
import { isMap, isNode, isSeq, type Node } from "yaml";
import { isFull } from "../diagnostics.js";
import type { Table } from "../keys/files.js";
import { unknownKey } from "../keys/unknown.js";
import { checkChoices, checkRequired } from "./missing.js";
import { pairsOf } from "./pairs.js";
import { readCapacity, readTeeth, readVoltageTable } from "./shapes.js";
import { inside, isEmpty, refuse, type Slot, standsAt, type Walk } from "./slot.js";
import { readScalar } from "./values.js";
import { placeOf, resolved, tell } from "./yaml.js";

/** The definition that a block of keys gives; every problem goes to the file, and what is wrong is left out. */
export function readMap(walk: Walk, slot: Slot, table: Table): Record<string, unknown> {
  const { file } = walk;
  const definition: Record<string, unknown> = {};
  const given = new Map<string, Node>();
  const misspelt = new Set<string>();
  for (const { name, key: head, value } of isMap(slot.node) ? pairsOf(file, slot.node, slot.path) : []) {
    if (isFull(file.problems)) break;
    const path = inside(slot.path, name);
    const key = Object.hasOwn(table.keys, name) ? table.keys[name] : undefined;
    if (!key) {
      const near = nearest(name, Object.keys(table.keys));
      tell(file, head, unknownKey(path, name, near, walk.root));
      if (near !== undefined && !given.has(near)) misspelt.add(near);
      continue;
    }
    given.set(name, head);
    if (value === undefined) continue;
    const read = readValue(walk, { path, node: value, head }, key);
    if (read !== undefined) definition[fieldName(name, key)] = read;
  }
  checkRequired(walk, slot, table, given, misspelt);
  checkChoices(walk, slot, table, given, misspelt);
  return definition;
}

/** The value of one key, or nothing where it has none or a wrong one. */
function readValue(walk: Walk, { path, node: found, head }: Slot, key: Key): unknown {
  const { file } = walk;
  const node = resolved(file, found);
  if (node === undefined) return undefined;
  const slot: Slot = { path, node, head };
  const isBlock = key.kind === "map" || key.kind === "list";
  walk.places.set(`${walk.root}.${path}`, placeOf(file, isBlock ? head : standsAt(file, slot)));
  if (isNode(node) && node.tag !== undefined) return refuse(file, slot, "tags (words that begin with !) are not read");
  switch (key.kind) {
    case "map":
      return readBlock(walk, slot, key);
    case "list":
      return readList(walk, slot, key);
    case "teeth":
      return readTeeth(file, slot);
    case "capacity":
      return readCapacity(walk, slot, key);
    case "voltage_table":
      return readVoltageTable(file, slot, key);
    default:
      return readScalar(walk, slot, key);
  }
}

function readBlock(walk: Walk, slot: Slot, table: Table): Record<string, unknown> | undefined {
  if (isMap(slot.node)) return readMap(walk, slot, table);
  if (isEmpty(slot.node)) {
    readMap(walk, slot, table);
    return undefined;
  }
  const found = isSeq(slot.node) ? "a list" : "a single value";
  const names = Object.keys(table.keys);
  const some = names.length > 6 ? [...names.slice(0, 5), "…"] : names;
  return refuse(walk.file, slot, `${found} stands where keys are wanted: ${some.join(", ")}`);
}

function readList(walk: Walk, slot: Slot, key: ListKey): unknown {
  const { file } = walk;
  const { node, path } = slot;
  if (isEmpty(node) || (isSeq(node) && node.items.length === 0)) {
    return key.required ? refuse(file, slot, "the list is empty; begin each item with a dash") : undefined;
  }
  if (!isSeq(node)) {
    const found = isMap(node) ? "keys stand" : "a single value stands";
    return refuse(file, slot, `${found} where a list is wanted; begin each item with a dash`);
  }
  return (node.items as (Node | null)[]).map((found, i) => {
    const item = resolved(file, found);
    const inner: Slot = { path: `${path}.${i + 1}`, node: item ?? null, head: node };
    walk.places.set(`${walk.root}.${inner.path}`, placeOf(file, standsAt(file, inner)));
    return (item !== undefined && readBlock(walk, inner, key)) || {};
  });
}
