import { G_mps2 } from "../../parts/constants.js";
import type { Train } from "../../train.js";
import {
  fluxTimes,
  gripTimes,
  massTimes,
  withBattery_ohm,
  withCable_ohm,
  withResistance,
  withRested,
} from "./changes.js";
import type { Sureness } from "./doubts.js";
import { both, type Machine } from "./machine.js";
import type { Setting } from "./setting.js";
import { driveDrag_N, gripping, running } from "./settled.js";

/** What a size counts, for people; `times` is a ratio to what the files have. */
export type SizeUnit = "N" | "V" | "A" | "ohm" | "kg" | "share" | "gradient" | "times" | "none";

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
  "none_of_these",
] as const;
export type CauseName = (typeof CAUSES)[number];

export interface Cause {
  readonly cause: CauseName;
  readonly unit: SizeUnit;
  readonly variants: readonly Variant[];
}

/** Sizes tried within a range. */
const TRIED = 13;
const evenly = (from: number, to: number, count = TRIED): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
const byRatio = (from: number, to: number, count = TRIED): number[] =>
  evenly(Math.log(from), Math.log(to), count).map(Math.exp);

/** A fault begins where the doubt about a sound machine ends: this many standard deviations out. */
const OUT_sd = 4;
const beyond = (sd: number): number => Math.expm1(OUT_sd * sd);

