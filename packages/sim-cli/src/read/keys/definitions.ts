import { type Bounds, fieldName, type Key, type Keys } from "@rideon/sim-core";
import { FILES, type Root } from "./files.js";
import { keyInWords } from "./schema.js";

const HEAD = [
  "// Written by `npm run schema` from the tables of keys, so that an editor shows what each field means. Change a table, not",
  "// this file: test/house/definitions.test.ts holds the two together.",
  'import type { Capacity } from "../keys.js";',
  "",
].join("\n");

const ABOUT: Readonly<Record<Root, string>> = {
  loco: "A loco, as its file has it: the file's keys, each number in SI and with its unit at the end of its name.",
  plan: "One working of one train, as its file has it: the file's keys, each number in SI and with its unit at the end.",
};

/** The declarations of both definitions in TypeScript, every field with its meaning, unit, bounds and default. */
export function definitionsText(): string {
  const written = new Map<Keys, { name: string; text: string }>();
  const roots = (["loco", "plan"] as const).map((root) => {
    const name = interfaceFor(root, FILES[root].keys, ABOUT[root], "", written);
    return written.get(FILES[root].keys)?.text ?? name;
  });
  const others = [...written.values()].map(({ text }) => text).filter((text) => !roots.includes(text));
  return [HEAD, ...roots, ...others].join("\n");
}

/** Writes the interface of a block, and of the blocks in it, once for each table. @returns its name */
function interfaceFor(
  block: string,
  keys: Keys,
  about: string,
  parent: string,
  written: Map<Keys, { name: string; text: string }>,
): string {
  const known = written.get(keys);
  if (known) return known.name;
  const taken = new Set([...written.values()].map(({ name }) => name));
  const short = `${pascal(block)}Definition`;
  const name = taken.has(short) ? `${pascal(parent)}${short}` : short;
  const entry = { name, text: "" };
  written.set(keys, entry);
  const fields = Object.entries(keys).map(([own, key]) => {
    const must = key.required && key.kind !== "file";
    return `${comment(`${keyInWords(key)}${asField(own, key)}`)}  readonly ${fieldName(own, key)}${must ? "" : "?"}: ${typeOf(own, key, block, written)};\n`;
  });
  entry.text = `/** ${about} */\nexport interface ${name} {\n${fields.join("")}}\n`;
  return name;
}

function typeOf(name: string, key: Key, block: string, written: Map<Keys, { name: string; text: string }>): string {
  switch (key.kind) {
    case "quantity":
    case "number":
    case "count":
      return "number";
    case "text":
    case "file":
      return "string";
    case "yes_no":
      return "boolean";
    case "choice":
      return key.choices.map((choice) => JSON.stringify(choice)).join(" | ");
    case "teeth":
      return "readonly [driving: number, driven: number]";
    case "capacity":
      return "Capacity";
    case "voltage_table":
      return "readonly (readonly [share: number, volts: number])[]";
    case "map":
      return interfaceFor(name, key.keys, sentence(key.meaning), block, written);
    case "list":
      return `readonly ${interfaceFor(name.replace(/s$/, ""), key.keys, `One of these: ${key.meaning}.`, block, written)}[]`;
  }
}

/** What the field may be, where that is not what the file has. */
function asField(name: string, key: Key): string {
  if (key.kind === "file") return " Named in files alone: a program hands over what such a file holds.";
  const isNumber = key.kind === "quantity" || key.kind === "number" || key.kind === "count";
  return isNumber ? ` As ${fieldName(name, key)}: ${boundsOf(key)}.` : "";
}

function boundsOf({ min, above, max, below }: Bounds): string {
  const least = above === undefined ? `${min}` : `above ${above}`;
  return below === undefined ? `${least} to ${max}` : `${least} to below ${below}`;
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const pascal = (name: string): string => name.replaceAll(/(?:^|_)(\w)/g, (_, first: string) => first.toUpperCase());

const WIDTH = 110;

/** A comment of one line, or of as many as it takes. */
function comment(text: string): string {
  const whole = `${text.charAt(0).toUpperCase()}${text.slice(1)}`.replaceAll("*/", "* /");
  if (whole.length <= WIDTH) return `  /** ${whole} */\n`;
  const lines: string[] = [""];
  for (const word of whole.split(" ")) {
    const last = lines.at(-1) ?? "";
    if (last !== "" && last.length + word.length >= WIDTH) lines.push(word);
    else lines[lines.length - 1] = last === "" ? word : `${last} ${word}`;
  }
  return `  /**\n${lines.map((line) => `   * ${line}\n`).join("")}   */\n`;
}
