import { type Dimension, type Key, UNIT_IN_WORDS } from "../keys.js";

/** A key's default as people would type it, or in words where it depends on other keys; nothing where it has none. */
export function defaultInWords(key: Key): string | undefined {
  const standard = key.default;
  if (standard === undefined) return undefined;
  if (standard.is !== "fixed") return standard.words;
  const { value } = standard;
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value;
  return key.kind === "quantity" ? typed(value, key.dimension) : figure(value);
}

/** As a file has it: no letter that keyboards lack, and small resistances in the unit of the trade. */
const typed = (value: number, dimension: Dimension): string =>
  dimension === "resistance" && value > 0 && value < 1
    ? `${figure(1000 * value)} mohm`
    : `${figure(value)} ${UNIT_IN_WORDS[dimension].replace("²", "^2")}`;

/** Without the last digits that are only rounding. */
const figure = (value: number): string => Number(value.toPrecision(12)).toString();
