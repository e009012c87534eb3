import { mean } from "simple-statistics";
import { doubtOf } from "../doubt/doubts.js";
import { askDrawn } from "../doubt/draw.js";
import { newNotes } from "../errors.js";
import { inTheCold } from "../parts/battery.each.js";
import type { Battery } from "../parts/battery.js";
import { batteryKeys } from "../parts/battery.keys.js";
import { sound } from "../record/sound.js";
import type { PlanFiles } from "../studies/limits/limits.js";
import { createPlan, type Plan } from "../train/plan.js";
import { ABOUT, meteredBy, moved, offBy, type Read } from "./battery.doubt.js";
import { lineOf } from "./battery.line.js";
import { type BatteryRow, mustBeReadings } from "./battery.rows.js";
import { chargeGiven_C, healthFrom } from "./emptied.js";
import type { Fitted } from "./fitted.js";
import { propagated } from "./propagated.js";

export interface BatteryReadingsOptions {
  /** Steps of the meters, by the figures that were written down; 0 unless told. */
  voltageStep_V?: number;
  currentStep_A?: number;
}

export interface BatteryReadingsAnswer {
  /** `plan.charge`, `loco.battery.each.resistance`, `loco.battery.health`: those that the readings can tell. */
  fitted: Fitted[];
  correlation: number[][];
  /** What the volts under load are off their straight line, V; 0 from two. */
  rms: number;
  rested_V: number | null;
  /** Rested volts above those of a full battery: it was charged not long ago, or its table is another's. */
  above_full: boolean;
  /** Rested volts below those of an empty one: drained beyond its cut-out, or a cell of it is bad. */
  below_empty: boolean;
  /** Of the whole battery, in the air of the plan. */
  resistance_ohm: number | null;
  loads: number;
  /** From one load and the rested volts: what sags slowly is then in the resistance. */
  from_rest: boolean;
  /** Taken until the cut-out, and what one with all of its label's charge would have given. */
  taken_C: number | null;
  sound_C: number | null;
  /** Were the volts at the end of each run read? The controller's cut-out is taken otherwise. */
  end_told: boolean;
}

/** What of the plan itself bears on it: each is in doubt as it is in every other answer. */
const BEARS =
  /^plan\.air_temperature$|^loco\.battery\.each\.(rested_voltage|peukert|resistance|polarisation\..*)$|^loco\.controller\.undervoltage_cutout$/;

/**
 * State of charge from rested volts, resistance from volts and amps at two loads or more, health from a run
 * from full to the cut-out: by the plan's own battery turned round. Volts are the whole battery's at its terminals.
 * @throws InputError with the rows that will not do: `battery.3`
 */
export function batteryReadings(
  files: PlanFiles,
  rows: readonly BatteryRow[],
  options: BatteryReadingsOptions = {},
): BatteryReadingsAnswer {
  const plan = createPlan(files.plan, files.loco, files.track, files.tables);
  mustBeReadings(rows, plan);
  const own = plan.train.battery;
  const middle = readOut(moved(rows, {}), plan, files.loco.battery);
  const tabled = files.loco.battery.each.rested_voltage !== undefined;
  const inputs = meteredBy(rows, options, own, middle.rms, tabled);
  const doubts = doubtOf(files).filter(({ path }) => BEARS.test(path));
  const { values, ends, correlation } = propagated(
    (off) => {
      const z = doubts.map(({ path }) => off[path] ?? 0);
      const read = moved(rows, offBy(inputs, off));
      if (z.every((each) => each === 0)) return readOut(read, plan, files.loco.battery).told;
      const drawn = askDrawn(files, doubts, Float64Array.from(z), 0, ({ plan: planned, loco, tables }) =>
        createPlan(planned, loco, files.track, tables),
      );
      return readOut(read, drawn ?? plan, files.loco.battery).told;
    },
    [...inputs.map(({ name }) => name), ...doubts.map(({ path }) => path)],
    ABOUT,
  );
  const paths = ["plan.charge", "loco.battery.each.resistance", "loco.battery.health"] as const;
  const units = ["", "ohm", ""] as const;
  const full_V = own.rested.y[own.rested.y.length - 1];
  // Where nothing within its doubt is between empty and full, no charge rests at these volts.
  const rests = ends[0][1] > 0 && ends[0][0] < 1;
  const told = paths.map((_, i) => i).filter((i) => !Number.isNaN(values[i]) && (i > 0 || rests));
  const within = (i: number, value: number) => Math.min(i === 0 ? 1 : Number.POSITIVE_INFINITY, Math.max(0, value));
  return sound({
    fitted: told.map((i) => ({
      path: paths[i],
      value: within(i, values[i]),
      unit: units[i],
      low: within(i, ends[i][0]),
      high: within(i, ends[i][1]),
    })),
    correlation: told.map((i) => told.map((j) => correlation[i][j])),
    rms: middle.rms,
    rested_V: middle.rested_V,
    above_full: middle.rested_V !== null && middle.rested_V > full_V,
    below_empty: middle.rested_V !== null && middle.rested_V < own.rested.y[0],
    resistance_ohm: middle.resistance_ohm,
    loads: middle.loads,
    from_rest: middle.from_rest,
    taken_C: middle.taken_C,
    sound_C: middle.sound_C,
    end_told: rows.every(({ reading, voltage_V }) => reading !== "emptied" || voltage_V !== null),
  });
}

