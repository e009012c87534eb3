import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { root } from "../../packages/sim-core/src/numeric/roots.js";
import { createMotor } from "../../packages/sim-core/src/parts/motor.js";
import {
  motorFlux_NmpA,
  motorPoint,
  motorResistance_ohm,
  noLoadSpeed_radps,
  peakEfficiency,
  peakPower,
  stallCurrent_A,
  stallTorque_Nm,
} from "../../packages/sim-core/src/parts/motor.points.js";
import type { MotorTables } from "../../packages/sim-core/src/parts/motor.tables.js";
import { checks, PRINTED, RPM_radps, UNROUNDED } from "./check.js";

type Definition = Parameters<typeof createMotor>[0];

/** A motor that must come out without a problem. */
function motor(definition: Definition, tables?: MotorTables) {
  const notes = newNotes();
  const made = createMotor({ inertia_kgm2: 0.001, ...definition }, 24, notes, tables);
  expect(notes.problems).toEqual([]);
  return made;
}
const plate = (voltage_V: number, current_A: number, rpm: number, power_W: number, no_load_current_A: number) =>
  motor({ nameplate: { voltage_V, current_A, speed_radps: rpm * RPM_radps, power_W, no_load_current_A } });
const constants = (resistance_ohm: number, torque_constant_NmpA: number, rest: Definition = {}) =>
  motor({ constants: { resistance_ohm, torque_constant_NmpA }, ...rest });

describe("constants from a nameplate", () => {
  const small = plate(24, 14, 2750, 250, 2);
  const source = "250 W scooter motor's nameplate (24 V 14 A 2750 rpm in public listings), 2 A free assumed";
  const row = (what: string, got: number, expected: number, within = UNROUNDED.within) => ({
    what,
    source,
    got,
    expected,
    within,
    because: UNROUNDED.because,
  });
  checks([
    row("torque", motorPoint(small, 24, 14).torque_Nm, 0.868117871),
    row("efficiency", motorPoint(small, 24, 14).efficiency, 0.744047619),
    row("torque constant", motorFlux_NmpA(small, 14, 20), 0.072343156, 1e-8),
    row("resistance", small.resistance20_ohm, 0.226190476),
    row("stall current", stallCurrent_A(small, 24), 106.105263),
    row("stall torque", stallTorque_Nm(small, 24), 7.53130329),
    row("no-load speed", noLoadSpeed_radps(small, 24), 3108.28571 * RPM_radps),
    row("peak efficiency", peakEfficiency(small, 24).efficiency, 0.744264383),
    row("its current (a summit is flat)", peakEfficiency(small, 24).current_A, 14.5674475, 1e-6),
    row("peak power", peakPower(small, 24).power_W, 612.857769),
    row("its current (a summit is flat)", peakPower(small, 24).current_A, 54.0526316, 1e-6),
  ]);

  // Nameplates from memory but the first; free currents assumed. The formulas stand in any text on direct-current motors.
  it.each([
    [plate(24, 14, 2750, 250, 2), 24, 0.072343156, 0.226190476, 106.105263, 3108.28571, 0.744264383],
    [plate(24, 19.2, 2750, 350, 2.2), 24, 0.07149206, 0.177696078, 135.062069, 3153.49702, 0.761033584],
    [plate(24, 28, 2500, 500, 3), 24, 0.0763943727, 1 / 7, 168, 2946.42857, 0.750595901],
    [plate(36, 35.6, 3000, 1000, 3.5), 36, 0.0991619583, 0.136161574, 264.391774, 3420.90674, 0.783125517],
    [plate(48, 26.7, 3000, 1000, 3), 48, 0.134307969, 0.217449707, 220.740698, 3366.41798, 0.780433092],
  ])("gives the figures of five classes of motor", (m, volts, flux, ohms, stall, freeRpm, efficiency) => {
    expect(motorFlux_NmpA(m, 0, 20) / flux).toBeCloseTo(1, 8);
    expect(m.resistance20_ohm / ohms).toBeCloseTo(1, 8);
    expect(stallCurrent_A(m, volts) / stall).toBeCloseTo(1, 8);
    expect(noLoadSpeed_radps(m, volts) / RPM_radps / freeRpm).toBeCloseTo(1, 8);
    expect(peakEfficiency(m, volts).efficiency / efficiency).toBeCloseTo(1, 8);
  });
});

