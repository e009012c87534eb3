import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import { fieldName, type Keys } from "../../packages/sim-core/src/keys.js";
import { CHAINS } from "../../packages/sim-core/src/parts/chain.data.js";
import { peakTension_N } from "../../packages/sim-core/src/parts/chain.load.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { shaftKeys } from "../../packages/sim-core/src/parts/shaft.keys.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import type { ShaftRow, ShaftsAnswer } from "../../packages/sim-core/src/studies/shafts/answer.js";
import { shafts } from "../../packages/sim-core/src/studies/shafts/shafts.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

type Loco = Partial<LocoDefinition>;
type ShaftKeys = NonNullable<LocoDefinition["gears"][number]["shaft"]>;
const G_mps2 = 9.80665;
const RADIUS_m = LOCO.wheels.diameter_m / 2;
const [FIRST, SECOND] = LOCO.gears;

/** On a short level, so that each answer is one short run. */
const SHORT = level(60);
const asked = (loco: Loco = {}, rail: "dry" | "wet" = "dry"): ShaftsAnswer =>
  shafts(clubPlan(SHORT, { track: { kind: "end-to-end", rail } }, loco));
const withLimit = (motor_current_limit_A: number): Loco => ({
  controller: { ...LOCO.controller, motor_current_limit_A, battery_current_limit_A: 1000 },
});
const layshaft = (shaft: ShaftKeys): Loco => ({ gears: [FIRST, { ...SECOND, shaft }] });
/** Both bounds of every key that carries a number, by the names that a definition has for them. */
function boundsIn(keys: Keys, head = ""): [path: string, value: number][] {
  return Object.entries(keys).flatMap(([name, key]): [string, number][] => {
    if (key.kind === "map") return boundsIn(key.keys, `${name}.`);
    if (key.kind !== "quantity" && key.kind !== "number") return [];
    const { min = 0, max = 0 } = key;
    return [min, max].map((value) => [`${head}${fieldName(name, key)}`, value]);
  });
}

const rowsOf = ({ rows }: ShaftsAnswer) => rows as [ShaftRow, ShaftRow, ShaftRow];

