import { describe } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { both, type Machine, machineOf } from "../../packages/sim-core/src/studies/trial/machine.js";
import { readingsOf } from "../../packages/sim-core/src/studies/trial/readings.js";
import { settingOf } from "../../packages/sim-core/src/studies/trial/setting.js";
import { driveAt, onStands, running } from "../../packages/sim-core/src/studies/trial/settled.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { clubOuting, LOCO } from "../support/club.js";
import { type Textbook, textbookPlan } from "../support/textbook.js";
import { checks, PRINTED, RPM_radps, UNROUNDED } from "./check.js";

// What the sheet of a first outing expects, against machines worked out elsewhere. The wheels have a radius of 1 m and turn
// once for a hundred turns of the motor, so that the rims run at a hundredth of its rad/s and pull a hundred times its torque.
const RATIO = 100;

/** A machine of one motor on one battery without a resistance, unless given one. */
function machine(book: Partial<Textbook>, motor: LocoDefinition["motor"], battery_V: number, battery_ohm = 0): Machine {
  const gears: LocoDefinition["gears"] = [{ ratio: RATIO, efficiency: 1, driven_inertia_kgm2: 0 }];
  const battery: LocoDefinition["battery"] = {
    each: {
      voltage_V: battery_V,
      capacity: [{ capacity_C: 1e9 }],
      rested_voltage: [
        [0, battery_V],
        [1, battery_V],
      ],
      resistance_ohm: battery_ohm,
    },
  };
  const parts = { motor: { inertia_kgm2: 0, magnet: "none" as const, ...motor }, battery, gears };
  const plan = textbookPlan({ mass_kg: 100, ...book }, parts);
  return machineOf({ light: plan, train: plan });
}

const row = (source: string, what: string, got: number, expected: number, tolerance = UNROUNDED) => ({
  ...{ source, what, got, expected, ...tolerance },
});

describe("on stands and held", () => {
  const plate = { voltage_V: 24, current_A: 14, speed_radps: 2750 * RPM_radps, power_W: 250, no_load_current_A: 2 };
  const scooter = machine({}, { nameplate: plate }, 24);
  const of = "250 W scooter motor's nameplate (24 V 14 A 2750 rpm in public listings), 2 A free assumed";
  const free = onStands(scooter, 1);
  const held = driveAt(scooter, scooter.light, 0, 1);
  // A motor of 48 V that takes 0.8 A at 2400 turns unloaded, 1 ohm: the drag torque is the loss there over the speed.
  const free_radps = 2400 * RPM_radps;
  const flux_NmpA = (48 - 0.8) / free_radps;
  const bakshi = machine({}, { constants: { resistance_ohm: 1, torque_constant_NmpA: flux_NmpA } }, 20);
  checks([
    row(of, "turns on stands, lever full", free.speed_mps * RATIO, 3108.28571 * RPM_radps),
    row(of, "amps on stands", free.battery_A, 2),
    row(of, "amps held, lever full", held.motor_A, 106.105263),
    row(of, "torque held", held.force_N / RATIO, 7.53130329),
    row(
      "three states of one motor, direct-current exercises",
      "amps held at 20 V",
      driveAt(bakshi, bakshi.light, 0, 1).motor_A,
      20,
    ),
    row(
      "three states of one motor, direct-current exercises",
      "torque held at 20 V",
      driveAt(bakshi, bakshi.light, 0, 1).force_N / RATIO,
      3.75605666,
    ),
  ]);
});

describe("running", () => {
  // A scooter drive against a load that grows with the square of the speed; flux 1.67 N m / 5.75 A.
  const drive = machine(
    { C_Ns2pm2: 0.001 * RATIO ** 3 },
    { constants: { resistance_ohm: 2.4, torque_constant_NmpA: 1.67 / 5.75 } },
    48,
  );
  const settled = running(drive, drive.train, 0, 1);
  const exam = "examination on drives with permanent magnet motors, summer 2025, task 2";
  checks([
    row(exam, "speed where pull meets load", settled.speed_mps * RATIO, 579.080517 * RPM_radps),
    row(exam, "amps there", settled.motor_A, 12.6615396),
    row(exam, "torque there", settled.force_N / RATIO, 3.67735149),
    row(exam, "speed as printed", settled.speed_mps * RATIO, 60.63, PRINTED),
    row(exam, "amps as printed", settled.motor_A, 12.67, PRINTED),
  ]);
});