describe("three states of one machine", () => {
  const source = "Scilab textbook companion no. 3760 (probably Bimbhra, Electrical Machinery), example 4.87";
  const m = motor({
    bench: {
      free: { voltage_V: 48, current_A: 0.8, speed_radps: 2400 * RPM_radps },
      locked: { voltage_V: 20, current_A: 20 },
    },
  });
  const loaded_A = root((i) => motorPoint(m, 40, i).speed_radps - 1600 * RPM_radps, 1, 40);
  const flux = motorFlux_NmpA(m, 0, 20);
  // The book keeps the 37.76 W of rotational loss as watts, we as torque: its shaft power is met without that loss.
  checks([
    { what: "rotational loss", source, got: m.drag_Nm * 2400 * RPM_radps, expected: 37.76, ...UNROUNDED },
    { what: "flux", source, got: flux, expected: 0.187802833, ...UNROUNDED },
    { what: "current at 40 V, 1600 rpm", source, got: loaded_A, expected: 8.53333333, ...UNROUNDED },
    { what: "power", source, got: flux * loaded_A * 1600 * RPM_radps, expected: 230.755556 + 37.76, ...UNROUNDED },
    { what: "held, at 20 V", source, got: stallTorque_Nm(m, 20) + m.drag_Nm, expected: 3.75605666, ...UNROUNDED },
  ]);
});

describe("a scooter drive on a load that grows with the square of speed", () => {
  const source = "University of Siegen, Fundamentals of electrical machines and drives, exam summer 2025, task 2";
  const m = constants(2.4, 1.67 / 5.75, { rated: { voltage_V: 48, current_A: 5.75 } });
  const load_A = root((i) => motorPoint(m, 48, i).torque_Nm - 0.001 * motorPoint(m, 48, i).speed_radps ** 2, 0.1, 20);
  const load = motorPoint(m, 48, load_A);
  checks([
    { what: "rated speed", source, got: m.rated.speed_radps, expected: 1126.2 * RPM_radps, ...PRINTED },
    { what: "rated speed", source, got: m.rated.speed_radps, expected: 1124.47256 * RPM_radps, ...UNROUNDED },
    { what: "speed under load", source, got: load.speed_radps, expected: 60.63, ...PRINTED },
    { what: "speed under load", source, got: load.speed_radps, expected: 579.080517 * RPM_radps, ...UNROUNDED },
    { what: "current under load", source, got: load_A, expected: 12.67, ...PRINTED },
    { what: "current under load", source, got: load_A, expected: 12.6615396, ...UNROUNDED },
    { what: "torque under load", source, got: load.torque_Nm, expected: 3.67735149, ...UNROUNDED },
    { what: "no-load speed", source, got: noLoadSpeed_radps(m, 48), expected: 1580.57 * RPM_radps, ...PRINTED },
    { what: "no-load speed", source, got: noLoadSpeed_radps(m, 48), expected: 1578.2071 * RPM_radps, ...UNROUNDED },
  ]);
});

