import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { WholeColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { madeOuting, type Outing } from "../../packages/sim-core/src/studies/trial/machine.js";
import { madePlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import { profile } from "./profiles.js";

/** An invented loco of the usual sort, with every loss there is: knee, polarisation, brushes, drag, gears, cables, lamps. */
export const LOCO: LocoDefinition = {
  name: "invented",
  gauge_m: 0.184,
  mass_kg: 140,
  length_m: 1.6,
  wheels: { diameter_m: 0.165, driven_axles: 2, axles: 2, wheelset_inertia_kgm2: 0.05 },
  resistance: { rolling: 0.01, rolling_per_speed_spm: 0.0008, breakaway: 0.015, sliding_length_m: 0.07 },
  motor: {
    nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500, no_load_current_A: 3 },
    inertia_kgm2: 0.0025,
    magnet: "ferrite",
    brush_drop_V: 0.4,
    heat: { mass_kg: 6, insulation: "B" },
  },
  gears: [
    { teeth: [11, 45], efficiency: 0.96, driven_inertia_kgm2: 0.002 },
    { teeth: [12, 30], efficiency: 0.96, driven_inertia_kgm2: 0 },
  ],
  controller: {
    motor_current_limit_A: 60,
    battery_current_limit_A: 45,
    on_resistance_ohm: 0.005,
    standing_power_W: 2,
    undervoltage_cutout_V: 19,
    ramp_s: 2,
  },
  battery: {
    chemistry: "lead-acid",
    in_series: 2,
    each: {
      voltage_V: 12,
      kinetic: { capacity_C: 85 * 3600, available_share: 0.4, exponent_rate_ps: 0.9 / 3600 },
      resistance_ohm: 0.006,
      polarisation: { resistance_ohm: 0.004, time_s: 60 },
    },
  },
  wiring: {
    battery_cable: { length_m: 2, area_mm2: 16 },
    motor_cable: { length_m: 1.5, area_mm2: 16 },
    breaker: { rating_A: 63, curve: "C" },
    accessories_W: 10,
  },
};

/** An invented working: two cars and four people. */
export const PLAN: PlanDefinition = {
  air_temperature_degC: 15,
  track: { kind: "circuit", rail: "dry" },
  driver: { mass_kg: 80 },
  cars: [{ mass_kg: 60, length_m: 1.8, seats: 3, count: 2, wheelset_inertia_kgm2: 0.004, wheel_diameter_m: 0.11 }],
  passengers: 4,
  drag_area_m2: 0.7,
  lever: 0.8,
};

/** An invented circuit of 240 m: a climb at 1 in 60, a fall at 1 in 50, two curves. */
export const CIRCUIT: WholeColumns = profile([
  [0, 0],
  [40, 0, 25],
  [60, 0.2],
  [110, 1.0333333],
  [150, 1.0333333, 15],
  [165, 1.0333333],
  [216.666665, 0],
  [240, 0],
]);

/** The invented train on a track, with whatever is to be different, be it beyond what a definition may have. */
export function clubPlan(
  columns: WholeColumns = CIRCUIT,
  plan: Partial<PlanDefinition> = {},
  loco: Partial<LocoDefinition> = {},
): Plan {
  // A plan drives to a speed or holds a lever, and runs laps or a time.
  const { lever, ...held } = PLAN;
  const base = plan.speed_mps === undefined ? { ...held, lever } : held;
  return madePlan({ ...base, ...plan } as PlanDefinition, { ...LOCO, ...loco }, columns);
}

/** The files of the same, driven at walking pace, with whatever is to be different. */
export function filesOf(loco: Partial<LocoDefinition> = {}, plan: Partial<PlanDefinition> = {}): PlanFiles {
  const { lever: _, ...held } = PLAN;
  return { plan: { ...held, speed_mps: 1.5, ...plan }, loco: { ...LOCO, ...loco }, track: CIRCUIT };
}

/** The invented train on its first outing. */
export const clubOuting = (
  loco: Partial<LocoDefinition> = {},
  plan: Partial<PlanDefinition> = {},
  columns: WholeColumns = CIRCUIT,
): Outing => {
  const { lever, ...held } = PLAN;
  const base = plan.speed_mps === undefined ? { ...held, lever } : held;
  return madeOuting({ ...base, ...plan } as PlanDefinition, { ...LOCO, ...loco }, columns);
};
