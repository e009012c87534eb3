import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { createMotor, severalMotors } from "../../packages/sim-core/src/parts/motor.js";
import {
  motorBrush_V,
  motorFlux_NmpA,
  motorPoint,
  noLoadSpeed_radps,
  peakEfficiency,
  peakPower,
  stallCurrent_A,
  stallTorque_Nm,
} from "../../packages/sim-core/src/parts/motor.points.js";
import type { MotorTables } from "../../packages/sim-core/src/parts/motor.tables.js";

type Definition = Parameters<typeof createMotor>[0];

const RPM_radps = Math.PI / 30;
const nameplate = { voltage_V: 24, current_A: 28, speed_radps: 2500 * RPM_radps, power_W: 500 };

function make(definition: Definition, tables?: MotorTables) {
  const notes = newNotes();
  const motor = createMotor(definition, 24, notes, tables);
  return { motor, notes };
}
function sound(definition: Definition, tables?: MotorTables) {
  const { motor, notes } = make(definition, tables);
  expect(notes.problems).toEqual([]);
  return motor;
}

describe("from a nameplate", () => {
  it.each([0, 0.5, 2])("gives the plate back at rated volts and amps, with %d V of brushes", (brush_drop_V) => {
    const at = motorPoint(sound({ nameplate, brush_drop_V }), 24, 28);
    expect(at.speed_radps).toBeCloseTo(nameplate.speed_radps, 10);
    expect(at.power_W).toBeCloseTo(500, 10);
  });

  it("lists what it took for granted", () => {
    const { motor, notes } = make({ nameplate });
    expect(Object.fromEntries(notes.assumed.map((a) => [a.key, a.value]))).toEqual({
      "loco.motor.kind": "permanent-magnet",
      "loco.motor.brush_drop": "0 V",
      "loco.motor.nameplate.no_load_current": "3.08 A",
      "loco.motor.inertia": "0.0025 kg m²",
      "loco.motor.magnet": "ferrite",
      "loco.motor.count": "1",
    });
    expect(motor.fluxPerKelvin_pK).toBe(-0.002);
    expect(motor.current_A[0]).toBe(0);
    expect(motor.flux_NmpA[0]).toBe(motor.flux_NmpA[1]);
  });
});

