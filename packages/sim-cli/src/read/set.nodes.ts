import { isScalar, isSeq, type Node, Pair, Scalar, type YAMLMap } from "yaml";
import { resolved, type YamlFile } from "./yaml/yaml.js";

const pairNamed = (map: YAMLMap, name: string): Pair<Node, Node | null> | undefined =>
  (map.items as Pair<Node, Node | null>[]).find(({ key }) => isScalar(key) && (key.source ?? key.value) === name);

/** The value of a key; an alias is first made a copy, so that changing it leaves alone what it repeats. */
export function childOf(file: YamlFile, map: YAMLMap, name: string): Node | undefined {
  const pair = pairNamed(map, name);
  if (pair) pair.value = copied(file, pair.value);
  return pair?.value ?? undefined;
}

export const itemsOf = (list: Node | undefined): (Node | null)[] =>
  isSeq(list) ? (list.items as (Node | null)[]) : [];

/** As `childOf`, of a list. */
export function itemOf(file: YamlFile, items: (Node | null)[], index: number): Node | null | undefined {
  items[index] = copied(file, items[index] ?? null);
  return items[index];
}

function copied(file: YamlFile, node: Node | null): Node | null {
  const target = resolved(file, node);
  return target && target !== node ? (target.clone() as Node) : node;
}

/** Gives the key this value; returns the key's node. */
export function putIn(map: YAMLMap, name: string, value: Node): Node {
  const pair = pairNamed(map, name);
  if (pair) {
    pair.value = value;
    return value;
  }
  const key = new Scalar(name);
  map.items.push(new Pair<Node, Node>(key, value));
  return key;
}

export function takeFrom(map: YAMLMap, name: string): void {
  const pairs = map.items as Pair<Node, Node | null>[];
  map.items = pairs.filter((pair) => pair !== pairNamed(map, name));
}
