import { isScalar, type Node, type Pair, type YAMLMap } from "yaml";
import { isFull } from "../diagnostics.js";
import { isEmpty, written } from "./slot.js";
import { resolved, tell, type YamlFile } from "./yaml.js";

/** A key and its value as written in a block. */
export interface WrittenPair {
  name: string;
  key: Node;
  /** Absent where it was cut in the wrong place, which is told. */
  value?: Node | null;
}

type Item = Pair<Node | null, Node | null>;

/** The pairs of a block that can be used, each name once. What YAML cut in the wrong place is told here. */
export function pairsOf(file: YamlFile, map: YAMLMap, path: string): WrittenPair[] {
  const pairs = new Map<string, WrittenPair>();
  const items = map.items as Item[];
  const say = (node: Node | null, name: string, message: string) =>
    tell(file, node ?? map, `${path === "" ? name : `${path}.${name}`}`.slice(0, 200) + message);
  for (const [i, item] of items.entries()) {
    if (isFull(file.problems)) break;
    const key = resolved(file, item.key);
    const name = nameOf(key);
    const earlier = pairs.get(name);
    const tight = map.flow && !item.value ? /^([a-z_]+):(\S.*)$/s.exec(name) : null;
    if (!key || name === "") tell(file, key ?? map, "a key is a plain word, followed by a colon and its value");
    else if (isRemainder(item) && endsInNumber(items[i - 1])) continue;
    else if (isRemainder(items[i + 1]) && endsInNumber(item)) {
      const [left, right] = [nameOf(item.value), nameOf(items[i + 1]?.key)];
      say(item.value, name, `: the comma cuts ${left},${right} in two; write ${left}${right}`);
      pairs.set(name, { name, key });
    } else if (tight) {
      const [, cut = "", value] = tight;
      say(key, cut, `: a blank is wanted after the colon: ${cut}: ${value}`);
      pairs.set(cut, { name: cut, key });
    } else if (name === "<<") tell(file, key, "merging with << is not read; write the keys out");
    else if (earlier) say(key, name, ` is given twice${lineOf(file, earlier.key)}`);
    else pairs.set(name, { name, key, value: item.value });
  }
  return [...pairs.values()];
}

const nameOf = (key: Node | null | undefined): string => (isScalar(key) ? written(key) : "");

/** In `{ speed: 2,500 rpm }` the comma ends the value, and `500 rpm` becomes a key without one. */
const isRemainder = (item: Item | undefined): boolean =>
  item !== undefined && isEmpty(item.value) && /^\d{3}/.test(nameOf(item.key));

const endsInNumber = (item: Item | undefined): boolean => /^[-+]?\d{1,3}$/.test(nameOf(item?.value));

const lineOf = (file: YamlFile, node: Node): string =>
  node.range && file.lines ? `; the first is in line ${file.lines.linePos(node.range[0]).line}` : "";
