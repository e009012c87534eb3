import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  currentAtPower,
  currentAtVolts,
  currentForTorque,
  motorVolts,
  shortedCurrent,
} from "../../packages/sim-core/src/drive/circuit.js";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { interpolate } from "../../packages/sim-core/src/numeric/tables.js";
import { createMotor, type Motor, severalMotors } from "../../packages/sim-core/src/parts/motor.js";
import { motorPoint, steepest_Nm2pA2 } from "../../packages/sim-core/src/parts/motor.points.js";

const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A series motor of rising current and flux that does not fall; now and then with brushes. */
const anySeries: fc.Arbitrary<Motor> = fc
  .record({
    steps: fc.array(fc.tuple(range(1, 40), range(0, 30)), { minLength: 1, maxLength: 8 }),
    first_V: range(1, 50),
    resistance_ohm: range(0.02, 0.5),
    brush_drop_V: fc.constantFrom(0, 0, 0.6),
  })
  .map(({ steps, first_V, resistance_ohm, brush_drop_V }) => {
    let [current_A, emf_V] = [0, first_V];
    const saturation = steps.map(([by_A, by_V]) => {
      current_A += by_A;
      emf_V += by_V;
      return [current_A, emf_V] as const;
    });
    const motor = { kind: "series", brush_drop_V, inertia_kgm2: 1 } as const;
    return createMotor({ ...motor, saturation: { resistance_ohm, speed_radps: 100, file: "" } }, 24, newNotes(), {
      saturation,
    });
  });

const torque_Nm = (m: Motor, current_A: number): number => interpolate(m.current_A, m.flux_NmpA, current_A) * current_A;

