import type { UnitStyle } from "@rideon/sim-core";
import type { ShortSet } from "../read/index.js";

/** What every command that reads a plan is given. */
export interface PlanFlags {
  set?: readonly string[];
  passengers?: string;
  speed?: string;
  lever?: string;
  laps?: string;
  rail?: string;
  charge?: string;
  json?: true;
  out?: string;
  units?: UnitStyle;
  strict?: true;
  quiet?: true;
  /** Everything there is to tell. */
  all?: true;
}

/** How sure an answer is told to be. */
export interface SureFlags {
  /** Every figure at its middle: no bands. */
  sure?: true;
  /** Plain draws, so many. */
  draws?: number;
  seed?: number;
  /** Threads that share the draws; as many as there are cores unless told. */
  workers?: number;
}

/** And what some are given besides. */
export interface AskedFlags extends PlanFlags, SureFlags {
  /** A file for the picture alone. */
  svg?: string;
  step?: number;
  checkStep?: true;
  /** Interval of the trace, s. */
  every?: number;
}

/** Short for `--set`: the option, and the key it sets. */
export const SHORT_FOR = {
  passengers: "passengers",
  speed: "speed",
  lever: "lever",
  laps: "laps",
  rail: "track.rail",
  charge: "charge",
} as const;

/** The `--set`s of a command line, the short ones last: they are the more particular. Errors name them as typed. */
export function setsOf(flags: PlanFlags): (string | ShortSet)[] {
  const short = Object.entries(SHORT_FOR).flatMap(([flag, key]) => {
    const value = flags[flag as keyof typeof SHORT_FOR];
    return value === undefined ? [] : [{ typed: `--${flag} ${value}`.trim(), set: `${key}=${value}` }];
  });
  return [...(flags.set ?? []), ...short];
}
