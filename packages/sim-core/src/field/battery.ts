import type { Battery } from "../parts/battery.js";
import { batteryKeys } from "../parts/battery.keys.js";
import { sound } from "../record/sound.js";
import type { PlanFiles } from "../studies/limits/limits.js";
import { INSTRUMENT } from "../studies/trial/instruments.js";
import { createPlan, type Plan } from "../train/plan.js";
import { type BatteryRow, mustBeReadings } from "./battery.rows.js";
import { chargeGiven_C, healthFrom } from "./emptied.js";
import type { Fitted } from "./fitted.js";
import { type Input, propagated } from "./propagated.js";

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
  /** Of the whole battery, in the air of the plan. */
  resistance_ohm: number | null;
  loads: number;
  /** From one load and the rested volts: what sags slowly is then in the resistance. */
  from_rest: boolean;
  /** Taken until the cut-out, and what one with all of its label's charge would have given. */
  taken_C: number | null;
  sound_C: number | null;
}

const NINE_IN_TEN = 1.6448536269514722;
/** What a battery gives by its own kinetics hangs on how it was made and on its warmth: nineteen in twenty (no source). */
const KINETICS_sd = 0.04 / 1.96;

/** A charger that says full has left out so much (common practice, no source). */
const FULL_sd = 0.02;

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
  const defined: Defined = {
    one_ohm: files.loco.battery.each.resistance_ohm ?? assumedOhm(plan),
    planned: files.loco.battery.health ?? batteryKeys.health.default.value,
  };
  const read = (each: Read) => readOut(each, plan, defined);
  const inputs = inputsOf(rows, options, own, files.loco.battery.each.rested_voltage !== undefined);
  const { values, ends, correlation } = propagated((x) => read(moved(rows, x)).told, inputs);
  const middle = read(moved(rows, {}));
  const paths = ["plan.charge", "loco.battery.each.resistance", "loco.battery.health"] as const;
  const units = ["", "ohm", ""] as const;
  const told = paths.map((_, i) => i).filter((i) => !Number.isNaN(values[i]));
  return sound({
    fitted: told.map((i) => ({
      path: paths[i],
      value: values[i],
      unit: units[i],
      low: Math.max(0, ends[i][0]),
      high: i === 0 ? Math.min(1, ends[i][1]) : ends[i][1],
    })),
    correlation: told.map((i) => told.map((j) => correlation[i][j])),
    rms: middle.rms,
    rested_V: middle.rested_V,
    above_full: middle.rested_V !== null && middle.rested_V > own.rested.y[own.rested.y.length - 1],
    resistance_ohm: middle.resistance_ohm,
    loads: middle.loads,
    from_rest: middle.from_rest,
    taken_C: middle.taken_C,
    sound_C: middle.sound_C,
  });
}

const assumedOhm = ({ notes }: Plan): number =>
  notes.assumed.find(({ key }) => key === "loco.battery.each.resistance")?.amount ?? Number.NaN;

/** The readings, and how far off what they are read with is. */
interface Read {
  readonly rows: readonly BatteryRow[];
  /** The rested volts' own table, as a factor; what it gives by its kinetics, as a factor. */
  readonly table: number;
  readonly kinetics: number;
  /** The charge that a run to the cut-out begins with. */
  readonly full: number;
}

/** What the files give it, or are taken to: of one battery at 25 °C, and how much of the label is left. */
interface Defined {
  readonly one_ohm: number;
  readonly planned: number;
}

/** Names of inputs: `volts.3` is the chance of the third row's, `volts` the meter's own. */
function moved(rows: readonly BatteryRow[], off: Readonly<Record<string, number>>): Read {
  const by = (name: string) => off[name] ?? 0;
  return {
    rows: rows.map((row, i) => ({
      ...row,
      voltage_V: row.voltage_V === null ? null : row.voltage_V * (1 + by("volts")) + by(`volts.${i}`),
      current_A: row.current_A === null ? null : row.current_A * (1 + by("amps")) + by(`amps.${i}`),
      charge_C: row.charge_C === null ? null : row.charge_C * (1 + by("charge")),
    })),
    table: 1 + by("table"),
    kinetics: 1 + by("kinetics"),
    full: Math.min(1, 1 + by("full")),
  };
}