describe("a series motor's circuit", () => {
  it("torque never falls with current, and the current for a torque gives it back", () => {
    fc.assert(
      fc.property(anySeries, range(0, 400), range(0, 400), (m, a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        expect(torque_Nm(m, more)).toBeGreaterThanOrEqual(torque_Nm(m, less));
        if (more < 0.01) return;
        const found_A = currentForTorque(m, 1, torque_Nm(m, more));
        expect(torque_Nm(m, found_A) / torque_Nm(m, more)).toBeCloseTo(1, 10);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it("the current met is one that the volts drive, forwards and backwards", () => {
    fc.assert(
      fc.property(anySeries, range(-60, 400), range(0.05, 40), (m, shaft_radps, open_V) => {
        const current_A = currentAtVolts(m, 1, shaft_radps, m.resistance20_ohm, open_V);
        expect(current_A).toBeGreaterThan(0);
        expect(motorVolts(m, 1, shaft_radps, m.resistance20_ohm, current_A)).toBeCloseTo(open_V, 8);
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  it("at a knot's own speed its current is met from both sides", () => {
    fc.assert(
      fc.property(anySeries, range(1, 40), (m, open_V) => {
        for (const [i, knot_A] of m.current_A.entries()) {
          const left_V = open_V - m.resistance20_ohm * knot_A - m.brush_V[i]!;
          const shaft_radps = left_V / m.flux_NmpA[i]!;
          if (knot_A === 0 || left_V < 0.1) continue;
          const beside = (by: number) => currentAtVolts(m, 1, shaft_radps * (1 + by), m.resistance20_ohm, open_V);
          expect(beside(0) / knot_A).toBeCloseTo(1, 9);
          expect(Math.abs(beside(1e-13) - beside(-1e-13)) / knot_A).toBeLessThan(1e-9);
        }
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it("from standing, current is Ohm's law's; at no speed is it none", () => {
    const m = createMotor(
      { kind: "series", inertia_kgm2: 1, saturation: { resistance_ohm: 0.1, speed_radps: 100, file: "" } },
      24,
      newNotes(),
      { saturation: [[30, 60]] },
    );
    expect(currentAtVolts(m, 1, 0, 0.1, 12)).toBeCloseTo(120, 12);
    // Unloaded: torque is left at any speed, ever less of it, and so it runs away.
    const light = [100, 1e3, 1e4, 1e5].map((radps) => torque_Nm(m, currentAtVolts(m, 1, radps, 0.1, 12)));
    expect(light.every((left_Nm, i) => left_Nm > 0 && (i === 0 || left_Nm < light[i - 1]!))).toBe(true);
  });

  it("at a power the volts times the current are that power", () => {
    fc.assert(
      fc.property(anySeries, range(-30, 300), range(0.1, 2000), (m, shaft_radps, power_W) => {
        const current_A = currentAtPower(m, 1, shaft_radps, m.resistance20_ohm, power_W);
        const taken_W = motorVolts(m, 1, shaft_radps, m.resistance20_ohm, current_A) * current_A;
        expect(taken_W / power_W).toBeCloseTo(1, 8);
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  it("turned backwards it excites itself to where winding and brushes take all it makes, and stably so", () => {
    fc.assert(
      fc.property(anySeries, range(-400, -1), range(0.1, 200), (m, shaft_radps, least_A) => {
        const volts = (current_A: number) => motorVolts(m, 1, shaft_radps, m.resistance20_ohm, current_A);
        fc.pre(volts(least_A) < 0);
        const current_A = shortedCurrent(m, 1, shaft_radps, m.resistance20_ohm, least_A);
        expect(current_A).toBeGreaterThan(least_A);
        expect(volts(current_A)).toBeCloseTo(0, 8);
        // A little more current would have to be driven, a little less grows.
        expect(volts(current_A * 1.0001)).toBeGreaterThan(0);
        expect(volts(least_A + (current_A - least_A) * 0.9999)).toBeLessThan(0);
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  it("torque falls with speed no more steeply than the step is chosen for", () => {
    fc.assert(
      fc.property(anySeries, range(0, 300), range(0.5, 40), (m, shaft_radps, open_V) => {
        const pull = (radps: number) => torque_Nm(m, currentAtVolts(m, 1, radps, m.resistance20_ohm, open_V));
        const fall_Nms = (pull(shaft_radps) - pull(shaft_radps + 1e-3)) / 1e-3;
        const [rounding, most] = [1e-6, steepest_Nm2pA2(m) / m.resistance20_ohm];
        expect(fall_Nms).toBeGreaterThanOrEqual(0);
        expect(fall_Nms).toBeLessThanOrEqual(most * (1 + rounding));
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});

describe("several motors", () => {
  it.each(["parallel", "series"] as const)("in %s are one motor scaled", (connection) => {
    fc.assert(
      fc.property(anySeries, fc.integer({ min: 2, max: 6 }), range(1, 100), (one, count, current_A) => {
        const all = severalMotors(one, count, connection);
        const [volts, amps] = connection === "series" ? [count, 1] : [1, count];
        const alone = motorPoint(one, 60, current_A);
        const together = motorPoint(all, 60 * volts, current_A * amps);
        expect(together.torque_Nm / alone.torque_Nm / count).toBeCloseTo(1, 10);
        expect(together.speed_radps / alone.speed_radps).toBeCloseTo(1, 8);
        const driven_A = currentAtVolts(all, 1, 80, all.resistance20_ohm, 24 * volts);
        expect(driven_A / amps / currentAtVolts(one, 1, 80, one.resistance20_ohm, 24)).toBeCloseTo(1, 8);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("in series share the battery's volts where a rating has to be guessed", () => {
    const rated = (count: number, connection: "parallel" | "series") => {
      const constants = { resistance_ohm: 0.12, torque_constant_NmpA: 0.04 };
      return createMotor({ constants, count, connection, inertia_kgm2: 1 }, 24, newNotes()).rated;
    };
    // An eighth of the stall current at the volts that each gets.
    expect(rated(2, "parallel").current_A).toBeCloseTo((2 * 24) / 0.12 / 8, 10);
    expect(rated(2, "series").current_A).toBeCloseTo(12 / 0.12 / 8, 10);
    expect(rated(2, "series").voltage_V).toBe(24);
    expect(rated(2, "series").speed_radps).toBeCloseTo((12 - 12 / 8) / 0.04, 10);
  });
});
