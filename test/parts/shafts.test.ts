import { describe, expect, it } from "vitest";
import { InputError, newNotes, type Problem } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { keySection } from "../../packages/sim-core/src/strength/key.js";
import { leastOf, STRENGTHS, strengthAt } from "../../packages/sim-core/src/strength/steel.js";
import { everyShaft } from "../../packages/sim-core/src/train/shafts.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";

type Stage = LocoDefinition["gears"][number];
const MOTOR: Stage = { teeth: [11, 45], chain: "08B" };
const LAY: Stage = { teeth: [12, 30], chain: "08B" };

const loco = (layshaft: Stage["shaft"], axle?: LocoDefinition["wheels"]["axle"]): Partial<LocoDefinition> => ({
  gears: [MOTOR, { ...LAY, ...(layshaft && { shaft: layshaft }) }],
  wheels: { ...LOCO.wheels, ...(axle && { axle }) },
});

function problemsOf(own: Partial<LocoDefinition>): readonly Problem[] {
  try {
    clubPlan(CIRCUIT, {}, own);
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
}

describe("what cannot be built is told, with what is wanted", () => {
  const key = { width_m: 0.006, height_m: 0.006, length_m: 0.04 };
  const rows: [string, Partial<LocoDefinition>, string, RegExp][] = [
    [
      // 12 teeth of 08B: 12.7 / sin 15° - 8.51 = 40.56 mm.
      "a layshaft thicker than the root circle of its small sprocket",
      loco({ diameter_m: 0.041 }),
      "loco.gears.2.shaft.diameter",
      /^41 mm is no less than the root circle of its sprocket of 12 teeth for 08B, 40\.56 mm/,
    ],
    [
      "a key longer than its hub",
      loco({ key, hub_m: 0.03 }),
      "loco.gears.2.shaft.key.length",
      /^40 mm is longer than the hub, 30 mm/,
    ],
    [
      "a key wider than its shaft",
      loco({ key: { ...key, height_m: 0.003 }, diameter_m: 0.006 }),
      "loco.gears.2.shaft.key.width",
      /^6 mm is no less than the shaft, 6 mm/,
    ],
    [
      "bearings outside the frame",
      { ...loco({ bearings: { spacing_m: 0.16 } }), frame_width_m: 0.15 },
      "loco.gears.2.shaft.bearings.spacing",
      /^bearings 160 mm apart stand outside a frame 150 mm wide; at most/,
    ],
    [
      "those of the axle too",
      { ...loco(undefined, { bearings: { spacing_m: 0.2 } }), frame_width_m: 0.15 },
      "loco.wheels.axle.bearings.spacing",
      /stand outside a frame 150 mm wide/,
    ],
    [
      "a sprocket nearer to the other bearing",
      loco(undefined, { inboard_m: 0.09, bearings: { spacing_m: 0.13 } }),
      "loco.wheels.axle.inboard",
      /^a sprocket 90 mm from the nearest of two bearings 130 mm apart/,
    ],
  ];
  it.each(rows)("%s", (_, own, path, message) => {
    const problems = problemsOf(own);
    expect(problems.map((each) => each.path)).toEqual([path]);
    expect(problems[0].message).toMatch(message);
  });

  it("all at once", () => {
    const bad = loco({ diameter_m: 0.041, key, hub_m: 0.03 }, { diameter_m: 0.2 });
    expect(problemsOf(bad).map(({ path }) => path)).toEqual([
      "loco.gears.2.shaft.diameter",
      "loco.gears.2.shaft.key.length",
      "loco.wheels.axle.diameter",
    ]);
  });
});

describe("nothing is refused for want of a figure", () => {
  const rows: [string, Partial<LocoDefinition>][] = [
    [
      "a thick shaft where the chain is not named",
      { gears: [MOTOR, { teeth: [12, 30], shaft: { diameter_m: 0.06 } }] },
    ],
    ["a long key without a hub", loco({ key: { width_m: 0.006, height_m: 0.006, length_m: 0.2 } })],
    ["bearings without a frame", loco({ bearings: { spacing_m: 0.5 } })],
    ["a sprocket far inside bearings that are not placed", loco({ inboard_m: 0.3 })],
    ["next to nothing", loco({}, {})],
  ];
  it.each(rows)("%s", (_, own) => expect(problemsOf(own)).toEqual([]));

  it("a sprocket that would drive the motor's own shaft is warned of, and not used", () => {
    const { notes } = clubPlan(CIRCUIT, {}, { gears: [{ ...MOTOR, shaft: { driven_overhang_m: 0.03 } }, LAY] });
    const found = notes.warnings.filter(({ code }) => code === "not_a_layshaft");
    expect(found.map(({ path }) => path)).toEqual(["loco.gears.1.shaft.driven_overhang"]);
  });

  it("bearings that are not placed stand wide enough for a sprocket that is", () => {
    const [, layshaft] = everyShaft(clubPlan(CIRCUIT, {}, loco({ inboard_m: 0.3 })).train.shafts, newNotes());
    expect(layshaft.bearings.spacing_m).toBe(0.6);
  });
});

describe("what is left out", () => {
  it("is assumed shaft by shaft, and listed by its key", () => {
    const plan = clubPlan(CIRCUIT, {}, loco({ diameter_m: 0.02 }));
    const notes = newNotes();
    const shafts = everyShaft(plan.train.shafts, notes);
    expect(shafts.map(({ path }) => path)).toEqual(["loco.gears.1.shaft", "loco.gears.2.shaft", "loco.wheels.axle"]);
    expect(plan.notes.assumed.map(({ key }) => key)).toContain("loco.gears.2.shaft.material");
    expect(notes.assumed.map(({ key }) => key)).toContain("loco.wheels.axle.inboard");
    expect(notes.assumed.every(({ key }) => !key.startsWith("loco.gears.2."))).toBe(true);
  });

  it("a layshaft's sprockets stand alike unless told", () => {
    const [, layshaft] = everyShaft(clubPlan(CIRCUIT, {}, loco({ inboard_m: 0.03 })).train.shafts, newNotes());
    expect(layshaft.driven).toEqual(layshaft.driving);
  });
});

describe("steels", () => {
  it("are no stronger the thicker they are, and yield before they break", () => {
    for (const { rows } of Object.values(STRENGTHS)) {
      rows.forEach((row, i) => {
        expect(row.yield_Pa).toBeLessThan(row.ultimate_Pa);
        if (i > 0) expect(row.yield_Pa).toBeLessThanOrEqual(rows[i - 1].yield_Pa);
        if (i > 0) expect(row.ultimate_Pa).toBeLessThanOrEqual(rows[i - 1].ultimate_Pa);
      });
    }
  });

  it("the least bar is one that its own strength carries, and no range of sizes has a thinner", () => {
    const steel = STRENGTHS["S235JRC+C"];
    for (let torque_Nm = 1; torque_Nm < 5000; torque_Nm *= 1.3) {
      const wanted_m = ({ yield_Pa }: { yield_Pa: number }) => Math.cbrt((16 * torque_Nm) / (0.3 * Math.PI * yield_Pa));
      const least_m = leastOf(steel, wanted_m);
      expect(wanted_m(strengthAt(steel, least_m))).toBeLessThanOrEqual(least_m * (1 + 1e-12));
      for (const share of [0.999, 0.95, 0.8])
        expect(wanted_m(strengthAt(steel, share * least_m))).toBeGreaterThan(share * least_m);
    }
  });
});

describe("the key of the standard", () => {
  it("is about a quarter of its shaft, and there is none beyond the table", () => {
    for (let mm = 13; mm <= 110; mm++) {
      const section = keySection(mm / 1000);
      expect(section?.width_m).toBeGreaterThan((0.2 * mm) / 1000);
      expect(section?.width_m).toBeLessThan((0.42 * mm) / 1000);
    }
    expect(keySection(0.005)).toBeNull();
    expect(keySection(0.2)).toBeNull();
  });
});
