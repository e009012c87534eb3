import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { motorVolts } from "../../packages/sim-core/src/drive/circuit.js";
import { excite } from "../../packages/sim-core/src/drive/excitation.js";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { createMotor } from "../../packages/sim-core/src/parts/motor.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { breakOff, type Working } from "../../packages/sim-core/src/working.js";
import { books, watchLosses } from "../support/books.js";
import { clubPlan, LOCO } from "../support/club.js";
import { hill } from "../support/profiles.js";

/** Invented: the club's motor, were it wound in series, with brushes that drop 0.4 V. */
const SERIES: LocoDefinition["motor"] = {
  kind: "series",
  nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 },
  brush_drop_V: 0.4,
  inertia_kgm2: 0.0025,
  heat: { mass_kg: 6, insulation: "B" },
};
const motor = createMotor(SERIES, 24, newNotes());
const PATH_ohm = motor.resistance20_ohm + 0.01;

const settled = (excited: boolean, shaft_radps: number, open_V: number) => {
  const found = { motor_A: Number.NaN, excitation_V: Number.NaN };
  excite(motor, excited, shaft_radps, PATH_ohm, open_V, found);
  return found;
};

describe("a series motor turned backwards", () => {
  const speed = fc.integer({ min: -60_000, max: 0 }).map((n) => n / 100);
  const volts = fc.integer({ min: 100, max: 4500 }).map((n) => n / 1e4);

  it("has a steady current on the side that it is on, or has not long to go there", () => {
    let [both, one] = [0, 0];
    fc.assert(
      fc.property(speed, volts, (shaft_radps, open_V) => {
        const sides = [false, true].map((excited) => settled(excited, shaft_radps, open_V));
        for (const { motor_A, excitation_V } of sides) {
          const missing_V = open_V - motorVolts(motor, 1, shaft_radps, PATH_ohm, motor_A);
          if (excitation_V >= 0) expect(Math.abs(missing_V)).toBeLessThan(1e-9);
          // Gone, it is held where it last was: above what the volts drive, or below.
          else expect(Math.abs(missing_V)).toBeCloseTo(-excitation_V, 9);
        }
        // One side at least has one.
        expect(Math.max(...sides.map(({ excitation_V }) => excitation_V))).toBeGreaterThanOrEqual(0);
        if (sides.every(({ excitation_V }) => excitation_V > 0)) both++;
        else one++;
      }),
      { seed: 1, numRuns: 2000 },
    );
    // With fewer volts than the brushes ask, and turned fast enough, there are two.
    expect(both).toBeGreaterThan(100);
    expect(one).toBeGreaterThan(100);
  });

  it("changes its current on one side evenly with speed and volts, also where the other takes over", () => {
    fc.assert(
      fc.property(speed, volts, fc.boolean(), (shaft_radps, open_V, excited) => {
        const beside = (more_radps: number, more_V: number) =>
          settled(excited, shaft_radps + more_radps, open_V + more_V).motor_A;
        const here_A = beside(0, 0);
        for (const [more_radps, more_V] of [
          [1e-9, 0],
          [-1e-9, 0],
          [0, 1e-9],
        ] as const) {
          expect(Math.abs(beside(more_radps, more_V) - here_A)).toBeLessThan(1e-4);
        }
      }),
      { seed: 2, numRuns: 3000 },
    );
  });

  /** Rolls back down a hill with its lever nearly shut, and what its current did from step to step. */
  function rollingBack(lever: number) {
    const currents: Record<"speed_mps" | "motor_A" | "excited" | "emf_V" | "winding_ohm", number>[] = [];
    const step: Observer["step"] = ({ y, now, mode }) => {
      const { motor_A, emf_V, winding_ohm } = now;
      currents.push({ speed_mps: y[at.SPEED]!, motor_A, excited: Number(mode.excited), emf_V, winding_ohm });
    };
    const { observer, shrunk } = watchLosses();
    const w = run(clubPlan(hill(0.06, 4000), { lever, duration_s: 60 }, { motor: SERIES }), {
      start: { chainage_m: 1500, speed_mps: -0.2 },
      observers: [observer, { step, event: () => undefined }],
    });
    return { w, currents, shrunk };
  }

  // 0.012 of 25 V are less than the brushes' 0.4: at first they let next to nothing through.
  it("runs away under a nearly shut lever until it excites itself, and is then held", () => {
    const { w, currents, shrunk } = rollingBack(0.012);
    const first = currents.findIndex(({ excited }) => excited);
    expect(first).toBeGreaterThan(0);
    for (const { motor_A } of currents.slice(0, first)) expect(motor_A).toBeLessThan(0.3);
    // Derived: it does where 1 % of its rated current makes what its brushes ask beyond the lever's volts, and its own drop.
    const at_mps = -currents[first - 1]!.speed_mps;
    const { train, now } = w;
    const [knee_A, lever_V] = [0.267, 0.012 * (currents[first - 1]!.emf_V - train.source_ohm * train.standing_A)];
    const path_ohm = currents[first - 1]!.winding_ohm + train.motorPath_ohm + 0.012 ** 2 * train.source_ohm;
    const made_Vs = (now.flux_NmpA / 26.7) * knee_A;
    const expected_radps = (0.4 + path_ohm * knee_A - lever_V) / made_Vs;
    expect((at_mps * train.gears.ratio) / train.radius_m / expected_radps).toBeCloseTo(1, 6);
    expect(currents[first + 1]!.motor_A).toBeGreaterThan(10);
    expect(currents.at(-1)!.motor_A).toBeGreaterThan(10);
    expect(-w.y[at.SPEED]!).toBeLessThan(at_mps);
    expect(shrunk).toEqual(new Set());
    const { residual_J, turnover_J } = books(w);
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });

  it("excites itself at once under a lever that overcomes the brushes", () => {
    const { currents } = rollingBack(0.05);
    expect(currents[0]!.excited).toBe(1);
  });
});

it("is not excited once the lever is shut", () => {
  const shut = (w: Working) => {
    if (w.time_s < 5) return;
    w.lever = 0;
    w.mode.powered = false;
    if (w.time_s > 6) breakOff(w, "completed");
  };
  const controller = { ...LOCO.controller, ramp_s: 0 };
  const w = run(clubPlan(hill(0.06, 4000), {}, { motor: SERIES, controller }), {
    start: { chainage_m: 1500, speed_mps: -0.5 },
    driver: shut,
  });
  expect(w.now.motor_A).toBe(0);
});
