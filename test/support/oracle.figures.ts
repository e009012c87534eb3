import { LOCO } from "./club.js";
import type { OracleTrain } from "./oracle.js";

const HOUR_s = 3600;

/** An invented circuit over one hill. */
export const POSTS = [
  [0, 0],
  [30, 0, 25],
  [45, 0.15],
  [85, 0.95, 18],
  [105, 0.95],
  [140, 0],
  [150, 0],
] as const;

const HEAT = { winding_JpK: 900, case_JpK: 1800, windingToCase_KpW: 0.35, caseToAir_KpW: 1.1 };
/** What is different in the invented loco: heat by its four figures, and lower current limits. */
export const LOCO_PARTS = {
  motor: {
    ...LOCO.motor,
    heat: {
      winding_capacity_JpK: HEAT.winding_JpK,
      case_capacity_JpK: HEAT.case_JpK,
      winding_to_case_KpW: HEAT.windingToCase_KpW,
      case_to_air_KpW: HEAT.caseToAir_KpW,
    },
  },
  controller: { ...LOCO.controller, motor_current_limit_A: 40, battery_current_limit_A: 33 },
};

/** The invented train's figures worked out by hand from its definitions: 15 °C, two cars of 60 kg with 150 kg aboard. */
export function figures(): OracleTrain {
  const torque_Nm = 500 / 272;
  const k = torque_Nm / (26.7 - 3);
  const warmth = 0.9 + (0.1 * (15 - 10)) / (25 - 10);
  const stiff = 1 + (0.4 * (25 - 15)) / 25;
  const cable_ohmpm = (1.21 / 1000) * (1 - 5 * 0.00393);
  const total_C = 85 * HOUR_s * warmth;
  const [c, rate] = [0.4, 0.9 / HOUR_s];
  const ratio = (45 / 11) * (30 / 12);
  const radius_m = 0.165 / 2;
  // What the label says, a discharge in 20 hours: q k'T c / (1 - e^(-k'T) + c (k'T - 1 + e^(-k'T))), without the cold.
  const turns = rate * 20 * HOUR_s;
  const settled = 1 - Math.exp(-turns);
  const label_C = (85 * HOUR_s * turns * c) / (settled + c * (turns - settled));
  const car = { kg: 210, m: 1.8, c0: 0.01, c1: 0.0008, start: 0.015, curve_m: 0.2 * (0.184 + 2.2 * 0.184) * 0.5 };
  return {
    vehicles: [{ kg: 220, m: 1.6, c0: 0.01, c1: 0.0008, start: 0.015, curve_m: 0.07 }, car, car],
    rolling_extra_kg: (2 * 4 * 0.004) / 0.055 ** 2,
    turning_kg: [(0.0025 * ratio ** 2) / radius_m ** 2, (0.002 * 2.5 ** 2) / radius_m ** 2, (2 * 0.05) / radius_m ** 2],
    dragArea_m2: 0.7,
    radius_m,
    ratio,
    efficiency: [0.96, 0.96],
    motor: {
      k,
      R20: (24 - k * 272 - 0.4) / 26.7,
      friction_Nm: 3 * k,
      alpha: -0.002,
      brush_V: 0.4,
      brushFull_A: 0.267,
    },
    heat: { Cw: HEAT.winding_JpK, Cc: HEAT.case_JpK, Rwc: HEAT.windingToCase_KpW, Rca: HEAT.caseToAir_KpW },
    motorPath_ohm: 0.005 + 1.5 * cable_ohmpm,
    source_ohm: 2 * 0.006 * stiff + 2 * cable_ohmpm,
    battery_ohm: 2 * 0.006 * stiff,
    standing_A: (2 + 10) / 24,
    motorLimit_A: 40,
    batteryLimit_A: 33,
    wells: { total_C, label_C: label_C * warmth, c, rate },
    rested: [
      [0, 23.78],
      [0.25, 24.12],
      [0.5, 24.48],
      [0.75, 24.9],
      [1, 25.3],
    ],
    kneeFill: 0.15,
    kneeFoot_V: 2 * (1.75 * 6 + (0.006 * label_C) / (20 * HOUR_s)),
    polarisation: { R1: 2 * 0.004, tau: 60 },
    air_degC: 15,
    posts: [...POSTS],
  };
}
