import { cut, nearest } from "@rideon/sim-core";
import { isMap, isScalar, type Node, visit, YAMLMap } from "yaml";
import { UsageError } from "./diagnostics.js";
import { FILES, type Root, type Table } from "./keys/files.js";
import { unknownKey } from "./keys/unknown.js";
import { childOf, itemOf, itemsOf, putIn, takeFrom } from "./set.nodes.js";
import { parseValue, type YamlFile, type YamlText } from "./yaml/yaml.js";

/** One `--set PATH=VALUE`, split and its value read. */
export interface SetOption {
  root: Root;
  /** Below the file's top. */
  path: string;
  /** Absent for `null`, which takes the key away. */
  value?: Node;
  source: YamlText;
}

/** An option of its own that sets a key: as typed, `--speed 4`, and as a `--set` would have it, `speed=4`. */
export interface ShortSet {
  typed: string;
  set: string;
}

/** As errors repeat what was typed. */
const LONGEST_LABEL = 200;

/** Splits `PATH=VALUE` and reads the value. @throws UsageError where one is missing or the value is no YAML */
export function parseSet(option: string | ShortSet): SetOption {
  const { typed, set } = typeof option === "string" ? { typed: `--set ${option}`, set: option } : option;
  const label = cut(typed, LONGEST_LABEL);
  const [, path = "", text = ""] = /^([^=]*)=(.*)$/s.exec(set) ?? [];
  if (path.trim() === "") {
    throw new UsageError(`${label}: a key, = and a value are wanted, such as --set loco.mass="150 kg"`);
  }
  const away = label.startsWith("--set ") ? `; ${path}=null takes the key away` : "";
  if (text.trim() === "") throw new UsageError(`${label}: there is no value${away}`);
  const source = parseValue(label, text);
  if (source.errors[0]) throw new UsageError(`${label}: ${source.errors[0]}`);
  const inLoco = path.startsWith("loco.");
  const value = source.doc.contents;
  const isNull = isScalar(value) && value.type === "PLAIN" && /^(?:null|~)$/i.test(value.source ?? "");
  return {
    root: inLoco ? "loco" : "plan",
    path: (inLoco ? path.slice("loco.".length) : path).trim(),
    source,
    ...(value && !isNull ? { value } : {}),
  };
}

/** Puts the value into the document, before it is read along its table. @throws UsageError for a path that is none */
export function applySet(file: YamlFile, option: SetOption): void {
  if (file.broken || !isMap(file.doc.contents)) return;
  if (option.value) mark(file, option.value, option.source);
  setInMap({ file, option }, file.doc.contents as YAMLMap, FILES[option.root], "", option.path);
}

interface Job {
  file: YamlFile;
  option: SetOption;
}

const mark = (file: YamlFile, node: Node, source: YamlText) =>
  visit(node, { Node: (_, inner) => void file.fromSet.set(inner, source) });

const refuse = ({ option }: Job, message: string) => new UsageError(`${option.source.label}: ${message}`);

/** Follows what is left of the path, `rest`, into a block. */
function setInMap(job: Job, map: YAMLMap, table: Table, above: string, rest: string): void {
  const [name = "", ...further] = rest.split(".");
  const path = above === "" ? name : `${above}.${name}`;
  const key = Object.hasOwn(table.keys, name) ? table.keys[name] : undefined;
  if (!key) throw refuse(job, unknownKey(path, name, nearest(name, Object.keys(table.keys)), job.option.root));
  if (further.length === 0) {
    if (job.option.value) introduce(job, map, table, name, job.option.value);
    else takeFrom(map, name);
    if (!job.option.value) job.file.removed.set(path, job.option.source);
    return;
  }
  const inner = childOf(job.file, map, name);
  if (key.kind === "list") {
    setInList(job, inner, key, path, further.join("."));
  } else if (key.kind === "map") {
    setInMap(job, isMap(inner) ? inner : newBlock(job, map, table, name), key, path, further.join("."));
  } else {
    throw refuse(job, `${path} takes one whole value${key.example ? `, such as ${key.example}` : ""}`);
  }
}

function newBlock(job: Job, map: YAMLMap, table: Table, name: string): YAMLMap {
  const block = new YAMLMap();
  if (!job.option.value) return block;
  mark(job.file, block, job.option.source);
  introduce(job, map, table, name, block);
  return block;
}

/** Gives a key its value; where the file has one of its alternatives (`speed` for `lever`), that one makes way. */
function introduce({ file, option }: Job, map: YAMLMap, table: Table, name: string, value: Node) {
  const groups = table.oneOf?.filter(({ of }) => of.includes(name)) ?? [];
  for (const rival of groups.flatMap(({ of }) => of)) {
    if (rival !== name && !file.fromSet.has(childOf(file, map, rival) ?? map)) takeFrom(map, rival);
  }
  mark(file, putIn(map, name, value), option.source);
}

/** An item goes by its number, from 1, or by its name, which may have points in it. */
function setInList(job: Job, list: Node | undefined, table: Table, path: string, rest: string): void {
  const { file, option } = job;
  const items = itemsOf(list);
  const names = items.map((_, i) => nameOf(file, items, i));
  const named = names.findIndex((name) => name !== undefined && (rest === name || rest.startsWith(`${name}.`)));
  const number = /^\d+(?=\.|$)/.exec(rest)?.[0];
  const index = named >= 0 ? named : Number(number ?? 0) - 1;
  if (!(index in items)) throw refuse(job, `there is no ${path}.${rest.split(".")[0]}; ${whatIsThere(path, names)}`);
  const further = rest.slice((named >= 0 ? (names[named] ?? "") : (number ?? "")).length + 1);
  if (further !== "") {
    const item = itemOf(file, items, index);
    if (isMap(item)) setInMap(job, item, table, `${path}.${index + 1}`, further);
  } else if (option.value) items[index] = option.value;
  else items.splice(index, 1);
}

function nameOf(file: YamlFile, items: (Node | null)[], index: number): string | undefined {
  const item = itemOf(file, items, index);
  const name = isMap(item) ? childOf(file, item, "name") : undefined;
  return isScalar(name) ? (name.source ?? String(name.value)) : undefined;
}

function whatIsThere(path: string, names: readonly (string | undefined)[]): string {
  if (names.length === 0) return `the file has no ${path}`;
  const called = names.filter((name) => name !== undefined).join(", ");
  return `they count from 1 to ${names.length}${called ? `, or go by name: ${called}` : ""}`;
}
