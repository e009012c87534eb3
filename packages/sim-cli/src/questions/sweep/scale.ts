import { type Key, readDoubtful, type Typed, UnitError } from "@rideon/sim-core";
import { isFigure, keyNamed } from "../../read/index.js";
import { keyOf } from "./axes.js";
import { dimensionOf, inUnit } from "./unit.js";

/** Where values stand along an axis, all in one unit. */
export interface Scale {
  /** As the first of them was typed; "" for a pure number. */
  unit: string;
  /** In that unit, a value each; NaN for one that the key cannot take, which has no place. */
  at: number[];
}

/**
 * The places of a key's values along an axis: `12 st` and `165 kg` by what they are, not by their figures.
 * @returns nothing where they are words, or have no unit in which their places are even
 */
export function scaleOf(column: string, values: readonly string[]): Scale | undefined {
  const key = keyNamed(keyOf(column));
  const typed = values.map((value) => (key ? typedAs(key, value) : undefined));
  const first = typed.find((each) => each !== undefined)?.unit ?? "";
  // A pure number such as 9 N/kN stands there as it is.
  const unit = dimensionOf(key) === undefined && first !== "%" ? "" : first;
  const into = inUnit(key, unit);
  if (!into) return undefined;
  const at = typed.map((each) => (each ? Number(into(each.value).toPrecision(12)) : Number.NaN));
  return new Set(at.filter(Number.isFinite)).size > 1 ? { unit, at } : undefined;
}

type Numbered = Pick<Typed, "value" | "unit">;

function typedAs(key: Key, text: string): Numbered | undefined {
  if (!isFigure(key)) return undefined;
  try {
    return readDoubtful(text, dimensionOf(key));
  } catch (error) {
    if (error instanceof UnitError) return undefined;
    throw error;
  }
}
