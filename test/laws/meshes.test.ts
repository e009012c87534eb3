import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Meshes,
  shaftFor_N,
  slowedBy_pkg,
  throughMeshes_N,
  turn,
} from "../../packages/sim-core/src/drive/meshes.js";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { shutLever } from "../../packages/sim-core/src/working.js";
import { books, watchLosses } from "../support/books.js";
import { bookStop, stopped } from "../support/braking.js";
import { clubPlan, LOCO } from "../support/club.js";
import { coast } from "../support/drivers.js";
import { hill } from "../support/profiles.js";
import { NEVER_WARM, textbookPlan } from "../support/textbook.js";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const kg = fc.oneof(fc.constant(0), between(0.1, 200));

const anyMeshes: fc.Arbitrary<Meshes> = fc
  .array(fc.record({ efficiency: fc.oneof(fc.constant(1), between(0.2, 1)), turning_kg: kg }), {
    minLength: 1,
    maxLength: 4,
  })
  .chain((stages) =>
    between(0.1, 200).map((wheels_kg) => ({
      efficiency: Float64Array.from(stages, (stage) => stage.efficiency),
      turning_kg: Float64Array.from([...stages.map((stage) => stage.turning_kg), wheels_kg]),
    })),
  );
const force = between(-2000, 2000);
const way = fc.constantFrom(1, -1);

function turned(m: Meshes, shaft_N: number, against_N: number, along_kg: number, way: number) {
  const found = { rimAcceleration_mps2: 0, rim_N: 0 };
  turn(m, shaft_N, against_N, along_kg, way, found);
  return found;
}

/** Every way in which meshes can drive or be driven, and the acceleration each would come to: one has its forces so. */
function amongAllWays(m: Meshes, shaft_N: number, against_N: number, along_kg: number, way: number): number[] {
  const count = m.efficiency.length;
  return Array.from({ length: 2 ** count }, (_, bits) => {
    const shares = Array.from(m.efficiency, (eta, i) => ((bits >> i) & 1 ? 1 / eta : eta));
    const passing = (from: number) => shares.slice(from).reduce((product, share) => product * share, 1);
    const moved_kg = m.turning_kg.reduce((sum, each_kg, i) => sum + each_kg * passing(i), along_kg);
    return { bits, a: (shaft_N * passing(0) - against_N) / moved_kg, shares };
  })
    .filter(({ bits, a, shares }) => {
      let into_N = shaft_N;
      return shares.every((share, i) => {
        into_N -= m.turning_kg[i]! * a;
        const slack = 1e-9 * (1 + Math.abs(shaft_N) + m.turning_kg[i]! * Math.abs(a));
        const right = ((bits >> i) & 1 ? -1 : 1) * way * into_N >= -slack;
        into_N *= share;
        return right;
      });
    })
    .map(({ a }) => a);
}

