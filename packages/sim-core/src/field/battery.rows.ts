import { InputError, type Problem, shown } from "../errors.js";
import type { Plan } from "../train/plan.js";
import { lineOf } from "./battery.line.js";

export const BATTERY_READINGS = ["rested", "load", "emptied"] as const;

/** A reading of the whole battery at its terminals: rested, under a load, or emptied to the cut-out. */
export interface BatteryRow {
  reading: (typeof BATTERY_READINGS)[number];
  voltage_V: number | null;
  /** Out of the battery; of one that was emptied, in the mean. */
  current_A: number | null;
  /** Taken out until the cut-out. */
  charge_C: number | null;
}

/** Rested or loaded, a battery that is no ruin lies within these shares of its rated volts. */
const MAY_BE = [0.7, 1.35] as const;
/** Nobody takes more out of a battery than so many times its label. */
const MOST_TAKEN = 1.5;

/** @throws InputError with every row that will not do */
export function mustBeReadings(rows: readonly BatteryRow[], { train: { battery } }: Plan): void {
  const problems: Problem[] = [];
  const say = (i: number, message: string) => problems.push({ path: `battery.${i + 1}`, message });
  const rated = shown(battery.nominal_V, "V");
  if (rows.length === 0) say(0, "there is no reading");
  for (const [i, { reading, voltage_V, current_A, charge_C }] of rows.entries()) {
    if ([voltage_V, current_A, charge_C].some((each) => each !== null && !Number.isFinite(each)))
      say(i, "there is a figure that is no number");
    if (voltage_V === null && reading !== "emptied") say(i, `${reading}: the volts are blank`);
    if (voltage_V !== null && (voltage_V < MAY_BE[0] * battery.nominal_V || voltage_V > MAY_BE[1] * battery.nominal_V))
      say(
        i,
        `${shown(voltage_V, "V")} is none of a battery of ${rated} in all; volts are the whole battery's, at its own terminals, and not one's of several or the amps`,
      );
    if (reading === "load" && !(current_A !== null && current_A > 0))
      say(i, "load: the amps are wanted beside the volts, above 0");
    if (reading === "rested" && current_A !== null && current_A !== 0)
      say(i, `rested: ${shown(current_A, "A")} flow; a battery rests with everything off, for some hours`);
    if (reading !== "emptied") continue;
    if (!(charge_C !== null && charge_C > 0)) say(i, "emptied: the ampere-hours that were taken are wanted, above 0");
    if (!(current_A !== null && current_A > 0))
      say(i, "emptied: the amps it was emptied with, in the mean, are wanted");
    if (charge_C !== null && charge_C > MOST_TAKEN * battery.label_C)
      say(
        i,
        `${shown(charge_C / 3600, "Ah")} were taken out of a battery that by its label holds ${shown(battery.label_C / 3600, "Ah")} in this air; is the unit that of the heading, and is it the whole battery's?`,
      );
  }
  for (const [i, message] of [...restedUnlike(rows, battery.nominal_V), ...loadsWrong(rows, battery.nominal_V)])
    say(i, message);
  if (problems.length > 0) throw new InputError(problems);
}

/** Rested volts of one charge differ by less: two meters' errors, each nineteen in twenty, and some hours of rest. */
const UNLIKE = 0.01;

/** Rested before a run and after it are two charges: their mean is none. */
function* restedUnlike(rows: readonly BatteryRow[], nominal_V: number): Generator<[row: number, message: string]> {
  const first = rows.find(({ reading }) => reading === "rested")?.voltage_V ?? null;
  for (const [i, { reading, voltage_V }] of rows.entries())
    if (
      reading === "rested" &&
      first !== null &&
      voltage_V !== null &&
      Math.abs(voltage_V - first) > UNLIKE * nominal_V
    )
      yield [
        i,
        `rested at ${shown(voltage_V, "V")}, and before at ${shown(first, "V")}: these are two states of charge; give one of them to a file`,
      ];
}

/** Volts fall as the amps rise, and loads that are one tell nothing. */
function* loadsWrong(rows: readonly BatteryRow[], nominal_V: number): Generator<[row: number, message: string]> {
  const rested_V = rows.find(({ reading }) => reading === "rested")?.voltage_V ?? null;
  const loads = rows
    .map((row, i) => ({ ...row, i }))
    .filter(({ reading, voltage_V, current_A }) => reading === "load" && voltage_V !== null && current_A !== null)
    .sort((a, b) => (a.current_A as number) - (b.current_A as number));
  // Of several loads the resistance is told without the rested volts, which may be a meter's error lower.
  const leeway_V = loads.length > 1 ? UNLIKE * nominal_V : 0;
  for (const { i, voltage_V } of loads)
    if (rested_V !== null && (voltage_V as number) >= rested_V + leeway_V)
      yield [
        i,
        `${shown(voltage_V as number, "V")} under load is no less than the ${shown(rested_V, "V")} rested; are volts and rows the right ones?`,
      ];
  const [least, most] = [loads[0], loads[loads.length - 1]];
  if (!least || !most || loads.length < 2) return;
  if ((most.current_A as number) < 1.2 * (least.current_A as number))
    yield [most.i, "the loads draw nearly the same amps; one of at least twice the other tells the resistance"];
  else if (!((lineOf(loads, null)?.ohm ?? 0) > 0))
    yield [
      most.i,
      `the volts do not fall from ${shown(least.current_A as number, "A")} to ${shown(most.current_A as number, "A")}; are the readings the right way round?`,
    ];
}