function readOut(
  { rows, table, kinetics, full, coldCharge, coldOhm }: Read,
  plan: Plan,
  { in_series, in_parallel, health }: Given,
) {
  const own = plan.train.battery;
  const rested = rows.flatMap((row) => (row.reading === "rested" ? [row.voltage_V as number] : []));
  const rested_V = rested.length > 0 ? mean(rested) : null;
  const loads = rows.filter(({ reading }) => reading === "load");
  // Off its charger it rests higher than it will: that is no resistance.
  const line = lineOf(
    loads,
    rested_V !== null && rested_V > own.rested.y[own.rested.y.length - 1] * table ? null : rested_V,
  );
  const emptied = rows.filter(({ reading }) => reading === "emptied");
  const cold = inTheCold(own.chemistry, plan.air_degC, newNotes());
  const run = {
    resistance_ohm: line?.ohm ?? own.resistance_ohm,
    kinetics: kinetics * cold.capacity ** coldCharge,
    planned: health ?? batteryKeys.health.default.value,
  };
  const healths = emptied.map((row) => healthFrom(plan, row, full, run));
  // Of one battery at 25 °C, as its file has it: the whole one's in this air is in proportion.
  const each = ((in_parallel ?? 1) / (in_series ?? 1)) * cold.resistance ** -(1 + coldOhm);
  return {
    told: [
      rested_V === null ? Number.NaN : shareAt(own, rested_V / table),
      line === null ? Number.NaN : each * line.ohm,
      healths.length > 0 ? mean(healths) : Number.NaN,
    ],
    rested_V,
    rms: line?.rms ?? 0,
    resistance_ohm: line?.ohm ?? null,
    loads: loads.length,
    from_rest: line !== null && loads.length === 1,
    taken_C: emptied.length > 0 ? mean(emptied.map(({ charge_C }) => charge_C as number)) : null,
    sound_C:
      emptied.length > 0 ? mean(emptied.map((row) => chargeGiven_C(plan, row, full, { ...run, health: 1 }))) : null,
  };
}

type Given = PlanFiles["loco"]["battery"];

/**
 * The charge at which a battery rests at these volts; of a flat stretch, its middle. Beyond the table its ends go on straight,
 * so that a doubt which reaches past full is still as wide as it is.
 */
function shareAt({ rested: { x, y } }: Battery, volts: number): number {
  const last = y.length - 1;
  const inside = y.findIndex((each) => each >= volts);
  const i = volts <= y[0] ? 0 : inside < 0 ? last - 1 : inside - 1;
  if (y[i + 1] > y[i]) return x[i] + ((x[i + 1] - x[i]) * (volts - y[i])) / (y[i + 1] - y[i]);
  return volts < y[i] ? x[i] : volts > y[i] ? x[i + 1] : (x[i] + x[i + 1]) / 2;
}
