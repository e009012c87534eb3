import { InputError, type Problem } from "../../errors.js";
import { NINETEEN_IN_TWENTY, normalQuantile } from "../../numeric/quantile.js";
import type { Compared } from "./cells.js";
import type { QuantityCompared } from "./quantities.js";

/** In the mean, or where it differs most. */
export interface StillOff {
  name: Compared;
  unit: string;
  difference: number;
  doubt: number;
  /** Where, of the piece that differs most; null in the mean. */
  from_m: number | null;
}

/** @param times of what is left open */
export function stillOff({ name, unit, bias, doubt, worst }: QuantityCompared, times = 1): StillOff | undefined {
  if (Math.abs(bias) > times * doubt) return { name, unit, difference: bias, doubt, from_m: null };
  if (Math.abs(worst.difference) > times * worst.doubt)
    return { name, unit, difference: worst.difference, doubt: worst.doubt, from_m: worst.from_m };
  return undefined;
}

/**
 * A fit that leaves more than chance would of the worst of all quantities, in the mean or in places (Bonferroni's bound), is
 * none: something else is wrong, and has drawn the figure after it.
 */
export function mustBeNear(quantities: readonly QuantityCompared[]): void {
  const times = normalQuantile(1 - 0.025 / (2 * quantities.length)) / NINETEEN_IN_TWENTY;
  const off = quantities.flatMap((each) => stillOff(each, times) ?? []);
  if (off.length === 0) return;
  throw refusal(
    off.map(({ name, unit, difference, doubt, from_m }) => {
      const shown = (value: number) => `${Number(Math.abs(value).toPrecision(2))} ${unit}`.trim();
      const where = from_m === null ? "in the mean" : `from ${Math.round(from_m)} m`;
      return `whatever is fitted, ${name.replaceAll("_", " ")} still differs by ${shown(difference)} ${where}, where ${shown(doubt)} is left open: something else is wrong. Look whether --from is where the log begins, and whether the meters read the right way round and from zero`;
    }),
  );
}

export const refusal = (messages: readonly string[]): InputError =>
  new InputError(messages.map((message): Problem => ({ path: "options.fit", message })));