describe("a submarine's motor by its efficiency and the split of its losses", () => {
  const source = "University of Siegen, Fundamentals of electrical machines and drives, exercise 2, task 3";
  const current_A = 65000 / 0.9 / 440;
  // A quarter of the loss turns as drag: by the torque balance it takes this current turning free at rated volts' flux.
  const back_V = 440 - (0.75 * (65000 / 0.9 - 65000)) / current_A;
  const m = plate(440, current_A, 1300, 65000, current_A - 65000 / back_V);
  const flux = motorFlux_NmpA(m, 0, 20);
  const frictionless = constants(m.resistance20_ohm, flux);
  const half_A = 477.464829 / 2 / flux;
  const start_A = (1.5 * 477.464829) / flux;
  checks([
    { what: "current", source, got: m.rated.current_A, expected: 164.141414, ...UNROUNDED },
    { what: "resistance", source, got: m.resistance20_ohm, expected: 0.201046154, ...UNROUNDED },
    { what: "flux", source, got: flux, expected: 2.98966439, ...UNROUNDED },
    {
      what: "speed without drag",
      source,
      got: noLoadSpeed_radps(frictionless, 440),
      expected: 1405.40541 * RPM_radps,
      ...UNROUNDED,
    },
    {
      what: "0.8 of the volts, half torque",
      source,
      got: motorPoint(frictionless, 352, half_A).speed_radps,
      expected: 1073.6 * RPM_radps,
      ...PRINTED,
    },
    {
      what: "0.8 of the volts, half torque",
      source,
      got: motorPoint(frictionless, 352, half_A).speed_radps,
      expected: 1073.04602 * RPM_radps,
      ...UNROUNDED,
    },
    {
      what: "current held with the starting resistor",
      source,
      got: stallCurrent_A({ ...frictionless, resistance20_ohm: m.resistance20_ohm + 1.63567179 }, 440),
      expected: 239.55774,
      ...UNROUNDED,
    },
    { what: "current for 1.5 times torque", source, got: start_A, expected: 239.55774, ...UNROUNDED },
  ]);
});

describe("held on a hot winding with hot magnets", () => {
  const source = "derived: copper 0.393 %/K, ferrite -0.20 %/K (magnet makers)";
  const m = plate(24, 28, 2500, 500, 3);
  const rated = { voltage_V: 24, current_A: 28, speed_radps: 2500 * RPM_radps, power_W: 500, no_load_current_A: 3 };
  const neodymium = motor({ nameplate: rated, magnet: "neodymium" });
  const hot_A = stallCurrent_A(m, 24, 120);
  const fromBattery = (winding_degC: number) =>
    root((i) => stallCurrent_A(m, 25.2 - 0.02 * i, winding_degC) - i, 1, 500);
  checks([
    { what: "cold current", source, got: stallCurrent_A(m, 24), expected: 168, ...UNROUNDED },
    { what: "cold torque", source, got: stallTorque_Nm(m, 24) + m.drag_Nm, expected: 12.8342546, ...UNROUNDED },
    { what: "hot resistance", source, got: motorResistance_ohm(m, 120), expected: 0.199, ...UNROUNDED },
    { what: "hot current", source, got: hot_A, expected: 120.603015, ...UNROUNDED },
    { what: "hot flux", source, got: motorFlux_NmpA(m, 0, 80), expected: 0.067227048, ...UNROUNDED },
    {
      what: "hot flux, neodymium",
      source: "derived: -0.11 %/K (magnet makers)",
      got: motorFlux_NmpA(neodymium, 0, 80),
      expected: 0.0763943727 * (1 - 60 * 0.0011),
      ...UNROUNDED,
    },
    {
      what: "hot flux, neodymium of another maker",
      source: "derived: -0.12 %/K",
      got: motorFlux_NmpA(neodymium, 0, 80),
      expected: 0.0708939779,
      within: 7e-3,
      because: "makers' figures run from -0.09 to -0.12 %/K",
    },
    { what: "hot torque", source, got: stallTorque_Nm(m, 24, 120, 80) + m.drag_Nm, expected: 8.10778468, ...UNROUNDED },
    { what: "cold, through 20 mohm", source, got: fromBattery(20), expected: 154.736842, ...UNROUNDED },
    { what: "hot, through 20 mohm", source, got: fromBattery(120), expected: 115.068493, ...UNROUNDED },
  ]);
});

