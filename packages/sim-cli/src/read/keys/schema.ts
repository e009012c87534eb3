import { defaultInWords, type Key, type OneOf, usualInWords } from "@rideon/sim-core";
import { examplesOf, FILES, type Root, type Table } from "./files.js";

/** A node of a JSON Schema. */
export type Schema = { readonly [keyword: string]: unknown };

/** A number and then a unit, in any of the ways people write them: the reader says the rest. */
const QUANTITY = "^\\s*[-+−]?\\s*(AWG\\s*[0-9]|[0-9.¼-¾⅐-⅞].*[A-Za-z%°'\"′″ΩΩ])";
/** `80 %`, `1 in 110`, `9 N/kN`. */
const SHARE = "^\\s*[-+−]?\\s*[0-9.]";

/** The JSON Schema (draft 2020-12) of a kind of file, for editors that complete and check. */
export function schemaOf(root: Root): Schema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: root === "loco" ? "A battery-electric ride-on locomotive" : "One working of one train",
    ...blockSchema(FILES[root]),
  };
}

function blockSchema({ keys, oneOf = [] }: Table): Schema {
  const required = Object.entries(keys).flatMap(([name, key]) => (key.required ? [name] : []));
  const choices = oneOf.map((group) => choiceSchema(group));
  return {
    type: "object",
    additionalProperties: false,
    ...(required.length > 0 ? { required } : {}),
    ...(choices.length > 0 ? { allOf: choices } : {}),
    properties: Object.fromEntries(Object.entries(keys).map(([name, key]) => [name, keySchema(key)])),
  };
}

/** Exactly one of the keys, or at most one. */
function choiceSchema({ of, required }: OneOf): Schema {
  const each = of.map((name) => ({ required: [name] }));
  return { oneOf: required ? each : [...each, { not: { anyOf: each } }] };
}

function keySchema(key: Key): Schema {
  const description = keyInWords(key);
  const isText = key.kind === "quantity" || key.kind === "number" || key.kind === "text" || key.kind === "file";
  const examples = isText ? examplesOf(key) : [];
  return { description, ...(examples.length > 0 ? { examples } : {}), ...valueSchema(key) };
}

/** Meaning, default and its source, and what is usual, as an editor shows them beside the cursor. */
export function keyInWords(key: Key): string {
  const { meaning } = key;
  const fallback = defaultInWords(key);
  const source = key.default?.source;
  const standard = fallback ? ` Default: ${fallback}${source ? ` (${source})` : ""}.` : "";
  const usual = usualInWords(key);
  return `${meaning}.${standard}${usual ? ` Usual: ${usual}.` : ""}`;
}

const quantitySchema: Schema = { type: "string", pattern: QUANTITY };
const shareSchema: Schema = { anyOf: [{ type: "number" }, { type: "string", pattern: SHARE }] };

function valueSchema(key: Key): Schema {
  switch (key.kind) {
    case "quantity":
      return quantitySchema;
    case "number":
      return shareSchema;
    case "count":
      return {
        type: "integer",
        ...(key.min === undefined ? {} : { minimum: key.min }),
        ...(key.max === undefined ? {} : { maximum: key.max }),
      };
    case "text":
    case "file":
      // A name such as 081 is a number to YAML; the reader takes it as written.
      return { type: ["string", "number", "boolean"] };
    case "yes_no":
      return { enum: [true, false, "yes", "no"] };
    case "choice":
      return { enum: [...key.choices] };
    case "teeth":
      return { type: "array", minItems: 2, maxItems: 2, items: { type: "integer", minimum: 1 } };
    case "capacity":
      return {
        anyOf: [
          quantitySchema,
          {
            type: "object",
            minProperties: 1,
            propertyNames: { pattern: QUANTITY },
            additionalProperties: quantitySchema,
          },
        ],
      };
    case "voltage_table":
      return {
        type: "array",
        minItems: 2,
        items: { type: "array", minItems: 2, maxItems: 2, prefixItems: [shareSchema, quantitySchema] },
      };
    case "map":
      return orEmpty(blockSchema(key), mayBeEmpty(key));
    case "list":
      return orEmpty(
        { type: "array", ...(key.required ? { minItems: 1 } : {}), items: blockSchema(key) },
        !key.required,
      );
  }
}

const mayBeEmpty = (table: Table): boolean =>
  Object.values(table.keys).every((key) => !key.required) && !table.oneOf?.some(({ required }) => required);

/** A block whose lines are all commented out is null. */
const orEmpty = (schema: Schema, empty: boolean): Schema =>
  empty ? { ...schema, type: [schema["type"], "null"] } : schema;
