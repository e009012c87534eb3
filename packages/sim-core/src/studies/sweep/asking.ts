import type { Warning } from "../../errors.js";
import type { Plan } from "../../train/plan.js";
import type { Pair } from "../gears/choices.js";
import type { PlanFiles } from "../limits/limits.js";

/** What one case is asked with. */
export interface Asking {
  readonly files: PlanFiles;
  /** Made where it is first wanted: what sizes a drive needs no loco that has one. @throws InputError */
  readonly plan: () => Plan;
  /** Teeth of the sprockets to hand; those that shops keep where absent. */
  readonly teeth: readonly number[] | undefined;
}

/** A figure, what holds or does not, or words; null where the case has none such. */
export type Value = number | boolean | string | null;

/** What one question comes to in a case. */
export interface Part {
  readonly figures: Readonly<Record<string, Value>>;
  /** What ended its working or its day before its time; null where nothing did. */
  readonly trouble: string | null;
  /** What it falls short by, beside the figures that are wanted and do not hold. */
  readonly lacks?: readonly string[];
  /** Of these figures, those that its lacks tell more about. */
  readonly toldBy?: readonly string[];
  /** Warnings of what it was asked of, where that is no plan. */
  readonly warnings?: readonly Warning[];
  /** Teeth of the choice that its band is of. */
  readonly teeth?: readonly Pair[];
}

export type Ask = (asking: Asking) => Part;