/** Every cause that this loco can have, each with the range its size is looked for in: common practice, no source. */
export function causesOf({ machine, levers, inSeries, cell_V }: Setting, sure: Sureness): Cause[] {
  const { train } = machine;
  const { motor, battery } = train;
  const cars = train.vehicles.length > 1;
  const run = running(machine, train, 0, levers.run);
  const full = gripping(machine, train, machine.steep, 1);
  // What it has to spare beyond starting on the level: a fault that takes more has stopped it.
  const spare_N = full.force_N - train.breakaway_N;
  const dragging_N = (least_N: number) => byRatio(least_N, Math.max(1.5 * least_N, 0.45 * spare_N));
  const brake_N = dragging_N(beyond(sure.rolling) * train.rolling_N);
  const chain_N = dragging_N(Math.max(beyond(sure.drag) * driveDrag_N(train), train.rolling_N));
  const weight_N = train.mass_kg * G_mps2;
  // Joints and batteries are known by the volts they take at this loco's own currents.
  const battery_A = Math.max(run.battery_A, full.battery_A);
  const motor_A = Math.max(run.motor_A, full.motor_A);
  const taking_ohm = (current_A: number) =>
    byRatio((0.05 * battery.nominal_V) / current_A, (0.35 * battery.nominal_V) / current_A);
  const one = [1];
  const low = Math.max(0.02, machine.charge - 0.95);
  const causes: Cause[] = [
    { cause: "nothing_wrong", unit: "none", variants: [{ where: "", sizes: one, apply: (m) => m }] },
    {
      cause: "held_wheel",
      unit: "none",
      variants: [
        { where: "the train cannot move", sizes: one, apply: (m) => ({ ...m, blocked: true }) },
        { where: "the driven wheels cannot turn", sizes: one, apply: (m) => ({ ...m, blocked: true, jammed: true }) },
      ],
    },
    {
      cause: "dragging_brake_or_tight_chain",
      unit: "N",
      variants: [
        { where: "a chain too tight", sizes: chain_N, apply: (m, N) => ({ ...driveDragged(m, N), slack: TIGHT }) },
        { where: "a brake on the driven wheels, or a bearing of the drive", sizes: chain_N, apply: driveDragged },
        {
          where: cars ? "a brake on the loco's other wheels" : "a brake on the other wheels",
          sizes: brake_N,
          apply: (m, N) => both(m, (t) => dragged(t, N, t.loco)),
        },
        ...(cars
          ? [
              {
                where: "a brake on a car",
                sizes: brake_N,
                apply: (m: Machine, N: number) => ({ ...m, train: dragged(m.train, N, m.train.vehicles.length - 1) }),
              },
            ]
          : []),
      ],
    },
    {
      cause: "flat_battery",
      unit: "share",
      variants: [
        {
          where: "",
          sizes: evenly(low, Math.max(low + 0.05, machine.charge - 0.35)),
          apply: (m, charge) => ({ ...m, charge }),
        },
      ],
    },
    {
      cause: "old_battery",
      unit: "ohm",
      variants: [
        {
          where: "",
          sizes: taking_ohm(battery_A).map((ohm) => battery.resistance_ohm + ohm),
          apply: (m, ohm) => both(m, (t) => withBattery_ohm(t, ohm)),
        },
      ],
    },
    {
      cause: "bad_battery",
      unit: "V",
      variants: Array.from({ length: inSeries }, (_, i) => ({
        where: inSeries > 1 ? `battery ${i + 1}` : "",
        sizes: evenly(0.25 * cell_V, 2.2 * cell_V),
        apply: (m: Machine, short_V: number) => ({
          ...both(m, (t) => withRested(withWeak_ohm(t, inSeries, short_V / cell_V), (V) => V - short_V)),
          weak: { battery: i + 1, short_V },
        }),
      })),
    },
    {
      cause: "bad_joint",
      unit: "ohm",
      variants: [
        {
          where: "between battery and controller",
          sizes: taking_ohm(battery_A),
          apply: (m, ohm) => both(m, (t) => withCable_ohm(t, t.batteryCable_ohm + ohm)),
        },
        {
          where: "between controller and motor",
          sizes: taking_ohm(motor_A),
          apply: (m, ohm) => both(m, (t) => ({ ...t, motorPath_ohm: t.motorPath_ohm + ohm })),
        },
      ],
    },
    {
      cause: "open_circuit",
      unit: "none",
      variants: [
        { where: "between battery and controller", sizes: one, apply: (m) => ({ ...m, open: "battery" }) },
        { where: "between controller and motor", sizes: one, apply: (m) => ({ ...m, open: "motor" }) },
      ],
    },
    {
      cause: "current_limit_low",
      unit: "A",
      variants: [
        {
          where: "",
          sizes: byRatio(0.15 * full.motor_A, 0.5 * full.motor_A),
          apply: (m, motorLimit_A) => both(m, (t) => ({ ...t, controller: { ...t.controller, motorLimit_A } })),
        },
      ],
    },
    {
      cause: "cutout_set_wrong",
      unit: "none",
      variants: [
        { where: "it acts on the level already", sizes: one, apply: (m) => ({ ...m, cutsOut: "running" }) },
        { where: "it acts at a restart", sizes: one, apply: (m) => ({ ...m, cutsOut: "restart" }) },
      ],
    },
    {
      cause: "wrong_sprocket_or_wheel",
      unit: "times",
      variants: [
        {
          where: "a lower gear than the files have",
          weight: GEAR,
          sizes: byRatio(1.09, 1.4),
          apply: (m, by) => ({ ...both(m, (t) => ratioTimes(t, by)), teeth: false }),
        },
        {
          where: "a higher gear than the files have",
          weight: GEAR,
          sizes: byRatio(1 / 1.09, 1 / 1.4),
          apply: (m, by) => ({ ...both(m, (t) => ratioTimes(t, by)), teeth: false }),
        },
        { where: "larger wheels", sizes: byRatio(1.08, 1.3), apply: (m, by) => both(m, (t) => wheelTimes(t, by)) },
        {
          where: "smaller wheels",
          sizes: byRatio(1 / 1.08, 1 / 1.3),
          apply: (m, by) => both(m, (t) => wheelTimes(t, by)),
        },
      ],
    },
    {
      cause: "wrong_battery_voltage",
      unit: "times",
      variants: factorsFor(inSeries).map((by) => ({
        where: "",
        sizes: [by],
        apply: (m: Machine) =>
          both(m, (t) =>
            withBattery_ohm(
              withRested(t, (volts) => volts * by),
              t.battery.resistance_ohm * by,
            ),
          ),
      })),
    },
    {
      cause: "slipping_sprocket",
      unit: "N",
      variants: [
        {
          where: "",
          sizes: byRatio(0.05 * full.force_N, 0.4 * full.force_N),
          apply: (m, sprockets_N) => ({ ...m, sprockets_N }),
        },
      ],
    },
    {
      cause: "poor_grip",
      unit: "times",
      variants: [
        {
          where: "",
          sizes: byRatio(0.2, 0.5).map((by) => (by * full.force_N) / (train.adhesion.static * train.driven_N)),
          apply: (m, by) => both(m, (t) => gripTimes(t, by)),
        },
      ],
    },
    {
      cause: "reversed_lead",
      unit: "none",
      variants: [{ where: "", sizes: one, apply: (m) => ({ ...m, forwards: false }) }],
    },
    {
      cause: "heavier_train",
      unit: "kg",
      variants: [
        {
          where: "",
          sizes: byRatio(0.35, Math.max(0.5, Math.min(1.5, (0.45 * spare_N) / train.breakaway_N))).map(
            (by) => by * train.mass_kg,
          ),
          apply: (m, kg) => ({ ...m, train: massTimes(m.train, 1 + kg / m.train.mass_kg) }),
        },
      ],
    },
    {
      cause: "steeper_place",
      unit: "gradient",
      variants: [
        {
          where: "the stretch called level",
          sizes: byRatio(0.004, Math.max(0.008, Math.min(0.03, (0.45 * spare_N) / weight_N))),
          apply: (m, by) => ({ ...m, level: m.level + by }),
        },
        {
          where: "the steepest place",
          sizes: byRatio(0.006, 0.06),
          apply: (m, by) => ({ ...m, steep: m.steep + by }),
        },
      ],
    },
  ];
  if (motor.kind === "permanent-magnet") {
    causes.push({
      cause: "weak_magnets",
      unit: "times",
      variants: [
        {
          where: "",
          sizes: byRatio(0.45, 1 / (1 + beyond(sure.flux))),
          apply: (m, by) => both(m, (t) => fluxTimes(t, by)),
        },
      ],
    });
  }
  return causes.sort((a, b) => CAUSES.indexOf(a.cause) - CAUSES.indexOf(b.cause));
}

