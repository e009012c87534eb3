import { describe, expect, it } from "vitest";
import { motion } from "../../packages/sim-core/src/motion.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { NEVER_WARM, type Textbook, textbookPlan } from "../support/textbook.js";
import { type Check, checks } from "./check.js";

// Geared drives that speed up, from the textbooks: what turns before the gears pays nothing of their loss. Each is put
// together as a loco (motor, gears, wheels, a mass that rolls) and the derivative is asked.
const LB_kg = 0.45359237;
const FT_m = 0.3048;
/** g as the books take it. */
const BEVAN_mps2 = 32.2 * FT_m;
const KHURMI_mps2 = 9.81;

interface Machine extends Textbook {
  rotor_kgm2: number;
  ratio: number;
  efficiency: number;
  radius_m?: number;
  /** About the axle. */
  wheels_kgm2?: number;
  motor_Nm?: number;
}

/** The book's machine as a plan; the motor's constant is 1, so that its current limit is a torque. */
const planOf = ({ rotor_kgm2, ratio, efficiency, radius_m = 1, wheels_kgm2 = 0, motor_Nm = 0, ...book }: Machine) =>
  textbookPlan(
    { ...book, pull_N: motor_Nm },
    {
      gears: [{ ratio, efficiency, driven_inertia_kgm2: wheels_kgm2 }],
      wheels: { diameter_m: 2 * radius_m, driven_axles: 2, driven_share: 1, wheelset_inertia_kgm2: 0 },
      motor: {
        constants: { resistance_ohm: 1e-12, torque_constant_NmpA: 1 },
        inertia_kgm2: rotor_kgm2,
        magnet: "none",
        heat: NEVER_WARM,
      },
    },
  );

/** How the machine speeds up from rest with its motor's torque, and a pull from outside. */
function acceleration_mps2(machine: Machine, pulled_N = 0): number {
  const w = startWorking(planOf({ ...machine, C_Ns2pm2: 1 }), { chainage_m: 10 });
  w.mode.train = w.mode.rim = 1;
  // A wind in its back pulls as a falling weight does.
  w.wind_mps = -Math.sqrt(pulled_N);
  if (machine.motor_Nm) {
    w.lever = 1;
    w.mode.powered = true;
  }
  motion(w, new Float64Array(at.SIZE), w.y, w.time_s);
  return w.now.acceleration_mps2;
}

const half = (unit: number, expected: number) => ({ within: unit / 2 / expected, because: "half of the last place" });