describe("series motors", () => {
  const series = (ohms: number, rpm: number, points: readonly (readonly [number, number])[], brush_drop_V = 0) =>
    motor(
      {
        kind: "series",
        brush_drop_V,
        inertia_kgm2: 1,
        saturation: { resistance_ohm: ohms, speed_radps: rpm * RPM_radps, file: "" },
      },
      { saturation: points },
    );
  const rpmAt = (m: ReturnType<typeof series>, volts: number, amps: number) =>
    motorPoint(m, volts, amps).speed_radps / RPM_radps;

  const kosow = series(
    0.15,
    600,
    [
      [0, 0],
      [200, (234.25 * 200) / 85],
    ],
    3,
  );
  const dubey = series(0.12, 600, [
    [10, 64],
    [20, 118],
    [30, 150],
    [40, 170],
    [50, 184],
    [60, 194],
    [70, 202],
    [80, 210],
  ]);
  const siegen = motor({
    kind: "series",
    // 1407 N m at 500 A is 2.814 N m/A; 440 V less 0.045 ohm leaves 417.5 V, which gives the plate's speed.
    nameplate: { voltage_V: 440, current_A: 500, speed_radps: 417.5 / 2.814, power_W: 1407 * (417.5 / 2.814) },
  });
  const amps = [50, 100, 150, 200, 250, 300] as const;
  const emf = [230, 360, 440, 500, 530, 580] as const;
  const curve = series(
    0.12,
    600,
    amps.map((a, i) => [a, emf[i]!] as const),
  );
  const rpm = [1549.56522, 980, 793.636364, 691.2, 645.283019, 583.448276];
  const torque = [183.028185, 572.957795, 1050.42262, 1591.54943, 2108.803, 2769.29601];
  const exam = "University of Siegen, Fundamentals of electrical machines and drives, exam winter 2024, task 2";
  const companion = "Scilab textbook companion no. 1976, example 7.10";
  checks([
    {
      what: "100 A, with 3 V of brushes",
      source: "Kosow, example 4-18",
      got: rpmAt(kosow, 250, 100),
      expected: 505.101387,
      ...UNROUNDED,
    },
    {
      what: "40 A, with 3 V of brushes",
      source: "Kosow, example 4-18",
      got: rpmAt(kosow, 250, 40),
      expected: 1311.73959,
      ...UNROUNDED,
    },
    {
      what: "saturated, 60 A at duty 0.6 of 220 V",
      source: "Dubey, Fundamentals of Electrical Drives (title from memory), example 5.21",
      got: rpmAt(dubey, 132, 60),
      expected: 385.979381,
      ...UNROUNDED,
    },
    { what: "resistance", source: exam, got: siegen.resistance20_ohm, expected: 0.045, ...UNROUNDED },
    { what: "rated torque", source: exam, got: motorPoint(siegen, 440, 500).torque_Nm, expected: 1407, ...UNROUNDED },
    { what: "half current", source: exam, got: rpmAt(siegen, 440, 250), expected: 2904.1, ...PRINTED },
    { what: "half current", source: exam, got: rpmAt(siegen, 440, 250), expected: 2909.92247, ...UNROUNDED },
    { what: "half current", source: exam, got: motorPoint(siegen, 440, 250).torque_Nm, expected: 351.75, ...UNROUNDED },
    { what: "held", source: exam, got: stallCurrent_A(siegen, 440), expected: 9777.77778, ...UNROUNDED },
    ...amps.flatMap((a, i) => [
      { what: `speed at ${a} A`, source: companion, got: rpmAt(curve, 600, a), expected: rpm[i]!, ...UNROUNDED },
      {
        what: `torque at ${a} A`,
        source: companion,
        got: motorPoint(curve, 600, a).torque_Nm,
        expected: torque[i]!,
        ...UNROUNDED,
      },
    ]),
  ]);
});
