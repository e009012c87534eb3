import type { Notes } from "../errors.js";
import { fieldName, type Key, type Keys, type OneOf, UNIT_OF } from "../keys.js";
import { nearest } from "../nearest.js";
import { found, wrongCapacity, wrongNumber, wrongTeeth, wrongVoltageTable } from "./given.values.js";

/** The keys that a definition may have, and the choices between them. */
export interface Table {
  readonly keys: Keys;
  readonly oneOf?: readonly OneOf[];
}

/** Keys that a definition need not have, and of these such as are not looked at where it has them. */
export interface Exempt {
  readonly passed?: readonly string[];
  readonly mayLack?: readonly string[];
}

interface Fields {
  readonly byField: ReadonlyMap<string, readonly [name: string, key: Key]>;
  readonly required: readonly (readonly [field: string, name: string, key: Key])[];
}

/** Of each table, its keys by the names that a definition has for them. */
const fields = new WeakMap<Keys, Fields>();

function fieldsOf(keys: Keys): Fields {
  const known = fields.get(keys);
  if (known) return known;
  const all = Object.entries(keys).map(([name, key]) => [fieldName(name, key), name, key] as const);
  const made: Fields = {
    byField: new Map(all.map(([field, name, key]) => [field, [name, key]])),
    // What a file must name a file of is handed over as it is.
    required: all.filter(([, , key]) => key.required && key.kind !== "file"),
  };
  fields.set(keys, made);
  return made;
}

/**
 * Looks at a definition as the reader looks at a file: every key that is unknown, missing, of the wrong type or out of its
 * bounds goes to the notes, with its path.
 * @param path `loco`, `plan`, or of a block
 */
export function lookAtGiven(
  notes: Notes,
  path: string,
  table: Table,
  given: unknown,
  { passed = [], mayLack = passed }: Exempt = {},
): void {
  const refuse = (at: string, message: string) => notes.problems.push({ path: at, message });
  if (typeof given !== "object" || given === null || Array.isArray(given)) {
    refuse(
      path,
      `${found(given)} stands where fields are wanted: ${[...fieldsOf(table.keys).byField.keys()].join(", ")}`,
    );
    return;
  }
  const { byField, required } = fieldsOf(table.keys);
  const own = given as Record<string, unknown>;
  for (const field of Object.keys(own)) {
    const value = own[field];
    if (value === undefined) continue;
    const known = byField.get(field);
    if (!known) refuse(`${path}.${field}`, unknownField(field, table.keys, byField));
    else if (!passed.includes(known[0])) lookAtValue(notes, `${path}.${known[0]}`, field, known[1], value);
  }
  for (const [field, name, key] of required) {
    if (own[field] === undefined && !mayLack.includes(name))
      refuse(`${path}.${name}`, `${field} is missing: ${key.meaning}`);
  }
  for (const { of, required: wanted } of table.oneOf ?? []) {
    const names = of.map((name) => fieldName(name, table.keys[name]));
    const [first, ...others] = of.filter((_, i) => own[names[i]] !== undefined);
    for (const other of others) refuse(`${path}.${other}`, `cannot stand beside ${first}; keep one of them`);
    if (first !== undefined || !wanted) continue;
    refuse(path, `one of ${names.slice(0, -1).join(", ")} or ${names.at(-1)} is missing`);
  }
}

function unknownField(field: string, keys: Keys, byField: Fields["byField"]): string {
  const near = Object.hasOwn(keys, field) ? fieldName(field, keys[field]) : nearest(field, [...byField.keys()]);
  return `there is no such field${near === undefined ? "" : `; did you mean ${near}?`}`;
}

function lookAtValue(notes: Notes, path: string, field: string, key: Key, value: unknown): void {
  if (key.kind === "map") lookAtGiven(notes, path, key, value);
  else if (key.kind === "list") {
    if (!Array.isArray(value)) notes.problems.push({ path, message: `${found(value)} stands where a list is wanted` });
    else if (key.required && value.length === 0) notes.problems.push({ path, message: "the list is empty" });
    else for (const [i, item] of value.entries()) lookAtGiven(notes, `${path}.${i + 1}`, key, item);
  } else {
    const wrong = wrongValue(field, key, value);
    if (wrong !== undefined) notes.problems.push({ path, message: wrong });
  }
}

/** What is wrong with a single value; nothing where it can be used. */
function wrongValue(field: string, key: Exclude<Key, { kind: "map" | "list" }>, value: unknown): string | undefined {
  switch (key.kind) {
    case "quantity":
      if (typeof value === "string") {
        return `${found(value)} is text; quantity(${found(value)}, "${key.dimension}") makes a number of ${UNIT_OF[key.dimension]} from it`;
      }
      return wrongNumber(field, value, key);
    case "number":
      return wrongNumber(field, value, key);
    case "count":
      return wrongNumber(field, value, key) ?? (Number.isInteger(value) ? undefined : `${value} is not a whole number`);
    case "text":
    case "file":
      return typeof value === "string" ? undefined : `${found(value)} stands where text is wanted`;
    case "yes_no":
      return typeof value === "boolean" ? undefined : `${found(value)} is neither true nor false`;
    case "choice": {
      if (key.choices.includes(value as string)) return undefined;
      const near = typeof value === "string" ? nearest(value, key.choices) : undefined;
      return `${found(value)} is not one of ${key.choices.join(", ")}${near === undefined ? "" : `; did you mean ${near}?`}`;
    }
    case "teeth":
      return wrongTeeth(value);
    case "capacity":
      return wrongCapacity(value, key);
    case "voltage_table":
      return wrongVoltageTable(value);
  }
}
