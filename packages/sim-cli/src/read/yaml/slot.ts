import type { Typed, TypedDoubt } from "@rideon/sim-core";
import { isMap, isScalar, isSeq, type Node, type Scalar } from "yaml";
import type { Place } from "../diagnostics.js";
import type { Root } from "../keys/files.js";
import { resolved, tell, type YamlFile } from "./yaml.js";

/** One reading of one file along its table of keys. */
export interface Walk {
  file: YamlFile;
  root: Root;
  /** Full paths (`loco.motor`) of keys that need not be there this time. */
  mayLack: ReadonlySet<string>;
  /** Where each full path stands. */
  places: Map<string, Place>;
  /** Quantities and shares as typed, by full path. */
  typed: Map<string, Typed>;
  /** Doubt that was typed beside them. */
  doubts: Map<string, TypedDoubt>;
}

/** The place of a key's value: its path in the file, its node, and what stands for it where there is no value: its key. */
export interface Slot {
  path: string;
  node: Node | null;
  head: Node | null;
}

/** The path of a key in the block at `path`. */
export const inside = (path: string, name: string): string => (path === "" ? name : `${path}.${name}`);

/** Where problems with a slot are told. */
export const standsAt = (file: YamlFile, { node, head }: Slot): Node | null =>
  node && (file.fromSet.has(node) || (node.range && node.range[0] < node.range[1])) ? node : head;

/** Tells a problem of this slot; nothing can be read from it. */
export const refuse = (file: YamlFile, slot: Slot, message: string): undefined =>
  void tell(file, standsAt(file, slot), `${slot.path}: ${message}`);

/** No value, or the word null: a block whose every line is commented out has none. */
export const isEmpty = (node: Node | null | undefined): boolean =>
  !node || (isScalar(node) && (node.type ?? "PLAIN") === "PLAIN" && /^(?:null|~|)$/i.test(written(node)));

/** A scalar as written: 081 and 5E5 stay what they are. */
export const written = (node: Scalar): string => (node.source ?? String(node.value ?? "")).trim();

const textUnder = (file: YamlFile, node: Node): string => file.fromSet.get(node)?.text ?? file.text;

/** The text of a single value; where it is none or cannot be told from a slip, that is told. */
export function textOf(file: YamlFile, slot: Slot, example?: string): string | undefined {
  const { node } = slot;
  const like = example ? `; write it like ${example}` : "";
  if (isMap(node)) return refuse(file, slot, `keys stand where one value is wanted${like}`);
  if (isSeq(node)) return refuse(file, slot, `a list stands where one value is wanted${like}`);
  if (isEmpty(node) || !isScalar(node)) return refuse(file, slot, `there is no value${like}`);
  const within = node.range ? textUnder(file, node).slice(node.range[0], node.range[1]) : "";
  if (node.type === "PLAIN" && within.includes("\n")) {
    return refuse(file, slot, "the value runs on into the next line; is that line indented too far?");
  }
  return written(node) || refuse(file, slot, `there is no value${like}`);
}

/** The `#2` of `name: Loco #2`, which YAML takes for a comment: it follows a text and has no blank after its #. */
export function trappedComment(file: YamlFile, { node }: Slot): string | undefined {
  if (!node?.range) return undefined;
  const after = textUnder(file, node).slice(node.range[1]).split("\n", 1)[0] ?? "";
  return /^[ \t]*(#[^\s#].*)$/.exec(after)?.[1]?.trim();
}

/** The texts of a list's items, or nothing where it is no list of single values. */
export function textsOf(file: YamlFile, node: Node | null | undefined): string[] | undefined {
  if (!isSeq(node)) return undefined;
  const texts = (node.items as (Node | null)[]).map((item) => {
    const scalar = resolved(file, item);
    return isScalar(scalar) && !isEmpty(scalar) ? written(scalar) : undefined;
  });
  return texts.every((text) => text !== undefined) ? texts : undefined;
}
