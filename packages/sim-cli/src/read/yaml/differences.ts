import { isMap, isScalar, isSeq, parseDocument } from "yaml";

/** A key that two files have otherwise, each as it is typed; "" where one has none. */
export interface Difference {
  path: string;
  own: string;
  other: string;
}

/** What two files of keys have otherwise, in the order of the first; text that is no YAML has nothing. */
export function differencesIn(own: string, other: string): Difference[] {
  const [a, b] = [leavesOf(own), leavesOf(other)];
  const paths = [...a.keys(), ...[...b.keys()].filter((path) => !a.has(path))];
  return paths
    .map((path) => ({ path, own: a.get(path) ?? "", other: b.get(path) ?? "" }))
    .filter((each) => each.own !== each.other);
}

function leavesOf(text: string): Map<string, string> {
  const leaves = new Map<string, string>();
  const walk = (node: unknown, path: string): void => {
    if (isMap(node)) for (const { key, value } of node.items) walk(value, path === "" ? String(key) : `${path}.${key}`);
    else if (isSeq(node) && node.items.some((item) => !isScalar(item)))
      for (const [i, item] of node.items.entries()) walk(item, `${path}.${i + 1}`);
    else if (isSeq(node)) leaves.set(path, `[${node.items.map(String).join(", ")}]`);
    else leaves.set(path, isScalar(node) ? (node.source ?? String(node.value)) : String(node));
  };
  walk(parseDocument(text).contents, "");
  return leaves;
}