describe("battery, chopper and motor", () => {
  const motor = { constants: { resistance_ohm: 1 / 7, torque_constant_NmpA: 0.0763943727 } };
  const m = machine({}, motor, 25.2, 0.02);
  const derived = "the chopper's equation solved by hand: 25.2 V, 20 mohm, motor of 1/7 ohm";
  const turning = driveAt(m, m.train, 150 / RATIO, 0.6);
  const full = driveAt(m, m.train, (2500 * RPM_radps) / RATIO, 1);
  const held = driveAt(m, m.train, 0, 0.3);
  checks([
    row(derived, "motor amps, lever 0.6 at 150 rad/s", turning.motor_A, 24.3963335),
    row(derived, "battery amps there", turning.battery_A, 14.6378001),
    row(derived, "battery volts there", turning.battery_V, 24.907244),
    row(derived, "torque there", turning.force_N / RATIO, 1.86374259),
    row(derived, "motor volts there", turning.motor_V, 0.6 * 24.907244),
    row(derived, "motor amps, lever full at 2500 turns", full.motor_A, 31.9298246),
    row(derived, "battery volts there", full.battery_V, 24.5614035),
    row(derived, "motor amps, lever 0.3 held", held.motor_A, 52.261505),
    row(derived, "battery amps there", held.battery_A, 15.6784515),
    row(derived, "motor amps held, lever full, cold", driveAt(m, m.train, 0, 1).motor_A, 154.736842),
  ]);
  // Copper 0.393 %/K, ferrite -0.20 %/K: the same motor where all of it is as hot as the air.
  const ferrite = machine({}, { ...motor, magnet: "ferrite" }, 25.2, 0.02);
  const hot = { ...ferrite, air_degC: 80 };
  const hot_ohm = (1 + 0.00393 * 60) / 7;
  checks([
    row(
      "copper and ferrite coefficients of handbooks, by hand",
      "amps held at 80 °C",
      driveAt(hot, hot.train, 0, 1).motor_A,
      25.2 / (hot_ohm + 0.02),
    ),
    row(
      "copper and ferrite coefficients of handbooks, by hand",
      "torque held at 80 °C",
      driveAt(hot, hot.train, 0, 1).force_N / RATIO,
      (0.88 * 0.0763943727 * 25.2) / (hot_ohm + 0.02),
    ),
  ]);
});

describe("pulled by hand", () => {
  const setting = settingOf(clubOuting(), LOCO);
  const read = (reading: string, m: Machine) =>
    readingsOf(setting)
      .find((each) => each.reading === reading)
      ?.value(statesOf(setting, m)) ?? Number.NaN;
  // 87 N one way and 9 N the other move 800 kg steadily: half the sum is rolling, half the difference gravity.
  const free = both(setting.machine, (t) => ({ ...t, motor: { ...t.motor, drag_Nm: 0 } }));
  const hauled = { ...free, level: 0.00497, train: { ...free.train, mass_kg: 800, rolling_N: 48 } };
  const halves = "a train pulled both ways, by hand";
  const near = { within: 1e-3, because: "the gradient is given to three figures" };
  checks([
    row(halves, "pull one way", read("roll_train", hauled), 87, near),
    row(halves, "pull the other way", read("roll_train_back", hauled), 9, { ...near, within: 2e-3 }),
  ]);

  // Two sprockets of a size: the run is as long as the centres are apart.
  const gears: LocoDefinition["gears"] = [{ teeth: [20, 20], chain: "08B", centres_m: 46.5 * 0.0254 }, { ratio: 10 }];
  const chained = settingOf(clubOuting({ gears }), { ...LOCO, gears });
  const slack_mm =
    readingsOf(chained)
      .find(({ reading }) => reading === "chain_1_slack")
      ?.value(statesOf(chained, chained.machine)) ?? Number.NaN;
  checks([
    row(
      "HKK, installation: 46.5 in and 4 % make 1.86 in, and half of that where a drive starts, stops and reverses",
      "slack of a chain, mm",
      slack_mm,
      (1.86 / 2) * 25.4,
    ),
  ]);
});
