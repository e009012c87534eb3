/// <reference path="../../packages/sim-core/src/ode-rk4.d.ts" />
import rk4 from "ode-rk4";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { CLASS_LIMIT_degC, createHeat } from "../../packages/sim-core/src/parts/heat.js";
import {
  caseRate_Kps,
  coolingShare,
  loopGain,
  settledWinding_degC,
  windingAfter_degC,
  windingRate_Kps,
} from "../../packages/sim-core/src/parts/heat.nodes.js";

type Definition = Parameters<typeof createHeat>[0];

// A 24 V, 28 A, 500 W motor with 3 A of free current: 60 W of drag at rated speed.
const losses = {
  known: true,
  current_A: 28,
  power_W: 500,
  speed_radps: 262,
  resistance20_ohm: 1 / 7,
  brush_V: 0,
  drag_W: 60,
  count: 1,
  paths: 1,
};
const load = (current_A: number) => ({ copper20_W: current_A ** 2 / 7, brush_W: 0, drag_W: 60 });

function make(definition: Definition, figures = losses) {
  const notes = newNotes();
  const heat = createHeat(definition, figures, notes);
  return { heat, notes };
}

describe("worked out from the rating", () => {
  it.each(["A", "B", "F", "H"] as const)("settles exactly at class %s at rated current in 40 °C", (insulation) => {
    const { heat, notes } = make({ insulation });
    expect(notes.problems).toEqual([]);
    expect(settledWinding_degC(heat, load(28), 40)).toBeCloseTo(CLASS_LIMIT_degC[insulation], 9);
  });

  it("with a quarter of its rise between winding and case, and the rest from there to the air", () => {
    const { heat } = make(undefined);
    const hot_W = (28 ** 2 / 7) * (1 + 0.00393 * (130 - 20));
    expect(hot_W * heat.windingToCase_KpW).toBeCloseTo((130 - 40) / 4, 9);
    expect((hot_W + 60) * heat.caseToAir_KpW).toBeCloseTo((3 * (130 - 40)) / 4, 9);
  });

  it("and at a continuous current other than rated, with brushes", () => {
    const { heat } = make({ continuous_current_A: 20 }, { ...losses, brush_V: 0.7 });
    expect(settledWinding_degC(heat, { ...load(20), brush_W: 14 }, 40)).toBeCloseTo(130, 9);
  });

  it("lists what it took for granted", () => {
    const { notes } = make(undefined);
    expect(Object.fromEntries(notes.assumed.map((a) => [a.key, a.value]))).toEqual({
      "loco.motor.heat.insulation": "B",
      "loco.motor.heat.mass": "6 kg",
      "loco.motor.heat.continuous_current": "28 A",
      "loco.motor.heat.continuous_for": "always",
      "loco.motor.heat.cooling": "still",
    });
  });

  // Armature 2 to 10 min, case 20 to 60 min: order of magnitude, from memory. Mass and losses fix how slow the case can
  // be; at 12 kg a kilowatt it comes out at 18, 18 and 22 min, the copper's own heat counted in.
  it.each([
    [250, 14, 0.226190476, 2.0, 0.072343156, 2750],
    [500, 28, 1 / 7, 3.0, 0.0763943727, 2500],
    [1000, 35.6, 0.136161574, 3.5, 0.0991619583, 3000],
  ])("a %d W motor warms as such motors do", (power_W, current_A, resistance20_ohm, free_A, flux, rpm) => {
    const drag_W = (flux * free_A * rpm * Math.PI) / 30;
    const { heat } = make(undefined, { ...losses, power_W, current_A, resistance20_ohm, drag_W });
    const winding_min = (heat.winding_JpK * heat.windingToCase_KpW) / 60;
    expect(winding_min).toBeGreaterThan(2);
    expect(winding_min).toBeLessThan(10);
    const gain = loopGain(heat, current_A ** 2 * resistance20_ohm);
    const case_min = ((heat.winding_JpK + heat.case_JpK) * heat.caseToAir_KpW) / (1 - gain) / 60;
    expect(case_min).toBeGreaterThan(15);
    expect(case_min).toBeLessThan(60);
  });

  it.each([20, 30, 60, 120])("rated for %d min, it reaches its class just then, from cold", (minutes) => {
    const time_s = minutes * 60;
    const { heat, notes } = make({ continuous_for_s: time_s });
    expect(notes.problems).toEqual([]);
    expect(windingAfter_degC(heat, load(28), 40, 40, 40, time_s)).toBeCloseTo(130, 6);
    expect(heat.caseToAir_KpW).toBeGreaterThan(make(undefined).heat.caseToAir_KpW);
  });

  it("rated for a day is rated for ever", () => {
    const day = make({ continuous_for_s: 86400 }).heat;
    expect(day.caseToAir_KpW).toBeCloseTo(make(undefined).heat.caseToAir_KpW, 9);
  });

  it("two motors side by side at twice the current warm as one", () => {
    const two = { ...losses, current_A: 56, power_W: 1000, resistance20_ohm: 1 / 14, drag_W: 120, count: 2, paths: 2 };
    const both = make({ mass_kg: 6 }, two).heat;
    const one = make({ mass_kg: 6 }).heat;
    const twice = { copper20_W: 56 ** 2 / 14, brush_W: 0, drag_W: 120 };
    expect(windingAfter_degC(both, twice, 20, 20, 20, 500)).toBeCloseTo(
      windingAfter_degC(one, load(28), 20, 20, 20, 500),
      9,
    );
  });
});

