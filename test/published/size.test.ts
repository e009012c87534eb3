import { describe } from "vitest";
import type { SizeAnswer } from "../../packages/sim-core/src/studies/size/answer.js";
import { stopWithin } from "../../packages/sim-core/src/studies/size/braking.js";
import { madeSizing } from "../../packages/sim-core/src/studies/size/input.js";
import { size } from "../../packages/sim-core/src/studies/size/size.js";
import { level, slope } from "../support/profiles.js";
import { checks, UNROUNDED } from "./check.js";

const G_mps2 = 9.80665;
const kmh = 1 / 3.6;

/** A train as the traction books give it; they take g as 9.8 or 9.81. */
interface Book {
  mass_t: number;
  g_mps2?: number;
  /** Of the weight; uphill. */
  gradient?: number;
  resistance_Npt: number;
  /** Allowed for what turns, as a share of the mass. */
  rotating?: number;
  speed_kmh: number;
  acceleration_kmhps: number;
  gear?: number;
  efficiency?: number;
  wheel_m?: number;
  motor_efficiency?: number;
}

function sized(book: Book, rotor_kgm2pW = 0): SizeAnswer {
  const g_mps2 = book.g_mps2 ?? 9.8;
  const mass_kg = 1000 * book.mass_t;
  const wheel_m = book.wheel_m ?? 1;
  const rolling = book.resistance_Npt / 1000 / G_mps2;
  const sine = ((book.gradient ?? 0) * g_mps2) / G_mps2;
  const sizing = madeSizing(
    {
      track: { kind: "end-to-end" },
      driver: { mass_kg: 0 },
      drag_area_m2: 0,
      speed_mps: book.speed_kmh * kmh,
      acceleration_mps2: book.acceleration_kmhps * kmh,
    },
    {
      name: "textbook",
      gauge_m: 1.5,
      mass_kg,
      length_m: 100,
      wheels: {
        diameter_m: wheel_m,
        axles: 4,
        driven_axles: 4,
        wheelset_inertia_kgm2: ((book.rotating ?? 0) * mass_kg * (wheel_m / 2) ** 2) / 4,
      },
      resistance: { rolling, breakaway: rolling, sliding_length_m: 0 },
      gears: [{ ratio: book.gear ?? 1, efficiency: book.efficiency ?? 1, driven_inertia_kgm2: 0 }],
    },
    sine === 0 ? level() : slope(sine),
  );
  const motor_efficiency = book.motor_efficiency ?? 1;
  return size(sizing, { rotor_inertia_kgm2pW: rotor_kgm2pW, voltages_V: [3000], motor_efficiency });
}

const supply = (answer: SizeAnswer) => answer.supplies[0]!;
const rounded = (digits: string, within: number) => ({ within, because: `the book gives ${digits}` });