function inputsOf(
  rows: readonly BatteryRow[],
  { voltageStep_V = 0, currentStep_A = 0 }: BatteryReadingsOptions,
  own: Battery,
  tabled: boolean,
): Input[] {
  const { voltmeter, ammeter } = INSTRUMENT;
  // A reading rounded to a step lies anywhere within half of it: JCGM 100:2008, 4.3.7.
  const rounded = (step: number) => step / Math.sqrt(12);
  const [low, high] = batteryKeys.each.keys.rested_voltage.default.range as readonly [number, number];
  return [
    { name: "volts", sd: voltmeter.gain },
    { name: "amps", sd: ammeter.gain },
    // Ampere-hours are counted by the same kind of meter.
    { name: "charge", sd: ammeter.gain },
    { name: "table", sd: tabled ? 0.004 / 1.96 : (high - low) / 2 / NINE_IN_TEN },
    { name: "kinetics", sd: KINETICS_sd },
    { name: "full", sd: FULL_sd },
    ...rows.flatMap(({ voltage_V, current_A }, i) => [
      ...(voltage_V === null
        ? []
        : [
            {
              name: `volts.${i}`,
              sd: Math.hypot(voltmeter.share * own.nominal_V, voltmeter.besides, rounded(voltageStep_V)),
            },
          ]),
      ...(current_A === null
        ? []
        : [
            {
              name: `amps.${i}`,
              sd: Math.hypot(ammeter.share * current_A, ammeter.besides, rounded(currentStep_A)),
            },
          ]),
    ]),
  ];
}

function readOut({ rows, table, kinetics, full }: Read, plan: Plan, { one_ohm, planned }: Defined) {
  const own = plan.train.battery;
  const rested = rows.flatMap((row) => (row.reading === "rested" ? [row.voltage_V as number] : []));
  const rested_V = rested.length > 0 ? mean(rested) : null;
  const charge = rested_V === null ? Number.NaN : shareAt(own, rested_V / table);
  const loads = rows.filter(({ reading }) => reading === "load");
  const line = lineOf(loads, rested_V);
  const measured_ohm = line?.ohm ?? Number.NaN;
  const emptied = rows.filter(({ reading }) => reading === "emptied");
  const run = { resistance_ohm: line ? measured_ohm : own.resistance_ohm, kinetics, planned };
  const healths = emptied.map((row) => healthFrom(plan, row, full, run));
  return {
    // Of one battery at 25 °C, as its file has it: the whole one's in this air is in proportion.
    told: [charge, (one_ohm * measured_ohm) / own.resistance_ohm, healths.length > 0 ? mean(healths) : Number.NaN],
    rested_V,
    rms: line?.rms ?? 0,
    resistance_ohm: line?.ohm ?? null,
    loads: loads.length,
    from_rest: line !== null && loads.length === 1,
    taken_C: emptied.length > 0 ? mean(emptied.map(({ charge_C }) => charge_C as number)) : null,
    sound_C: emptied.length > 0 ? chargeGiven_C(plan, emptied[0], full, { ...run, health: 1 }) : null,
  };
}

/** Rested volts so far above those of a full battery are still those of charging. */
const CHARGING = 1.016;

/** The charge at which a battery rests at these volts; of a flat stretch, its middle; NaN where it does not rest. */
function shareAt({ rested: { x, y } }: Battery, volts: number): number {
  if (volts > CHARGING * y[y.length - 1]) return Number.NaN;
  if (volts <= y[0]) return x[0];
  if (volts >= y[y.length - 1]) return x[x.length - 1];
  const i = y.findIndex((each) => each >= volts) - 1;
  return y[i + 1] > y[i] ? x[i] + ((x[i + 1] - x[i]) * (volts - y[i])) / (y[i + 1] - y[i]) : (x[i] + x[i + 1]) / 2;
}

/** Volts against amps, straight; from one load through the rested volts. */
function lineOf(loads: readonly BatteryRow[], rested_V: number | null): { ohm: number; rms: number } | null {
  const points = loads.map(({ current_A, voltage_V }) => [current_A as number, voltage_V as number] as const);
  if (points.length === 1 && rested_V !== null) return { ohm: (rested_V - points[0][1]) / points[0][0], rms: 0 };
  if (points.length < 2) return null;
  const [i, v] = [mean(points.map(([each]) => each)), mean(points.map(([, each]) => each))];
  const spread = points.reduce((sum, [each]) => sum + (each - i) ** 2, 0);
  const slope = points.reduce((sum, [amps, volts]) => sum + (amps - i) * (volts - v), 0) / spread;
  const off = points.map(([amps, volts]) => volts - v - slope * (amps - i));
  return { ohm: -slope, rms: Math.sqrt(mean(off.map((each) => each * each))) };
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
