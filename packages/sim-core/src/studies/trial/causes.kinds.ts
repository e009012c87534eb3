import type { Machine } from "./machine.js";

/** What a size counts, for people; `times` is a ratio to what the files have. */
export type SizeUnit = "N" | "V" | "A" | "ohm" | "kg" | "m/s" | "share" | "gradient" | "times" | "none";

/** One way in which a cause can show: the same machine with something changed, by a size within a stated range. */
export interface Variant {
  /** Which of the cause's ways it is; "" where there is one. */
  readonly where: string;
  /** How likely it is beside the cause's other ways, in proportion (1). */
  readonly weight?: number;
  /** From least to most, evenly or by equal ratios; one alone where there is nothing to fit. */
  readonly sizes: readonly number[];
  readonly apply: (m: Machine, size: number) => Machine;
}

export const CAUSES = [
  "nothing_wrong",
  "held_wheel",
  "dragging_brake_or_tight_chain",
  "flat_battery",
  "old_battery",
  "bad_battery",
  "bad_joint",
  "open_circuit",
  "current_limit_low",
  "cutout_set_wrong",
  "wrong_sprocket_or_wheel",
  "wrong_battery_voltage",
  "weak_magnets",
  "slipping_sprocket",
  "poor_grip",
  "reversed_lead",
  "heavier_train",
  "steeper_place",
  "head_wind",
  "none_of_these",
] as const;
export type CauseName = (typeof CAUSES)[number];

export interface Cause {
  readonly cause: CauseName;
  readonly unit: SizeUnit;
  readonly variants: readonly Variant[];
}