describe("which load governs", () => {
  const grip_N = 0.25 * 220 * G_mps2;

  /** Wheels with next to no inertia: what spins them up is no part of what comes through. */
  const light = { wheels: { ...LOCO.wheels, wheelset_inertia_kgm2: 0 } };

  it("slipping, where the motor brings more than dry rail grips: nothing more comes through, whatever the limit", () => {
    const [weak, strong] = [asked({ ...withLimit(80), ...light }), asked({ ...withLimit(160), ...light })];
    for (const { loads, rows } of [weak, strong]) {
      expect(loads.slipping_N).toBeCloseTo(grip_N, 6);
      expect(loads.grip_N).toBe(loads.slipping_N);
      expect(loads.current_limit_N).toBeGreaterThan(loads.slipping_N);
      expect([loads.governed_by, loads.worst_N]).toEqual(["slipping", loads.slipping_N]);
      expect(rows.map(({ torque }) => torque.governed_by)).toEqual(["slipping", "slipping", "slipping"]);
      expect(rows[2].torque.worst_Nm).toBeCloseTo(grip_N * RADIUS_m, 6);
    }
    expect(strong.loads.current_limit_N).toBeGreaterThan(1.9 * weak.loads.current_limit_N);
    expect(strong.rows.map((row) => row.torque.worst_Nm)).toEqual(weak.rows.map((row) => row.torque.worst_Nm));
  });

  it("slipping, with what it takes to spin the wheels up where they are heavy and the motor strong", () => {
    // All that turns, as mass at the tread, and the share of it behind the last chain.
    const { loads, rows } = asked(withLimit(160));
    const ratio = (45 / 11) * (30 / 12);
    const rotor_kg = (0.0025 * ratio ** 2) / RADIUS_m ** 2;
    const layshaft_kg = (0.002 * 2.5 ** 2) / RADIUS_m ** 2;
    const wheels_kg = (2 * 0.05) / RADIUS_m ** 2;
    const sliding_N = 0.6 * grip_N;
    // F at the shaft, a for all: ((F - mr a) η - ml a) η = sliding + mw a.
    const shaft_N = loads.current_limit_N / 0.96 ** 2;
    const a_mps2 = (loads.current_limit_N - sliding_N) / (rotor_kg * 0.96 ** 2 + layshaft_kg * 0.96 + wheels_kg);
    expect(loads.spinning_N).toBeCloseTo(sliding_N + wheels_kg * a_mps2, 6);
    expect(loads.spinning_N).toBeGreaterThan(grip_N);
    expect(rows[2].torque.worst_Nm).toBeCloseTo((loads.spinning_N ?? 0) * RADIUS_m, 6);
    const motor_Nm = ((shaft_N - rotor_kg * a_mps2) * RADIUS_m) / ratio;
    expect(rows[0].torque.worst_Nm).toBeCloseTo(Math.max(motor_Nm, (grip_N * RADIUS_m) / ratio / 0.96 ** 2), 6);
    expect(rows.map(({ torque }) => torque.governed_by)).toEqual(["slipping", "slipping", "slipping"]);
    expect(asked(withLimit(20)).loads.spinning_N).toBeNull();
  });

  it("the current limit, where the wheels grip for all that the motor brings", () => {
    const { loads, rows } = asked(withLimit(20));
    expect(loads.current_limit_N).toBeLessThan(loads.slipping_N);
    expect(loads.governed_by).toBe("current_limit");
    expect(rows[2].torque.worst_Nm).toBeCloseTo(loads.current_limit_N * RADIUS_m, 6);
  });

  it("dry rail counts whatever the plan's is: another day will be dry", () => {
    const [dry, wet] = [asked(withLimit(160)), asked(withLimit(160), "wet")];
    expect(wet.loads).toEqual(dry.loads);
    expect(wet.rows.map((row) => row.torque.worst_Nm)).toEqual(dry.rows.map((row) => row.torque.worst_Nm));
  });

  it("the motor as a brake, and a brake on its shaft, where they ask more than it drives with", () => {
    const brakes = [{ torque_Nm: 5, on: "motor" as const }];
    const { loads } = asked({ ...withLimit(20), brakes });
    // 5 N m at the motor is 5 × 45/11 × 30/12 over 0.0825 m at the tread, and the gears help it by their loss.
    const full_N = (5 * (45 / 11) * (30 / 12)) / RADIUS_m / 0.96 ** 2;
    expect(loads.braking_N).toBeCloseTo(full_N, 6);
    expect([loads.governed_by, loads.worst_N]).toEqual(
      full_N > loads.slipping_N ? ["slipping", loads.slipping_N] : ["braking", full_N],
    );
    const electric = { ...withLimit(20).controller, electric_brake: "rheostatic" } as LocoDefinition["controller"];
    expect(asked({ controller: electric }).loads.braking_N).toBeGreaterThan(0);
    expect(asked(withLimit(20)).loads.braking_N).toBeNull();
  });

  it("a disc on the axle loads the axle and no chain", () => {
    const plain = asked(withLimit(20));
    const disc = asked({ ...withLimit(20), brakes: [{ torque_Nm: 30, on: "axle" }] });
    expect(disc.rows[2].torque.braking_Nm).toBeCloseTo(30, 9);
    expect(disc.rows[2].torque.worst_Nm).toBeCloseTo(Math.min(30, grip_N * RADIUS_m), 6);
    expect(disc.rows[2].pulls[0].pull_N).toBeCloseTo(plain.rows[2].pulls[0].pull_N, 9);
    expect(disc.rows[1].torque.worst_Nm).toBeCloseTo(plain.rows[1].torque.worst_Nm, 9);
  });

  it("the working, where it asks more than both", () => {
    // A textbook's wheels grip for anything, and nothing turns: all that the motor brings is on every shaft.
    const plan = textbookPlan({
      mass_kg: 1000,
      A_N: 100,
      pull_N: 300,
      battery_V: 24,
      winding_ohm: 0.05,
      track: level(20),
    });
    const { rows } = shafts(plan);
    expect(rows.map(({ torque }) => torque.working_Nm)).toEqual([expect.closeTo(300, 6), expect.closeTo(300, 6)]);
  });
});

