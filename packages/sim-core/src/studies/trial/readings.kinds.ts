import { INSTRUMENT, type Instrument, type Misread, SEEN } from "./instruments.js";
import type { StepName } from "./machine.js";
import type { States } from "./states.js";

/** The unit a value is in: SI, but people read turns of a wheel by the minute and warmth in °C. */
export type ReadingUnit = "V" | "A" | "N" | "m/s" | "m" | "mm" | "s" | "rpm" | "turns" | "°C" | "yes/no";

/** Something to read, and what it is worked out from. */
export interface Reading {
  /** As the sheet and the file of readings have it. */
  readonly reading: string;
  readonly step: StepName;
  /** What to read, in words. */
  readonly what: string;
  readonly unit: ReadingUnit;
  /** What it is read with; undefined of a yes or no, which is seen. */
  readonly instrument: Instrument | undefined;
  /** By a whole simulation, and so slow to work out. */
  readonly timed: boolean;
  /** How often a yes or no is seen wrong. */
  readonly misread: Misread;
  /** Where a no could be taken for it: what else is answered there, and which reading that is a no of. */
  readonly instead?: { readonly answer: string; readonly reading: string };
  /** The value, or null where there is none to read; of a yes or no a margin, yes above 0, or null where it may be either. */
  readonly value: (states: States) => number | null;
}

/** Makers of a step's readings, named for what is read and how. */
export function readingsIn(step: StepName) {
  const by =
    (unit: ReadingUnit, instrument: Instrument | undefined, timed = false) =>
    (reading: string, what: string, value: Reading["value"]): Reading => ({
      ...{ reading, step, what, unit, instrument, timed, value, misread: SEEN },
    });
  return {
    volts: by("V", INSTRUMENT.voltmeter),
    voltsUnderWay: by("V", INSTRUMENT.voltsUnderWay),
    pulses: by("V", INSTRUMENT.pulses),
    drop: by("V", INSTRUMENT.millivolts),
    amps: by("A", INSTRUMENT.ammeter),
    pull: by("N", INSTRUMENT.balance),
    holding: by("N", INSTRUMENT.holding),
    speed: by("m/s", INSTRUMENT.timed),
    turns: by("rpm", INSTRUMENT.turns),
    counted: by("turns", INSTRUMENT.counted),
    seconds: by("s", INSTRUMENT.watch),
    stopping: by("m", INSTRUMENT.tape, true),
    rise: by("mm", INSTRUMENT.level),
    across: by("mm", INSTRUMENT.rule),
    slack: by("mm", INSTRUMENT.slack),
    warmth: by("°C", INSTRUMENT.thermometer),
    yes: by("yes/no", undefined),
  };
}

/** A no there may mean that nothing moved at all, which another reading has. */
export const orElse = (reading: Reading, answer: string, other: string): Reading => ({
  ...reading,
  instead: { answer, reading: other },
});

/** By a whole simulation. */
export const slow = (reading: Reading): Reading => ({ ...reading, timed: true });

/** `8 %`, `full`: where a lever stands, as people read it. */
export const leverShown = (lever: number): string => (lever >= 1 ? "full" : `${Math.round(100 * lever)} %`);