describe("driving", () => {
  // 14 t up 1 in 20 against 1.2 kN at 0.1 m/s², a drum of 1.25 t and 1 m with a radius of gyration of 450 mm, 40 to 1 at
  // 0.85, an armature of 110 kg and 125 mm: 154.46 N m.
  const haulage = "Khurmi and Gupta, Theory of Machines, ex. 3.4, p. 35";
  const truck = {
    mass_kg: 14_000,
    A_N: (14_000 * KHURMI_mps2) / 20 + 1200,
    radius_m: 0.5,
    wheels_kgm2: 1250 * 0.45 ** 2,
    rotor_kgm2: 110 * 0.125 ** 2,
    ratio: 40,
    efficiency: 0.85,
  };
  // The car of 1500 kg at its best ratio, 22 to 1, up a slope of 0.25 against 300 N: 1.38 m/s².
  const car315 = {
    mass_kg: 1500,
    A_N: 1500 * KHURMI_mps2 * 0.25 + 300,
    radius_m: 0.3,
    wheels_kgm2: 8,
    rotor_kgm2: 1,
    efficiency: 0.85,
    motor_Nm: 200,
  };
  checks([
    {
      source: haulage,
      what: "m/s² that 154.46 N m give",
      got: acceleration_mps2({ ...truck, motor_Nm: 154.46 }),
      expected: 0.1,
      within: 2e-4,
      because: "0.005 N m are 1.4e-5 m/s²",
    },
    {
      source: "Khurmi and Gupta, the same, ex. 3.15, p. 52",
      what: "m/s² at 22 to 1",
      got: acceleration_mps2({ ...car315, ratio: 22 }),
      expected: 1.38,
      ...half(0.01, 1.38),
    },
  ]);

  // A car in its four gears: at the tread the engine pulls 29.5 lbf and weighs 4.54 lb for a ratio of 1, all else weighs
  // 1648 lb; 0.82 comes through the lower gears and 0.90 through the top one.
  const bevan = "T. Bevan, The Theory of Machines, chapter 2, ex. 11, p. 49";
  const inGear = (ratio: number, efficiency: number) =>
    acceleration_mps2({
      ...{ mass_kg: 1648 * LB_kg, rotor_kgm2: 4.54 * LB_kg, ratio, efficiency },
      motor_Nm: 29.5 * LB_kg * BEVAN_mps2,
    }) / FT_m;
  const gears: [number, number, number][] = [
    [22.5, 0.82, 4.96],
    [12.5, 0.82, 4.37],
    [7.3, 0.82, 3.08],
    [5.4, 0.9, 2.61],
  ];
  checks(
    gears.map(
      ([ratio, efficiency, expected]): Check => ({
        source: bevan,
        what: `ft/s² at ${ratio} to 1`,
        got: inGear(ratio, efficiency),
        expected,
        ...half(0.01, expected),
      }),
    ),
  );
  // By the same book's equation, F/M at its greatest: G = √(M/(η J)), here √(1648/(0.82 · 4.54)) = 21.04, and 4.972 ft/s².
  it("is quickest at 21.04 to 1", () => {
    expect(inGear(21.04, 0.82)).toBeCloseTo(4.972, 3);
    for (const beside of [-0.1, -0.02, 0.02, 0.1])
      expect(inGear(21.04 + beside, 0.82)).toBeLessThan(inGear(21.04, 0.82));
  });
  // Against a load the best ratio is R/P + √((R/P)² + M/(η J)) with P the pull for a ratio of 1: 21.77, "say 22".
  it("is quickest up a slope at 21.77 to 1", () => {
    const up = (ratio: number) => acceleration_mps2({ ...car315, ratio });
    for (const beside of [-0.1, 0.1]) expect(up(21.77 + beside)).toBeLessThan(up(21.77));
  });

  // Khurmi and Gupta, ex. 3.17, p. 55: a motor of 30 N m and 0.6 kg m² brings a machine of 45 kg m² and 100 N m through 9 to 1
  // at 0.95 to 60 rpm in 3.7 s.
  it("brings a machine to its speed in 3.7 s", () => {
    const machine = { mass_kg: 45, A_N: 100, rotor_kgm2: 0.6, ratio: 9, efficiency: 0.95, motor_Nm: 30 };
    const speed_mps = (duration_s: number) => run(planOf({ ...machine, duration_s })).y[at.SPEED];
    expect(speed_mps(3.65)).toBeLessThan(2 * Math.PI);
    expect(speed_mps(3.75)).toBeGreaterThan(2 * Math.PI);
  });
});

describe("driven", () => {
  // A weight on a cord round a drum that drives a rotor through gears: without loss, and with 0.9.
  const khurmi = "Khurmi and Gupta, Theory of Machines, ex. 3.13, p. 50";
  const bevan = "T. Bevan, The Theory of Machines, chapter 2, ex. 10, p. 48";
  const falls = (source: string, expected: number, unit: number, got: number, efficiency: number): Check => ({
    ...{ source, what: `falls at, through ${efficiency}`, got, expected },
    ...half(unit, expected),
  });
  const drum313 = (efficiency: number) =>
    acceleration_mps2(
      { mass_kg: 75, radius_m: 0.3, wheels_kgm2: 100, rotor_kgm2: 5, ratio: 6, efficiency },
      75 * KHURMI_mps2,
    );
  const LBFT2_kgm2 = LB_kg * FT_m ** 2;
  const drum10 = (efficiency: number) =>
    acceleration_mps2(
      {
        ...{ mass_kg: 150 * LB_kg, radius_m: (8 / 12) * FT_m, ratio: 5, efficiency },
        wheels_kgm2: 200 * LBFT2_kgm2,
        rotor_kgm2: 15 * LBFT2_kgm2,
      },
      150 * LB_kg * BEVAN_mps2,
    ) / FT_m;
  checks([
    falls(khurmi, 0.231, 0.001, drum313(1), 1),
    falls(khurmi, 0.216, 0.001, drum313(0.9), 0.9),
    falls(bevan, 3.35, 0.01, drum10(1), 1),
    falls(bevan, 3.14, 0.01, drum10(0.9), 0.9),
  ]);
});