describe("what one shaft passes on to the next", () => {
  const answer = asked();
  const [motor, lay, axle] = rowsOf(answer);

  it("is the torque times the ratio, less what the chain loses", () => {
    expect(lay.torque.slipping_Nm).toBeCloseTo(motor.torque.slipping_Nm * (45 / 11) * 0.96, 9);
    expect(axle.torque.slipping_Nm).toBeCloseTo(lay.torque.slipping_Nm * (30 / 12) * 0.96, 9);
    expect(motor.torque.current_limit_Nm).toBeCloseTo(
      (answer.loads.current_limit_N * RADIUS_m) / ((45 / 11) * (30 / 12) * 0.96 ** 2),
      9,
    );
  });

  it("is one pull at both ends of each chain, as the driving sprocket draws it", () => {
    const [driven, driving] = lay.pulls;
    expect([driven.sprocket, driving.sprocket]).toEqual(["driven", "driving"]);
    expect(driven.pull_N).toBe(motor.pulls[0].pull_N);
    expect(axle.pulls[0].pull_N).toBe(driving.pull_N);
    expect(driving.pull_N).toBeCloseTo(peakTension_N(CHAINS["08B"].pitch_m, 12, lay.torque.worst_Nm), 9);
  });

  it("in the working too, less what the inertia on the way takes", () => {
    // The rotor's inertia lies before the motor's sprocket: what is left is passed on with the loss of a chain.
    expect(lay.torque.working_Nm).toBeLessThan(motor.torque.working_Nm * (45 / 11) * 0.96 + 1e-9);
    expect(lay.torque.working_Nm).toBeGreaterThan(0.95 * motor.torque.working_Nm * (45 / 11) * 0.96);
  });
});

describe("bending", () => {
  const bent = (shaft: ShaftKeys) => rowsOf(asked(layshaft(shaft)))[1];

  it("grows with the overhang, and with no overhang there is none", () => {
    const [near, far] = [bent({ overhang_m: 0.03 }), bent({ overhang_m: 0.06 })];
    expect(far.bending_Nm).toBeCloseTo(2 * near.bending_Nm, 9);
    const sum_N = near.pulls.reduce((sum, { pull_N }) => sum + pull_N, 0);
    expect(near.bending_Nm).toBeCloseTo(0.03 * sum_N, 9);
    expect(bent({ overhang_m: 0 }).bending_Nm).toBe(0);
  });

  it("is F a (L - a) / L between the bearings", () => {
    const { pulls, bending_Nm } = bent({ inboard_m: 0.03, bearings: { spacing_m: 0.12 } });
    expect(bending_Nm).toBeCloseTo(pulls.reduce((sum, { pull_N }) => sum + pull_N, 0) * 0.03 * 0.75, 9);
  });

  it("of an axle whose wheels slip has the wheels' besides: half its load, and half of the pull at the rail, beside each bearing", () => {
    const plan: Loco = { ...withLimit(160), wheels: { ...LOCO.wheels, axle: { wheel_offset_m: 0.04 } } };
    const axle = rowsOf(asked(plan))[2];
    const load_N = (220 * G_mps2) / 2;
    expect(axle.weight_N).toBeCloseTo(load_N, 6);
    expect(axle.wheels_bending_Nm).toBeCloseTo((0.04 * Math.hypot(load_N, 0.25 * load_N)) / 2, 6);
    expect(axle.bending_Nm).toBeCloseTo(axle.wheels_bending_Nm + axle.pulls[0].bending_Nm, 9);
  });
});

