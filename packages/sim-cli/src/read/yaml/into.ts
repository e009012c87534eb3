import { isDeepStrictEqual } from "node:util";
import { isMap, isScalar, type Pair, parseDocument, type YAMLMap } from "yaml";

/** A value to put under a key of a file. */
export interface Put {
  /** The key's names, from the top of the file. */
  path: readonly string[];
  /** As it is written. */
  value: string;
  /** Where it comes from, for people; what the line says of an earlier figure stays behind it. */
  comment: string;
}

/** A line of the file as it was and as it is; null where there was none. */
export interface Changed {
  before: string | null;
  after: string;
}

/** Why a value cannot be put into a file. */
export class IntoError extends Error {}

/**
 * The text with values put under their keys: nothing else of it moves, no comment, no blank, no key. A key that is not there
 * is put at the head of its block, a block that is not there at the end of the file.
 * @throws IntoError
 */
export function putInto(text: string, puts: readonly Put[]): { text: string; changed: Changed[] } {
  let whole = text;
  const changed: Changed[] = [];
  for (const put of puts) {
    const step = putOne(whole, put);
    mustBeAllThatChanged(whole, step.text, put);
    whole = step.text;
    changed.push(step.changed);
  }
  return { text: whole, changed };
}

function putOne(text: string, { path, value, comment }: Put): { text: string; changed: Changed } {
  const doc = parseDocument(text);
  if (doc.errors.length > 0 || !isMap(doc.contents)) throw new IntoError("it is no file of keys that can be read");
  let map: YAMLMap = doc.contents;
  for (const [depth, name] of path.entries()) {
    const pair = map.items.find(({ key }) => isScalar(key) && key.value === name) as Pair | undefined;
    if (!pair) return inserted(text, map, path.slice(depth), { value, comment });
    if (depth === path.length - 1) return replaced(text, pair, { path, value, comment });
    if (!isMap(pair.value)) throw new IntoError(`${path.slice(0, depth + 1).join(".")} is no block of keys`);
    map = pair.value;
  }
  throw new IntoError("no key is named");
}

/** What a file of keys has under a key; undefined where it has none, or is none. */
export const valueIn = (text: string, path: readonly string[]): unknown => {
  const doc = parseDocument(text);
  return doc.errors.length > 0 || !isMap(doc.contents) ? undefined : doc.getIn(path);
};

type Written = Pick<Put, "value" | "comment">;

function replaced(text: string, pair: Pair, { path, value, comment }: Put) {
  const range = isScalar(pair.value) ? pair.value.range : undefined;
  if (!range || range[0] === range[1]) throw new IntoError(`${path.join(".")} has no single value to be replaced`);
  const [from, to] = range;
  const end = endOfLine(text, to);
  const after =
    text.slice(0, from) + value + commented(text.slice(to, end), String(path.at(-1)), comment) + text.slice(end);
  return { text: after, changed: { before: lineAt(text, from), after: lineAt(after, from) } };
}

const BEFORE = "; before that: ";

/**
 * What stands behind a value that was replaced. A comment told where the old figure was from, and would be taken to tell so of the
 * new one: it stays, behind what is true now. That of an earlier measurement goes with its figure.
 */
function commented(rest: string, name: string, comment: string): string {
  const [, own] = /^\s*(?:#\s*(.*?)\s*)?$/.exec(rest) ?? [];
  // Other keys follow on the line, so that a comment must name the one that it is about.
  if (!/^\s*(?:#|$)/.test(rest)) {
    const older = new RegExp(`([#;] )${name} measured [^;]*?(?=;|\\s*$)`);
    if (older.test(rest)) return rest.trimEnd().replace(older, (_, before) => `${before}${name} ${comment}`);
    return `${rest.trimEnd()}${/\s#/.test(rest) ? ";" : "  #"} ${name} ${comment}`;
  }
  if (own === undefined || own === "") return `  # ${comment}`;
  const older = own.startsWith("measured ") ? own.split(BEFORE).slice(1).join(BEFORE) : own;
  return `  # ${comment}${older === "" ? "" : `${BEFORE}${older}`}`;
}

/** Under a map that lacks the first of `names`. */
function inserted(text: string, map: YAMLMap, names: readonly string[], { value, comment }: Written) {
  const [from] = map.range ?? [0];
  if (map.flow) {
    const nested = names
      .slice(0, -1)
      .reduceRight((inner, name) => `{ ${name}: ${inner} }`, `${names.at(-1)}: ${value}`);
    const pair = names.length === 1 ? `${names[0]}: ${value}` : nested.replace(/^\{ (.*) \}$/, "$1");
    const end = endOfLine(text, from);
    const rest = `${map.items.length > 0 ? "," : " "}${text.slice(from + 1, end)}`;
    const after = `${text.slice(0, from + 1)} ${pair}${commented(rest, String(names.at(-1)), comment)}${text.slice(end)}`;
    return { text: after, changed: { before: lineAt(text, from), after: lineAt(after, from) } };
  }
  const indent = " ".repeat(from - startOfLine(text, from));
  const lines = names.map((name, i) =>
    i === names.length - 1
      ? `${indent}${"  ".repeat(i)}${name}: ${value}  # ${comment}`
      : `${indent}${"  ".repeat(i)}${name}:`,
  );
  const ends = endsOf(text);
  const block = `${lines.join(ends)}${ends}`;
  // A block of its own stands at the end of the file, a key at the head of its block.
  const at = names.length > 1 && indent === "" ? text.length : startOfLine(text, from);
  const gap = at === text.length && text !== "" && !text.endsWith("\n") ? ends : "";
  return { text: text.slice(0, at) + gap + block + text.slice(at), changed: { before: null, after: lines.join("\n") } };
}

/** The file says now what it said before, but for the value that was put. */
function mustBeAllThatChanged(before: string, after: string, { path }: Put): void {
  const [old, now] = [parseDocument(before), parseDocument(after)];
  const without = (doc: typeof old) => {
    const copy = structuredClone(doc.toJS() ?? {}) as Record<string, unknown>;
    strike(copy, path);
    return copy;
  };
  if (now.errors.length > 0 || now.getIn(path) === undefined || !isDeepStrictEqual(without(old), without(now)))
    throw new IntoError(`${path.join(".")} cannot be put there without moving something else; put it there by hand`);
}

/** Takes a key away, and blocks that are empty without it. */
function strike(map: Record<string, unknown>, [name, ...rest]: readonly string[]): void {
  if (name === undefined) return;
  const inner = map[name];
  if (rest.length > 0 && typeof inner === "object" && inner !== null) strike(inner as Record<string, unknown>, rest);
  if (rest.length === 0 || (typeof inner === "object" && inner !== null && Object.keys(inner).length === 0))
    delete map[name];
}

const startOfLine = (text: string, at: number): number => text.lastIndexOf("\n", at - 1) + 1;

/** Where its words end: before a carriage return, where lines end in one. */
function endOfLine(text: string, at: number): number {
  const end = text.indexOf("\n", at);
  const last = end < 0 ? text.length : end;
  return text[last - 1] === "\r" && last > at ? last - 1 : last;
}

/** As the file ends its first line. */
const endsOf = (text: string): string => (/^[^\n]*\r\n/.test(text) ? "\r\n" : "\n");

const lineAt = (text: string, at: number): string => text.slice(startOfLine(text, at), endOfLine(text, at));