describe("tractive effort, torque and current", () => {
  const train = { mass_t: 250, gear: 3.5, rotating: 0.1 };
  const coach = sized({
    ...train,
    gradient: 1 / 80,
    resistance_Npt: 40,
    speed_kmh: 42,
    acceleration_kmhps: 42 / 20,
    efficiency: 0.92,
    wheel_m: 0.92,
  });
  // These three give the time to reach a speed; run backwards it is the acceleration that needs the torque they began from.
  const climbing = sized({
    ...train,
    gradient: 0.03,
    resistance_Npt: 50,
    speed_kmh: 80,
    acceleration_kmhps: 80 / 44.3,
    efficiency: 0.9,
    wheel_m: 0.9,
    motor_efficiency: 0.85,
  });
  const lighter = sized({
    mass_t: 200,
    rotating: 0.1,
    gear: 4,
    gradient: 0.03,
    resistance_Npt: 50,
    speed_kmh: 50,
    acceleration_kmhps: 50 / 24.82,
    efficiency: 0.9,
    wheel_m: 0.9,
    motor_efficiency: 0.85,
  });
  const steep = sized({
    mass_t: 100,
    g_mps2: 9.81,
    rotating: 0.1,
    gear: 4,
    gradient: 0.05,
    resistance_Npt: 25,
    speed_kmh: 100,
    acceleration_kmhps: 100 / 32.6,
    efficiency: 0.98,
    wheel_m: 1.08,
  });
  // 200 t with 0.9 m wheels up 1 in 200 against 50 N/t, to 48 km/h in 30 s, through 4 to 1 at 0.8.
  const eight = sized({
    mass_t: 200,
    g_mps2: 9.81,
    rotating: 0.1,
    gradient: 1 / 200,
    resistance_Npt: 50,
    speed_kmh: 48,
    acceleration_kmhps: 48 / 30,
    gear: 4,
    efficiency: 0.8,
    wheel_m: 0.9,
  });
  const gupta78 = "Gupta, Utilization of Electric Power, example 7.8";
  const theraja = (example: string) => `Theraja and Theraja, vol. III, example ${example} (p. 1724)`;
  const gupta = "Gupta, Utilization of Electric Power, example 7.9 (p. 210)";
  const dubey = "Dubey, Electrical Drives, example 10.2 (p. 321)";
  // The books leave the gears out of the current.
  const bookAmps = (answer: SizeAnswer) => (supply(answer).battery_peak_current_A * answer.gear_efficiency) / 4;
  checks([
    {
      what: "force at the rails, N",
      source: gupta78,
      got: eight.starting_force_N,
      expected: 117_596,
      ...rounded("six figures from steps of four", 1e-4),
    },
    {
      what: "torque of each of eight motors, N m",
      source: gupta78,
      got: eight.motor_peak_torque_Nm / 8,
      expected: 2067,
      ...rounded("four figures", 2.5e-4),
    },
    {
      what: "torque of each of four motors, N m",
      source: theraja("43.6"),
      got: coach.motor_peak_torque_Nm / 4,
      expected: 7181,
      ...rounded("four figures from steps of as many", 2e-4),
    },
    {
      what: "torque of each of four motors, N m",
      source: theraja("43.7"),
      got: climbing.motor_peak_torque_Nm / 4,
      expected: 8000,
      ...rounded("the time to three figures", 1e-3),
    },
    {
      what: "current of each at 3000 V, A",
      source: theraja("43.7"),
      got: bookAmps(climbing),
      expected: 488,
      ...rounded("three figures", 1e-3),
    },
    {
      what: "torque of each of four motors, N m",
      source: gupta,
      got: lighter.motor_peak_torque_Nm / 4,
      expected: 6000,
      ...rounded("the time from rounded steps", 1e-3),
    },
    {
      what: "current of each at 3000 V, A",
      source: gupta,
      got: bookAmps(lighter),
      expected: 261.4,
      ...rounded("the time from rounded steps", 1e-3),
    },
    {
      what: "torque of each of four motors, N m",
      source: dubey,
      got: steep.motor_peak_torque_Nm / 4,
      expected: 5000,
      ...rounded("the time to three figures", 1e-3),
    },
  ]);
});

describe("with the rotor's own inertia", () => {
  // 14 t up 1 in 20 at 0.1 m/s² and 1.8 m/s against 1.2 kN: a drum of 1.25 t and 1 m, radius of gyration 450 mm, 40 to 1 at
  // 0.85, an armature of 110 kg, 125 mm. `size` has the rotor grow with the power: by which share is found first.
  const haulage = (rotor_kgm2pW: number) =>
    sized(
      {
        mass_t: 14,
        g_mps2: 9.81,
        gradient: 1 / 20,
        resistance_Npt: 1200 / 14,
        rotating: (1250 * 0.45 ** 2) / 0.5 ** 2 / 14_000,
        speed_kmh: 1.8 / kmh,
        acceleration_kmhps: 0.1 / kmh,
        gear: 40,
        efficiency: 0.85,
        wheel_m: 1,
      },
      rotor_kgm2pW,
    );
  let share_kgm2pW = 0;
  for (let i = 0; i < 50; i++) share_kgm2pW = (110 * 0.125 ** 2) / haulage(share_kgm2pW).motor_continuous_power_W;
  const source = "Khurmi and Gupta, Theory of Machines, example 3.4 (p. 35)";
  const answer = haulage(share_kgm2pW);
  checks([
    {
      ...{ what: "torque, N m", source, got: answer.motor_peak_torque_Nm, expected: 154.46 },
      ...rounded("five figures", 4e-5),
    },
    {
      ...{ what: "power, W", source, got: answer.motor_peak_power_W, expected: 22_240 },
      ...rounded("four figures", 2.5e-4),
    },
  ]);
});

