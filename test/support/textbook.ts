import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { MotorTables } from "../../packages/sim-core/src/parts/motor.tables.js";
import type { TrackColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { madePlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import { level } from "./profiles.js";

const G_mps2 = 9.80665;
const AIR_kgpm3 = 1.225;

/**
 * A train brought down to the terms of a textbook: one vehicle, resisted by A + B v + C v², pulled by an ideal motor. The
 * motor's constant, the ratio and the wheels' radius are all 1, so that amperes are newtons, rad/s are m/s and volts are
 * m/s too; the winding keeps its temperature, nothing turns free of charge but what `rotating_kg` says.
 */
export interface Textbook {
  mass_kg: number;
  /** Rotating parts, as mass at the tread. */
  rotating_kg?: number;
  A_N?: number;
  B_Nspm?: number;
  C_Ns2pm2?: number;
  length_m?: number;
  /** Most pull, N. */
  pull_N?: number;
  /** Most power, W; the winding is then all but without resistance. */
  power_W?: number;
  /** Volts of a battery without resistance, the same number as the speed at which the pull is gone. */
  battery_V?: number;
  winding_ohm?: number;
  track?: TrackColumns;
  kind?: "circuit" | "end-to-end";
  adhesion?: number;
  driven_share?: number;
  /** Length of the curve rule: resistance as a share of weight is this over the radius. */
  sliding_length_m?: number;
  duration_s?: number;
}

/** A motor that keeps its temperature whatever it is given. */
export const NEVER_WARM = {
  winding_capacity_JpK: 1e15,
  case_capacity_JpK: 1e15,
  winding_to_case_KpW: 1,
  case_to_air_KpW: 1,
} as const;

/** @param parts of the loco to put in place of the ideal ones; @param tables what the files hold that its motor names */
export function textbookPlan(book: Textbook, parts: Partial<LocoDefinition> = {}, tables: MotorTables = {}): Plan {
  const weight_N = book.mass_kg * G_mps2;
  const volts = book.battery_V ?? 1000;
  const rolling = (book.A_N ?? 0) / weight_N;
  return madePlan(
    {
      track: { kind: book.kind ?? "circuit", adhesion: book.adhesion ?? 1e9 },
      driver: { mass_kg: 0 },
      drag_area_m2: (2 * (book.C_Ns2pm2 ?? 0)) / AIR_kgpm3,
      air_temperature_degC: 20,
      lever: 1,
      ...(book.duration_s === undefined ? { laps: 1 } : { duration_s: book.duration_s }),
    },
    {
      name: "textbook",
      gauge_m: 0.18,
      mass_kg: book.mass_kg,
      length_m: book.length_m ?? 1,
      wheels: {
        diameter_m: 2,
        driven_axles: 2,
        driven_share: book.driven_share ?? 1,
        wheelset_inertia_kgm2: (book.rotating_kg ?? 0) / 2,
      },
      resistance: {
        rolling,
        breakaway: rolling,
        rolling_per_speed_spm: (book.B_Nspm ?? 0) / weight_N,
        sliding_length_m: book.sliding_length_m ?? 0,
      },
      motor: {
        constants: { resistance_ohm: book.winding_ohm ?? 1e-12, torque_constant_NmpA: 1 },
        inertia_kgm2: 0,
        magnet: "none",
        heat: NEVER_WARM,
      },
      gears: [{ ratio: 1, efficiency: 1, driven_inertia_kgm2: 0 }],
      controller: {
        motor_current_limit_A: book.pull_N ?? Number.POSITIVE_INFINITY,
        battery_current_limit_A: book.power_W === undefined ? Number.POSITIVE_INFINITY : book.power_W / volts,
        on_resistance_ohm: 0,
        standing_power_W: 0,
        undervoltage_cutout_V: 0,
        ramp_s: 0,
      },
      battery: {
        each: {
          voltage_V: volts,
          capacity: [{ capacity_C: 1e9 }],
          rested_voltage: [
            [0, volts],
            [1, volts],
          ],
          resistance_ohm: 0,
        },
      },
      wiring: { battery_cable: { length_m: 0 }, motor_cable: { length_m: 0 } },
      ...parts,
    },
    book.track ?? level(),
    tables,
  );
}
