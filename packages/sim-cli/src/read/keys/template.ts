import { defaultInWords, type Key, quantity, share, UnitError } from "@rideon/sim-core";
import { examplesOf, FILES, type Root, type Table } from "./files.js";
import { type Given, LOCO_GIVEN, PLAN_GIVEN, TOGETHER, TRACK } from "./template.given.js";

/** Where the schemas lie that this package ships. */
export const SCHEMA_FOLDER = new URL("../../../schema/", import.meta.url).href;

/**
 * Files to start from, by name. Every key that may be left out stands there behind a `# `, to be taken away where the
 * key is wanted; lines that begin with `## ` are notes.
 * @param schemaFolder address or path, ending in a slash, of the folder with the schemas, for editors
 */
export const filesToStartFrom = (
  schemaFolder = SCHEMA_FOLDER,
): Record<"loco.yaml" | "plan.yaml" | "track.csv", string> => ({
  "loco.yaml": yamlFile("loco", schemaFolder),
  "plan.yaml": yamlFile("plan", schemaFolder),
  "track.csv": TRACK,
});

const HEADS: Readonly<Record<Root, string>> = {
  loco: "## A loco, with invented figures: put your own in their place.",
  plan: "## One working of one train, with invented figures: put your own in their place.",
};

const HOW = [
  "## Behind # stand the keys that may be left out, with their default or an example: to use one take its # away.",
  "## Lines that begin with ## are notes.",
];

function yamlFile(root: Root, schemaFolder: string): string {
  const head = [`# yaml-language-server: $schema=${schemaFolder}${root}.schema.json`, HEADS[root], ...HOW, ""];
  const given = root === "loco" ? LOCO_GIVEN : PLAN_GIVEN;
  return `${[...head, ...block(FILES[root], given, "", "")].join("\n")}\n`;
}

function block(table: Table, given: Given, path: string, indent: string): string[] {
  // A block that is an item of a list begins with a key that is there.
  const names = Object.keys(table.keys);
  const order = path.endsWith("[]") ? [...names].sort((a, b) => Number(b in given) - Number(a in given)) : names;
  return order.flatMap((name) => keyLines(table, name, given, path === "" ? name : `${path}.${name}`, indent));
}

function keyLines(table: Table, name: string, given: Given, path: string, indent: string): string[] {
  const key = table.keys[name]!;
  const value = given[name];
  const together = TOGETHER.get(path);
  if (together) return [told(`${indent}## ${together}: ${name}: ${valueFor(key)}`, noteOn(key))];
  if (typeof value === "string") return [told(`${indent}${name}: ${value}`, key.meaning)];
  if (key.kind === "map" && (value !== undefined || mayBeEmpty(key))) {
    return [told(`${indent}${name}:`, key.meaning), ...block(key, (value ?? {}) as Given, path, `${indent}  `)];
  }
  if (key.kind === "list" && value !== undefined) {
    const items = value as readonly Given[];
    return [
      told(`${indent}${name}:`, key.meaning),
      ...items.flatMap((item, i) => itemLines(key, item, `${path}[]`, `${indent}  `, i === 0)),
    ];
  }
  return [told(`${indent}${markOf(table, name, given)}${name}: ${valueFor(key)}`, noteOn(key))];
}

/** An item: the first with every key it might have, the others with theirs alone. */
function itemLines(table: Table, item: Given, path: string, indent: string, isFirst: boolean): string[] {
  const keys = isFirst ? table.keys : Object.fromEntries(Object.entries(table.keys).filter(([name]) => name in item));
  const lines = block({ ...table, keys }, item, path, `${indent}  `);
  return lines.map((line, i) => (i === 0 ? `${indent}- ${line.trimStart()}` : line));
}

/** `# ` before a key that may be used as it stands; before one that excludes another, a note that says so. */
function markOf(table: Table, name: string, given: Given): string {
  const group = table.oneOf?.find(({ of }) => of.includes(name));
  const rival = group?.of.find((other) => other in given) ?? group?.of[0];
  return rival === undefined || rival === name ? "# " : `## in place of ${rival}: `;
}

const mayBeEmpty = ({ keys, oneOf }: Table): boolean =>
  Object.values(keys).every(({ required }) => !required) && !oneOf?.some(({ required }) => required);

/** The default where it is one value; otherwise an example. */
function valueFor(key: Key): string {
  if (key.kind === "map") {
    return `{ ${Object.entries(key.keys)
      .map(([name, each]) => `${name}: ${valueFor(each)}`)
      .join(", ")} }`;
  }
  const standard = defaultInWords(key);
  const values = [...(standard === undefined ? [] : [standard]), ...examplesOf(key)];
  const fallback = key.kind === "choice" ? key.choices[0]! : "";
  return values.find((value) => isOneValue(key, value)) ?? examplesOf(key)[0] ?? fallback;
}

function isOneValue(key: Key, value: string): boolean {
  try {
    if (key.kind === "quantity") return Number.isFinite(quantity(value, key.dimension));
    if (key.kind === "number") return Number.isFinite(share(value));
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
  if (key.kind === "count") return /^\d+$/.test(value);
  if (key.kind === "yes_no") return /^(?:yes|no)$/.test(value);
  return key.kind === "choice" ? key.choices.includes(value) : key.kind === "text" && !value.includes(" and ");
}

/** Meaning, and in brackets the default with its source; where the line shows the default it is not said twice. */
function noteOn(key: Key): string {
  const standard = defaultInWords(key);
  if (standard === undefined) return `${key.meaning} (no default)`;
  const fallback = valueFor(key) === standard ? "default" : `default ${standard}`;
  const source = key.default?.source;
  return `${key.meaning} (${fallback}${source ? `: ${source}` : ""})`;
}

const WIDTH = 38;
const told = (line: string, meaning: string): string => `${line.padEnd(WIDTH)} # ${meaning}`;