describe("adhesive weight", () => {
  // The loco's mass found in the book stands in its train: it is then just what the grip asks for.
  const theraja = sized({
    mass_t: 500 + 141.89,
    gradient: 0.02,
    resistance_Npt: 40,
    rotating: 0.1,
    speed_kmh: 40,
    acceleration_kmhps: 1,
  });
  const dubey = (trailers: number, acceleration_kmhps: number) =>
    sized({
      mass_t: 40 + 35 * trailers,
      g_mps2: 9.81,
      resistance_Npt: 30,
      rotating: 0.1,
      speed_kmh: 40,
      acceleration_kmhps,
    });
  const coach = "Dubey, Electrical Drives, example 10.5 (p. 325)";
  const tonnes = (answer: SizeAnswer, grip: number, g_mps2: number) => answer.starting_force_N / (grip * g_mps2 * 1000);
  checks([
    {
      what: "loco, t",
      source: "Theraja and Theraja, vol. III, example 43.8 (p. 1725)",
      got: tonnes(theraja, 0.25, 9.8),
      expected: 141.89,
      ...rounded("five figures, printed rounded to 142", 1e-4),
    },
    {
      what: "motor coach with two trailers, t",
      source: coach,
      got: tonnes(dubey(2, 2.2366), 0.2, 9.81),
      expected: 40,
      ...rounded("five figures", 1e-4),
    },
    {
      what: "motor coach with one trailer, t",
      source: coach,
      got: tonnes(dubey(1, 3.326), 0.2, 9.81),
      expected: 40,
      ...rounded("four figures", 2e-4),
    },
  ]);
});

describe("power at the rail", () => {
  // 400 kN and 15 kN as masses and resistances by the tonne.
  const uphill = sized({
    mass_t: 400 / 9.81,
    g_mps2: 9.81,
    gradient: 0.01,
    resistance_Npt: 5 * 9.81,
    speed_kmh: 60,
    acceleration_kmhps: 0.1,
  });
  const express = sized({ mass_t: 500, resistance_Npt: 30, speed_kmh: 90, acceleration_kmhps: 90 / 50 });
  const tayal = "Tayal, Engineering Mechanics, example 16.4";
  checks([
    {
      what: "400 kN up 1 in 100 at 60 km/h, W",
      source: "Gupta and Singhal, Electric Drives, example 3.3 (p. 35)",
      got: uphill.rail_power_ruling_W,
      expected: 100e3,
      ...UNROUNDED,
    },
    {
      what: "at the end of starting, W",
      source: tayal,
      got: express.motor_peak_power_W,
      expected: 6.625e6,
      ...UNROUNDED,
    },
    { what: "cruising, W", source: tayal, got: express.rail_power_rms_W, expected: 375e3, ...UNROUNDED },
  ]);
});

describe("stopping distance", () => {
  const source = "OpenStax University Physics 1, section 3.4, 30 m/s and 0.5 s of reaction";
  const three = rounded("the distance to three figures", 5e-3);
  checks([
    { what: "dry, 79.3 m, m/s²", source, got: braked(79.3), expected: 7, ...three },
    { what: "wet, 105 m, m/s²", source, got: braked(105), expected: 5, ...three },
  ]);
});

function braked(distance_m: number): number {
  return stopWithin(distance_m, 30, 0.5, 1000, 0)!.retardation_mps2;
}

describe("builders' rule", () => {
  checks([
    {
      what: "185 W to 100 lb of loco",
      source: "ridetrains.net, loco building: 1/4 hp per 100 lb",
      got: sized({ mass_t: 0.045359237, resistance_Npt: 50, speed_kmh: 6, acceleration_kmhps: 0.5 })
        .rule_of_thumb_power_W,
      expected: 185,
      ...rounded("a quarter of 746 W, rounded", 1e-2),
    },
  ]);
});