describe("gears that speed up", () => {
  const anyCase = [anyMeshes, force, force, fc.oneof(fc.constant(0), between(1, 5000)), way] as const;

  it("do as the one way of driving and being driven that is true of itself", () => {
    fc.assert(
      fc.property(...anyCase, (m, shaft_N, against_N, along_kg, way) => {
        const { rimAcceleration_mps2: a } = turned(m, shaft_N, against_N, along_kg, way);
        const ways = amongAllWays(m, shaft_N, against_N, along_kg, way);
        expect(ways.length).toBeGreaterThan(0);
        for (const each of ways) expect(Math.abs(a - each)).toBeLessThan(1e-8 * (1 + Math.abs(each)));
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it("balance at the wheels, lose at every mesh, and are known again from the wheels", () => {
    fc.assert(
      fc.property(...anyCase, (m, shaft_N, against_N, along_kg, way) => {
        const { rimAcceleration_mps2: a, rim_N } = turned(m, shaft_N, against_N, along_kg, way);
        const wheels_kg = m.turning_kg[m.efficiency.length]! + along_kg;
        const scale_N = 1 + Math.abs(shaft_N) + Math.abs(against_N);
        expect(Math.abs(rim_N - against_N - wheels_kg * a) / scale_N).toBeLessThan(1e-9);
        expect(Math.abs(throughMeshes_N(m, shaft_N, a, way) - rim_N) / scale_N).toBeLessThan(1e-9);
        expect(Math.abs(shaftFor_N(m, rim_N, a, way) - shaft_N) / scale_N).toBeLessThan(1e-9);
        const before_kg = m.turning_kg.reduce((sum, each) => sum + each, 0) - m.turning_kg[m.efficiency.length]!;
        expect((way * (shaft_N - before_kg * a - rim_N)) / scale_N).toBeGreaterThan(-1e-9);
      }),
      { seed: 2, numRuns: 1000 },
    );
  });

  it("answer a newton more at the shaft with more, and with no more than the step is chosen for", () => {
    fc.assert(
      fc.property(...anyCase, (m, shaft_N, against_N, along_kg, way) => {
        const more_N = 10;
        const gained =
          turned(m, shaft_N + more_N, against_N, along_kg, way).rimAcceleration_mps2 -
          turned(m, shaft_N, against_N, along_kg, way).rimAcceleration_mps2;
        expect(gained).toBeGreaterThan(0);
        expect(gained).toBeLessThanOrEqual(more_N * slowedBy_pkg(m, along_kg) * (1 + 1e-9));
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it("turn backwards as they turn forwards", () => {
    fc.assert(
      fc.property(...anyCase, (m, shaft_N, against_N, along_kg, way) => {
        const one = turned(m, shaft_N, against_N, along_kg, way);
        const other = turned(m, -shaft_N, -against_N, along_kg, -way);
        expect(other.rimAcceleration_mps2).toBeCloseTo(-one.rimAcceleration_mps2, 12);
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});

describe("a train with heavy gears", () => {
  const gears: LocoDefinition["gears"] = [
    { ratio: 3, efficiency: 0.8, driven_inertia_kgm2: 0.4 },
    { ratio: 4, efficiency: 0.9, driven_inertia_kgm2: 2 },
  ];
  const book = (parts: Partial<LocoDefinition> = {}): Partial<LocoDefinition> => ({
    gears,
    wheels: { diameter_m: 2, driven_axles: 2, driven_share: 1, wheelset_inertia_kgm2: 5 },
    motor: {
      constants: { resistance_ohm: 1e-12, torque_constant_NmpA: 1 },
      inertia_kgm2: 0.05,
      magnet: "none",
      heat: NEVER_WARM,
    },
    ...parts,
  });
  // As seen at the tread of wheels of 1 m: rotor 0.05 · 12², layshaft 0.4 · 4², wheels 2 · 5 and what turns with them, 2.
  const [rotor_kg, layshaft_kg, wheels_kg] = [7.2, 6.4, 12];

  // Derived: coasting, rotor and layshaft push the train on through their chains: m = M + wheels + η₂ (layshaft + η₁ rotor).
  it("coasts to rest with what turns pushing through the chains", () => {
    const [mass_kg, A_N, v] = [100, 20, 3];
    const w = run(textbookPlan({ mass_kg, A_N }, book()), { step_s: 0.05, start: { speed_mps: v }, driver: coast });
    const moved_kg = mass_kg + wheels_kg + 0.9 * (layshaft_kg + 0.8 * rotor_kg);
    expect(w.y[at.POSITION] / ((moved_kg * v * v) / (2 * A_N))).toBeCloseTo(1, 9);
    // And the chains keep what does not come through.
    const lost_J = 0.5 * v * v * (0.1 * (layshaft_kg + 0.8 * rotor_kg) + 0.2 * rotor_kg);
    expect(w.y[at.GEARS] / lost_J).toBeCloseTo(1, 9);
  });

  // Derived: a brake on the motor's shaft holds the train through both chains: m = M + wheels + layshaft/η₂ + rotor/η₁η₂.
  it("is braked on the motor's shaft, the chains' loss on the brake's side", () => {
    const [mass_kg, v, brake_Nm] = [100, 3, 15];
    const brakes = [{ torque_Nm: brake_Nm, on: "motor" as const }];
    const { distance_m, w } = bookStop({ mass_kg }, brakes, { speed_mps: v, atOnce: true }, book());
    const moved_kg = mass_kg + wheels_kg + layshaft_kg / 0.9 + rotor_kg / 0.72;
    const braked_N = (brake_Nm * 12) / 0.72;
    expect(distance_m / ((moved_kg * v * v) / (2 * braked_N))).toBeCloseTo(1, 9);
    expect(w.y[at.BRAKES] / (brake_Nm * 12 * distance_m)).toBeCloseTo(1, 9);
    const moving_J = 0.5 * (mass_kg + rotor_kg + layshaft_kg + wheels_kg) * v * v;
    expect((w.y[at.GEARS] + w.y[at.BRAKES]) / moving_J).toBeCloseTo(1, 9);
  });

  // Derived: braked harder than the rail grips, the wheels stop by themselves: (wheels + η₂ (layshaft + η₁ rotor)) a = B - S.
  it("locks its wheels as they and what pushes them let the brake", () => {
    const [mass_kg, adhesion, v, rail_force_N] = [1000, 0.05, 3, 900];
    let locked_s = Number.NaN;
    const step: Observer["step"] = (w) => {
      if (w.mode.wheels !== 0 && Number.isNaN(locked_s) && w.y[at.RIM_SPEED]! <= 0) locked_s = w.time_s;
    };
    const plan = textbookPlan({ mass_kg, adhesion }, book({ brakes: [{ rail_force_N }] }));
    stopped(plan, { speed_mps: v, atOnce: true, step_s: 0.01, observers: [{ step, event: () => undefined }] });
    const moved_kg = wheels_kg + 0.9 * (layshaft_kg + 0.8 * rotor_kg);
    expect(locked_s).toBeCloseTo((v * moved_kg) / (rail_force_N - 0.6 * adhesion * mass_kg * 9.80665), 6);
  });
});

// Law: what the gears lose only grows, whoever drives: pulled, coasting, braked by the motor and rolling back.
it.each(["none", "rheostatic", "regenerative"] as const)("gears never give anything back, braking: %s", (brake) => {
  const { observer, shrunk } = watchLosses();
  const loco = {
    gears: LOCO.gears.map((stage) => ({ ...stage, efficiency: 0.7, driven_inertia_kgm2: 0.05 })),
    motor: { ...LOCO.motor, inertia_kgm2: 0.02 },
    controller: { ...LOCO.controller, electric_brake: brake },
  };
  const plan = clubPlan(hill(0.015, 120), { speed_mps: 1.6, duration_s: 200, charge: 0.8 }, loco);
  const w = run(plan, { observers: [observer] });
  const back = run(clubPlan(hill(0.06), { duration_s: 40 }, loco), {
    start: { chainage_m: 1000, speed_mps: 2 },
    driver: shutLever,
    observers: [observer],
  });
  expect(w.y[at.GEARS]).toBeGreaterThan(100);
  expect(back.events.map(({ kind }) => kind)).toContain("rolls_back");
  expect(shrunk).toEqual(new Set());
  for (const each of [w, back]) {
    const { residual_J, turnover_J } = books(each);
    expect(Math.abs(residual_J)).toBeLessThan(2e-6 * turnover_J);
  }
});