it.each([1, 0.4])("the closed form and the two rates agree, with %d of the cooling", (cooled) => {
  const { heat } = make(undefined);
  const current = { ...load(40), cooled };
  const y = Float64Array.of(90, 35);
  const rates = (dydt: Float64Array, at: Float64Array) => {
    const made_W = current.copper20_W * (1 + 0.00393 * (at[0]! - 20));
    dydt[0] = windingRate_Kps(heat, made_W, at[0]!, at[1]!);
    dydt[1] = caseRate_Kps(heat, current.drag_W, at[0]!, at[1]!, 25, cooled);
  };
  // Fourth order at 1 s in a system whose fastest time is two minutes.
  rk4(y, rates, 0, 1).steps(900);
  expect(windingAfter_degC(heat, current, 90, 35, 25, 900)).toBeCloseTo(y[0]!, 7);
});

describe("given figures", () => {
  const four = { winding_capacity_JpK: 700, case_capacity_JpK: 2000, winding_to_case_KpW: 0.2, case_to_air_KpW: 0.3 };
  it("are taken as they are", () => {
    const { heat, notes } = make({ ...four, insulation: "F" });
    expect(notes.problems).toEqual([]);
    expect(Object.values(heat)).toEqual([700, 2000, 0.2, 0.3, 155, 0]);
  });

  it.each<[string, Definition, typeof losses, string]>([
    ["one alone", { winding_capacity_JpK: 700 }, losses, "heat"],
    ["with a mass beside them", { ...four, mass_kg: 6 }, losses, "heat"],
    ["that run away at rated current", { ...four, case_to_air_KpW: 3 }, losses, "heat"],
    ["no rating to work from", {}, { ...losses, power_W: Number.NaN, current_A: Number.NaN }, "heat"],
    ["a time too short for the mass", { continuous_for_s: 60 }, losses, "heat.continuous_for"],
  ])("%s: refused", (_, definition, figures, key) => {
    expect(make(definition, figures).notes.problems.map((p) => p.path)).toEqual([`loco.motor.${key}`]);
  });

  it("says nothing of a motor that already contradicts itself", () => {
    const notes = newNotes();
    notes.problems.push({ path: "loco.motor.nameplate.power", message: "over 1" });
    createHeat({ continuous_for_s: 60 }, losses, notes, false);
    expect(notes.problems).toHaveLength(1);
  });

  it("past the runaway current there is no settling", () => {
    const heat = { winding_JpK: 700, case_JpK: 2000, windingToCase_KpW: 0.2, caseToAir_KpW: 0.3 };
    expect(settledWinding_degC(heat, { ...load(60), drag_W: 0 }, 20)).toBe(Number.POSITIVE_INFINITY);
    expect(windingAfter_degC(heat, load(60), 20, 20, 20, 7200)).toBeGreaterThan(1000);
  });
});

it("a day of a current that runs away is hotter than numbers go, not no number", () => {
  const heat = { winding_JpK: 700, case_JpK: 2000, windingToCase_KpW: 0.2, caseToAir_KpW: 0.35 };
  expect(loopGain(heat, 200 ** 2 / 7)).toBeGreaterThan(1);
  for (const [winding_degC, case_degC] of [
    [20, 20],
    [130, 60],
    [20, 100],
  ] as const) {
    expect(windingAfter_degC(heat, load(200), winding_degC, case_degC, 20, 86400)).toBe(Number.POSITIVE_INFINITY);
  }
});

describe("a fan on the shaft", () => {
  const fan = make({ cooling: "fan" }).heat;

  it("cools in full from rated speed on, and leaves three tenths standing (drive textbooks, from memory)", () => {
    expect(coolingShare(fan, 262)).toBe(1);
    expect(coolingShare(fan, -400)).toBe(1);
    expect(coolingShare(fan, 0)).toBeCloseTo(0.3, 12);
    expect(coolingShare(fan, 131)).toBeCloseTo(0.65, 12);
    for (const speed of [0, 131, 262]) expect(coolingShare(make(undefined).heat, speed)).toBe(1);
  });

  it("does not change the rating, and at half speed the rated current is too much", () => {
    const settles = (motor_radps: number) =>
      settledWinding_degC(fan, { ...load(28), cooled: coolingShare(fan, motor_radps) }, 40);
    expect(settles(262)).toBeCloseTo(130, 9);
    expect(settles(131)).toBeGreaterThan(150);
    // Energy balance of the case: what is made in the motor leaves through what is left of the cooling.
    const winding_degC = settles(131);
    const made_W = (28 ** 2 / 7) * (1 + 0.00393 * (winding_degC - 20));
    const case_degC = winding_degC - made_W * fan.windingToCase_KpW;
    expect((0.65 * (case_degC - 40)) / fan.caseToAir_KpW).toBeCloseTo(made_W + 60, 9);
  });

  it("wants to know the rated speed", () => {
    const { notes } = make({ cooling: "fan" }, { ...losses, speed_radps: Number.NaN });
    expect(notes.problems.map((p) => p.path)).toEqual(["loco.motor.heat.cooling"]);
  });
});
