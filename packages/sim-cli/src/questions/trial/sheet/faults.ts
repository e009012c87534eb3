import type { FaultCause, FaultReading, FaultRow, Symptom } from "@rideon/sim-core";
import { causeWords } from "../ranked/causes.js";
import { guardWords, type TrialTold } from "../told.js";
import { readingValue } from "../units.js";

/** What is noticed from the seat. */
export function symptomWords(symptom: Symptom, { plan: { train } }: TrialTold): string {
  return symptom === "trips" ? `It trips (here: ${guardWords(train)})` : SYMPTOM[symptom];
}

const SYMPTOM: Readonly<Record<Exclude<Symptom, "trips">, string>> = {
  no_amps: "No amps at all",
  amps_without_movement: "Amps, but it does not move",
  volts_fall_too_far: "Volts fall too far",
  slow_but_strong: "Slow, but strong",
  fast_but_weak: "Fast, but weak",
  jerks: "It jerks, or comes and goes",
  slips: "Wheels slip",
  hot: "Too many amps: it gets hot",
  wrong_way: "It goes the wrong way",
};

/** One symptom: its telling readings, and what each machine has there. */
export interface FaultTable {
  title: string;
  readings: string[];
  rows: FaultLine[];
}

export interface FaultLine {
  /** What is wrong, or a sound machine. */
  what: string;
  /** By which reading it is told from the others of its table; "" where none stands out. */
  toldBy: string;
  values: string[];
}

/** The symptoms that some cause shows on this loco. A breaker may trip for what no model of the drive has. */
export const faultTables = (told: TrialTold): FaultTable[] =>
  (told.answer.faults ?? []).flatMap((row) =>
    row.causes.some(isSeen) || row.symptom === "trips" ? [tableOf(row, told)] : [],
  );

const SHORTED =
  "a short circuit, or a breaker or fuse weaker than its marking: isolator open, look for chafed leads and measure from each to the frame before it is closed again";

function tableOf(row: FaultRow, told: TrialTold): FaultTable {
  const valuesOf = (readings: readonly FaultReading[]) =>
    readings.map(({ value, unit }) => (value === null ? "none" : readingValue(value, unit, told.eyes)));
  return {
    title: symptomWords(row.symptom, told),
    readings: row.sound.map(({ reading }) => reading),
    rows: [
      { what: "a sound machine", toldBy: "", values: valuesOf(row.sound) },
      ...row.causes.filter(isSeen).map((cause) => ({
        what: causeWords(asSized(cause), told),
        toldBy: cause.told_by ?? "",
        values: valuesOf(cause.readings),
      })),
      ...(row.symptom === "trips" ? [{ what: SHORTED, toldBy: "", values: row.sound.map(() => "any") }] : []),
    ],
  };
}

/** Where nothing at all is to be read, nothing is told. */
const isSeen = ({ readings }: FaultCause): boolean => readings.some(({ value }) => value !== null);

const asSized = ({ cause, where, size, size_unit }: FaultCause) => ({ cause, where, size, size_unit });