describe("a layshaft worked by hand", () => {
  // The axle gets 0.25 of 220 kg at 82.5 mm; the chain loses 4 %; 12 teeth of 08B; both chains 35 mm outside the bearing; Kb 2,
  // Kt 1.5; S235JR with a keyway: 0.75 × 0.18 × 360 MPa.
  const lay = rowsOf(asked({ ...withLimit(80), ...layshaft({ overhang_m: 0.035, diameter_m: 0.02 }) }))[1];
  const torque_Nm = (0.25 * 220 * G_mps2 * 0.0825) / (2.5 * 0.96);
  const pull_N = torque_Nm / ((0.0127 / (2 * Math.sin(Math.PI / 12))) * Math.cos(Math.PI / 12));
  const motor_Nm = torque_Nm / ((45 / 11) * 0.96);
  const motor_N = motor_Nm / ((0.0127 / (2 * Math.sin(Math.PI / 11))) * Math.cos(Math.PI / 11));
  const bending_Nm = 0.035 * (pull_N + motor_N);
  const equivalent_Nm = Math.sqrt((2 * bending_Nm) ** 2 + (1.5 * torque_Nm) ** 2);

  it("comes to the same", () => {
    expect(lay.torque.worst_Nm).toBeCloseTo(torque_Nm, 9);
    expect(lay.bending_Nm).toBeCloseTo(bending_Nm, 9);
    expect(lay.equivalent_torque_Nm).toBeCloseTo(equivalent_Nm, 9);
    expect(lay.allowable_shear_Pa).toBeCloseTo(0.75 * 0.18 * 360e6, 3);
    const least_m = ((16 * equivalent_Nm) / (Math.PI * 0.75 * 0.18 * 360e6)) ** (1 / 3);
    expect(lay.least_diameter_m).toBeCloseTo(least_m, 9);
    const shear_Pa = (16 * equivalent_Nm) / (Math.PI * 0.02 ** 3);
    expect(lay.shear_Pa).toBeCloseTo(shear_Pa, 0);
    expect(lay.safety_factor).toBeCloseTo((0.75 * 225e6) / 2 / shear_Pa, 9);
  });
});

describe("what is found is enough, and just enough", () => {
  const materials = ["S235JR", "C45+N", "11SMn30+C", "42CrMo4+QT"] as const;

  it("a shaft of the least diameter has a margin of 1, or is where its steel gets weaker", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...materials),
        fc.double({ min: 0, max: 0.15, noNaN: true }),
        (material, overhang_m) => {
          const found = rowsOf(asked(layshaft({ material, overhang_m })))[1];
          const made = rowsOf(asked(layshaft({ material, overhang_m, diameter_m: found.least_diameter_m })))[1];
          expect(made.margin).toBeGreaterThan(1 - 1e-9);
          expect(made.margin).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 12 },
    );
  });

  it("the key that is wanted holds, and one a hundredth shorter does not", () => {
    const { key_wanted } = rowsOf(asked(layshaft({ diameter_m: 0.02 })))[1];
    if (!key_wanted) throw new Error("a shaft of 20 mm has a key");
    const held = (length_m: number) =>
      rowsOf(asked(layshaft({ diameter_m: 0.02, key: { ...key_wanted, length_m } })))[1].fixings[0];
    expect(held(1.0001 * key_wanted.length_m)).toMatchObject({ by: "key", enough: true });
    expect(held(0.99 * key_wanted.length_m)).toMatchObject({ by: "key", enough: false });
  });

  it("the bearing that is wanted lasts as long as was asked", () => {
    const { rating_wanted_N, life_h } = rowsOf(asked(layshaft({})))[1].bearing;
    expect(life_h).toBeNull();
    for (const type of ["ball", "roller"] as const) {
      const first = rowsOf(asked(layshaft({ bearings: { type } })))[1].bearing;
      const rating_N = first.rating_wanted_N ?? 0;
      const made = rowsOf(asked(layshaft({ bearings: { type, rating_N } })))[1].bearing;
      expect(made.life_h).toBeCloseTo(2000, 6);
      if (type === "ball") expect(rating_N).toBeCloseTo(rating_wanted_N ?? 0, 6);
    }
  });

  it("a set screw holds by its table, and twice the torque is wanted of it; it cuts no keyway", () => {
    const row = rowsOf(asked(layshaft({ diameter_m: 0.02, set_screw_m: 0.008 })))[1];
    const [screw] = row.fixings;
    expect(screw.holds_Nm).toBeCloseTo(700 * 4.4482216 * 0.01, 4);
    expect(screw).toMatchObject({ by: "set_screw", least_margin: 2 });
    expect(row.keyway).toBe(false);
    expect(rowsOf(asked(layshaft({ bush_torque_Nm: 147 })))[1]).toMatchObject({
      keyway: true,
      fixings: [{ by: "taper_bush", holds_Nm: 147 }],
    });
  });
});