describe("from readings", () => {
  const constants = { resistance_ohm: 0.12, torque_constant_NmpA: 0.08, drag_Nm: 0.2 };

  it("bench readings of a motor give that motor", () => {
    const known = sound({ constants, inertia_kgm2: 1 });
    const free_A = 0.2 / 0.08;
    const free = { voltage_V: 24, current_A: free_A, speed_radps: noLoadSpeed_radps(known, 24) };
    const measured = sound({ inertia_kgm2: 1, bench: { free, locked: { voltage_V: 2.4, current_A: 20 } } });
    expect(measured.resistance20_ohm).toBeCloseTo(0.12, 12);
    expect(motorFlux_NmpA(measured, 10, 20)).toBeCloseTo(0.08, 12);
    expect(measured.drag_Nm).toBeCloseTo(0.2, 12);
    expect(measured.fluxPerKelvin_pK).toBe(0);
  });

  it("any two rated figures give the third and the power", () => {
    const all = sound({ constants, rated: { voltage_V: 24, current_A: 25 } }).rated;
    expect(all.speed_radps).toBeCloseTo((24 - 0.12 * 25) / 0.08, 10);
    expect(all.power_W).toBeCloseTo((0.08 * 25 - 0.2) * all.speed_radps, 10);
    const { voltage_V, speed_radps } = all;
    expect(sound({ constants, rated: { voltage_V, speed_radps } }).rated.current_A).toBeCloseTo(25, 10);
    expect(sound({ constants, rated: { current_A: 25, speed_radps } }).rated.voltage_V).toBeCloseTo(24, 10);
  });

  it("without two rated figures an eighth of the stall current is taken, and said", () => {
    const { motor, notes } = make({ constants });
    expect(motor.rated.current_A).toBeCloseTo(24 / 0.12 / 8, 12);
    expect(motor.rated.power_W).toBeCloseTo((0.08 * 25 - 0.2) * ((24 - 3) / 0.08), 10);
    expect(notes.assumed.map((a) => a.key)).toContain("loco.motor.rated");
  });

  it("magnetisation points are met, straight between and level beyond", () => {
    const saturation = { resistance_ohm: 0.1, speed_radps: 100, file: "" };
    const m = sound(
      { kind: "series", inertia_kgm2: 1, saturation },
      {
        saturation: [
          [10, 60],
          [30, 90],
        ],
      },
    );
    expect(motorFlux_NmpA(m, 0, 20)).toBe(0);
    expect(motorFlux_NmpA(m, 5, 20)).toBeCloseTo(0.3, 12);
    expect(motorFlux_NmpA(m, 20, 20)).toBeCloseTo(0.75, 12);
    expect(motorFlux_NmpA(m, 99, 120)).toBeCloseTo(0.9, 12);
    expect(noLoadSpeed_radps(m, 24)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("contradictions", () => {
  const constants = { resistance_ohm: 0.12, torque_constant_NmpA: 0.08, drag_Nm: 0.2 };
  const free = { voltage_V: 24, current_A: 3, speed_radps: 300 };
  it.each<[string, Definition, string]>([
    ["efficiency over 1", { nameplate: { ...nameplate, power_W: 700 } }, "nameplate.power"],
    ["no volts left for the winding", { nameplate: { ...nameplate, power_W: 640 } }, "nameplate.power"],
    ["free current above rated", { nameplate: { ...nameplate, no_load_current_A: 30 } }, "nameplate.no_load_current"],
    ["brushes take the rest", { nameplate, brush_drop_V: 5 }, "brush_drop"],
    ["rating twice", { nameplate, rated: { voltage_V: 24 } }, "rated"],
    ["nothing given", { inertia_kgm2: 1 }, ""],
    ["two sets", { nameplate, constants }, ""],
    [
      "locked volts within the brushes",
      { bench: { free, locked: { voltage_V: 1, current_A: 9 } }, brush_drop_V: 1.5, inertia_kgm2: 1 },
      "bench.locked.voltage",
    ],
    [
      "free volts lost in the winding",
      { bench: { free, locked: { voltage_V: 24, current_A: 2 } }, inertia_kgm2: 1 },
      "bench.free.voltage",
    ],
    ["back-e.m.f. above the volts", { constants, rated: { voltage_V: 24, speed_radps: 301 } }, "rated.speed"],
    ["rated current above stall", { constants, rated: { voltage_V: 24, current_A: 201 } }, "rated.current"],
    ["rated current within the drag", { constants, rated: { voltage_V: 24, current_A: 2 } }, "rated.current"],
    [
      "three rated figures apart",
      { constants, rated: { voltage_V: 24, current_A: 25, speed_radps: 150 } },
      "rated.voltage",
    ],
    [
      "free current of a series motor",
      { kind: "series", nameplate: { ...nameplate, no_load_current_A: 3 } },
      "nameplate.no_load_current",
    ],
    ["magnets in a series motor", { kind: "series", nameplate, magnet: "ferrite" }, "magnet"],
    ["series by constants", { kind: "series", constants, inertia_kgm2: 1 }, "kind"],
    [
      "points of a magnet motor",
      { saturation: { resistance_ohm: 1, speed_radps: 1, file: "" }, inertia_kgm2: 1 },
      "saturation",
    ],
    [
      "no points",
      { kind: "series", saturation: { resistance_ohm: 1, speed_radps: 1, file: "" }, inertia_kgm2: 1 },
      "saturation.file",
    ],
  ])("%s", (_, definition, key) => {
    expect(make(definition).notes.problems.map((p) => p.path)).toEqual([`loco.motor${key && "."}${key}`]);
  });

  it("all are told at once", () => {
    const { notes } = make({ kind: "series", magnet: "ferrite", nameplate: { ...nameplate, power_W: 700 } });
    expect(notes.problems).toHaveLength(2);
  });
});

describe("laws", () => {
  it("brush drop and flux agree on both sides of every knot", () => {
    const series = sound({ kind: "series", nameplate, brush_drop_V: 1.2 });
    for (const knot_A of series.current_A.slice(1)) {
      const beside_A = knot_A * 1e-13;
      expect(Math.abs(motorBrush_V(series, knot_A - beside_A) - motorBrush_V(series, knot_A + beside_A))).toBeLessThan(
        1e-12,
      );
      const apart = motorFlux_NmpA(series, knot_A - beside_A, 20) - motorFlux_NmpA(series, knot_A + beside_A, 20);
      expect(Math.abs(apart)).toBeLessThan(1e-12);
    }
    expect(motorBrush_V(series, 0)).toBe(0);
    expect(motorBrush_V(series, 0.28)).toBeCloseTo(1.2, 12);
    expect(motorBrush_V(series, 0.14)).toBeCloseTo(0.6, 12);
  });

  it("summits meet the closed forms: (1 - √(I0/Is))² at √(I0 Is), R((Is - I0)/2)² at (Is + I0)/2", () => {
    const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(range(6, 72), range(0.02, 2), range(0.01, 0.3), range(0.005, 0.2), (volts, ohms, flux, share) => {
        const stall_A = volts / ohms;
        const free_A = share * stall_A;
        const constants = { resistance_ohm: ohms, torque_constant_NmpA: flux, drag_Nm: flux * free_A };
        const m = sound({ constants, inertia_kgm2: 1 });
        expect(stallCurrent_A(m, volts) / stall_A).toBeCloseTo(1, 12);
        expect(stallTorque_Nm(m, volts) / (flux * (stall_A - free_A))).toBeCloseTo(1, 12);
        expect(noLoadSpeed_radps(m, volts) / ((volts - ohms * free_A) / flux)).toBeCloseTo(1, 12);
        expect(peakEfficiency(m, volts).efficiency).toBeCloseTo((1 - Math.sqrt(share)) ** 2, 12);
        expect(peakEfficiency(m, volts).current_A / Math.sqrt(free_A * stall_A)).toBeCloseTo(1, 5);
        expect(peakPower(m, volts).power_W / (ohms * ((stall_A - free_A) / 2) ** 2)).toBeCloseTo(1, 12);
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it("turning free, current just covers a drag that grows with speed", () => {
    const constants = { resistance_ohm: 0.12, torque_constant_NmpA: 0.08, drag_Nm: 0.1, drag_per_speed_Nms: 5e-4 };
    const speed = noLoadSpeed_radps(sound({ constants, inertia_kgm2: 1 }), 24);
    expect((0.08 * (24 - 0.08 * speed)) / 0.12).toBeCloseTo(0.1 + 5e-4 * speed, 12);
  });

  it("motors on one shaft share current in parallel and volts in series, and add their torques", () => {
    const one = sound({ nameplate, brush_drop_V: 0.8 });
    const at = motorPoint(one, 20, 15);
    const beside = motorPoint(severalMotors(one, 3, "parallel"), 20, 45);
    const behind = motorPoint(severalMotors(one, 3, "series"), 60, 15);
    for (const three of [beside, behind]) {
      expect(three.torque_Nm).toBeCloseTo(3 * at.torque_Nm, 12);
      expect(three.speed_radps).toBeCloseTo(at.speed_radps, 10);
      expect(three.efficiency).toBeCloseTo(at.efficiency, 12);
    }
    expect(Object.keys(severalMotors(one, 2, "series"))).toEqual(Object.keys(one));
  });
});