/** A brake or a bearing that drags on one vehicle: as much to keep it rolling as to start it. */
const dragged = (t: Train, drag_N: number, vehicle: number): Train =>
  withResistance(t, (r, v, i) => {
    const more = i === vehicle ? drag_N / (v.mass_kg * G_mps2) : 0;
    return { rolling: r.rolling + more, breakaway: r.breakaway + more };
  });

/** A chain that drags has this share of the slack it should have, or less (common practice, no source). */
const TIGHT = 0.2;

/** Sprockets are changed more often than wheels are of another size (common practice, no source). */
const GEAR = 4;

/** Something that drags wherever the wheels turn, on stands too; the force is at the driven rims. */
const driveDragged = (m: Machine, drag_N: number): Machine =>
  both(m, (t) => {
    const more_Nm = (drag_N * t.radius_m * t.gears.efficiency) / t.gears.ratio;
    return { ...t, motor: { ...t.motor, drag_Nm: t.motor.drag_Nm + more_Nm } };
  });

/** One battery of the string grows in resistance as its cells go: fivefold when a whole one is lost (no source). */
const withWeak_ohm = (t: Train, inSeries: number, cellsLost: number): Train =>
  withBattery_ohm(t, t.battery.resistance_ohm * (1 + (4 * cellsLost) / inSeries));

/** Other sprockets: what turns behind them is seen by the ratio squared. */
function ratioTimes(t: Train, by: number): Train {
  const rotor_kg = t.motor.inertia_kgm2 * (t.gears.ratio / t.radius_m) ** 2;
  const rim_kg = t.rim_kg + rotor_kg * (by * by - 1);
  return {
    ...t,
    gears: { ...t.gears, ratio: t.gears.ratio * by },
    rim_kg,
    effective_kg: t.effective_kg - t.rim_kg + rim_kg,
  };
}

const wheelTimes = (t: Train, by: number): Train => ({ ...t, radius_m: t.radius_m * by });

/** One battery too few or too many; of one alone, half or twice its volts. */
function factorsFor(inSeries: number): number[] {
  const others = [inSeries - 1, inSeries + 1, inSeries + 2]
    .filter((count) => count > 0)
    .map((count) => count / inSeries);
  return inSeries === 1 ? [0.5, ...others] : others;
}