describe("bearings", () => {
  it("carry at least the pull, an overhung one more than that", () => {
    const at_N = (shaft: ShaftKeys) => rowsOf(asked(layshaft(shaft)))[1].bearing.worst_load_N;
    const { pulls } = rowsOf(asked(layshaft({ overhang_m: 0 })))[1];
    const sum_N = pulls.reduce((sum, { pull_N }) => sum + pull_N, 0);
    const bearings = { spacing_m: 0.1 };
    expect(at_N({ overhang_m: 0, bearings })).toBeCloseTo(sum_N, 9);
    expect(at_N({ overhang_m: 0.05, bearings })).toBeCloseTo(1.5 * sum_N, 9);
    expect(at_N({ inboard_m: 0.05, bearings })).toBeCloseTo(0.5 * sum_N, 9);
  });

  it("turn as fast as their own shaft", () => {
    const [motor, lay, axle] = rowsOf(asked());
    expect(motor.bearing.mean_speed_radps / lay.bearing.mean_speed_radps).toBeCloseTo(45 / 11, 9);
    expect(lay.bearing.mean_speed_radps / axle.bearing.mean_speed_radps).toBeCloseTo(30 / 12, 9);
  });

  it("wear by less than the worst", () => {
    for (const { bearing } of rowsOf(asked(withLimit(20))))
      expect(bearing.mean_load_N).toBeLessThan(bearing.worst_load_N * (1 + 1e-9));
  });
});

describe("what is given and what is not", () => {
  it("a shaft moves nothing: the working is the same to the last figure", () => {
    const shaft: ShaftKeys = { diameter_m: 0.02, material: "C45+N", overhang_m: 0.03 };
    const given: Loco = { ...layshaft(shaft), wheels: { ...LOCO.wheels, axle: { diameter_m: 0.025 } } };
    expect(runOnce(clubPlan(CIRCUIT, {}, given))).toEqual(runOnce(clubPlan()));
  });

  it("with nothing given the least diameters are the answer, and all that was assumed is listed", () => {
    const { rows, assumed, remarks } = asked();
    for (const row of rows) {
      expect(row).toMatchObject({
        given: false,
        diameter_m: null,
        margin: null,
        enough: null,
        safety_factor: null,
        fixings: [],
      });
      expect(row.least_diameter_m).toBeGreaterThan(0.004);
      expect(assumed.map(({ key }) => key)).toContain(`${row.key}.material`);
    }
    expect(assumed.every(({ source }) => source.length > 0)).toBe(true);
    expect(remarks).toContain("coupled_axles");
  });

  it("a closed gearbox pulls at no shaft, and that is said", () => {
    const { rows, remarks } = asked({ gears: [{ ratio: 9 }] });
    expect(rows.map(({ shaft, pulls }) => [shaft, pulls.length])).toEqual([
      ["motor", 0],
      ["axle", 0],
    ]);
    expect(remarks).toContain("closed_gearbox");
  });

  // Law: every figure is a number, or it is told what is wrong. Maps within are asked with all else as an ordinary shaft has it.
  const ordinary: ShaftKeys = {
    diameter_m: 0.02,
    key: { width_m: 0.006, height_m: 0.006, length_m: 0.02 },
    bearings: { spacing_m: 0.13, rating_N: 10_000 },
  };
  it.each(boundsIn(shaftKeys))(
    "a shaft's %s of %d is answered with figures that are numbers, or refused",
    (path, value) => {
      const [name, inner] = path.split(".") as [keyof ShaftKeys, string | undefined];
      const own = inner ? { ...(ordinary[name] as object), [inner]: value } : value;
      const shaft = { ...ordinary, [name]: own };
      try {
        const { rows } = asked(layshaft(shaft as ShaftKeys));
        expect(rows).toHaveLength(3);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
      }
    },
  );

  it("an odd life is refused", () => {
    expect(() => shafts(clubPlan(SHORT), { life_h: 0 })).toThrow(InputError);
  });
});
