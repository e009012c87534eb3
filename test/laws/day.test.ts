import { describe, expect, test } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { dayOf } from "../../packages/sim-core/src/studies/day.js";
import { laps } from "../../packages/sim-core/src/studies/laps.js";
import { clubPlan, LOCO, PLAN } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** Invented: up and down, with a bend. */
const PROFILE = profile([
  [0, 0],
  [30, 0.3],
  [60, 0.6],
  [100, 0.6, 20],
  [130, 0.3],
  [240, 0],
]);
const LINE = { ...PROFILE, place: PROFILE.distance_m.map((at_m) => (at_m === 30 ? "halt" : "")) };
const { lever: _, ...held } = PLAN;
/** A day of some thirty laps. */
const BATTERY: LocoDefinition["battery"] = {
  ...LOCO.battery,
  each: {
    ...LOCO.battery.each,
    kinetic: { capacity_C: 30 * 3600, available_share: 0.4, exponent_rate_ps: 0.9 / 3600 },
  },
};

const DAYS: [name: string, plan: Partial<PlanDefinition>, loco: Partial<LocoDefinition>][] = [
  ["a circuit", {}, {}],
  ["a lever held", { lever: 0.6 }, {}],
  ["cold, and half a charge", { charge: 0.9, air_temperature_degC: 0 }, {}],
  [
    "stops with people getting on",
    { stops: [{ place: "halt", dwell_s: 40, passengers: 6 }] },
    { brakes: [{ rail_force_N: 400 }] },
  ],
  [
    "out and back",
    { track: { kind: "end-to-end", at_ends: "turn", rail: "dry" } },
    { brakes: [{ rail_force_N: 400 }] },
  ],
  ["the plan's hours end it", { duration_s: 2400 }, {}],
  ["a motor with a fan", {}, { motor: { ...LOCO.motor, heat: { mass_kg: 6, insulation: "B", cooling: "fan" } } }],
  [
    "a battery that gives back",
    { charge: 0.9 },
    {
      controller: { ...LOCO.controller, electric_brake: "regenerative" },
    },
  ],
];

// Every lap run is the reference: the day that leaps over most of them has its laps, its end and its heat.
describe("a day told from some of its laps", () => {
  test.each(DAYS)("%s", (_name, changed, loco) => {
    const speed = changed.lever === undefined ? { speed_mps: 1.7 } : {};
    const plan = clubPlan(LINE, { ...held, ...speed, ...changed }, { battery: BATTERY, ...loco });
    const day = dayOf(plan);
    const whole = laps(plan);
    const { reserve } = plan.train.battery;
    const over = whole.per_lap.findIndex(({ state_of_charge }) => state_of_charge < reserve);
    const told = over < 0 ? whole.per_lap : whole.per_lap.slice(0, over + 1);
    const sum = (of: (row: (typeof told)[number]) => number) => told.reduce((all, row) => all + of(row), 0);
    expect(day.leapt).toBeGreaterThan(day.laps / 2);
    expect(Math.abs(day.laps_to_reserve - whole.laps_to_reserve)).toBeLessThanOrEqual(1);
    if (day.laps !== told.length) return;
    const time_s = over < 0 ? whole.time_s : sum((row) => row.time_s);
    const charge_Ah = over < 0 ? whole.charge_used_Ah : sum((row) => row.charge_Ah);
    expect(Math.abs(day.time_s / time_s - 1)).toBeLessThan(2e-3);
    expect(Math.abs(day.charge_C / 3600 / charge_Ah - 1)).toBeLessThan(5e-3);
    const hottest_degC = Math.max(...told.map((row) => row.peak_winding_temperature_C));
    expect(Math.abs(day.winding_degC - hottest_degC)).toBeLessThan(1.5);
  });

  test("what ends the day before the reserve ends it at the same lap and place", () => {
    const trips = clubPlan(
      LINE,
      { ...held, speed_mps: 1.7 },
      { wiring: { ...LOCO.wiring, breaker: { rating_A: 6, curve: "C" } } },
    );
    const [day, whole] = [dayOf(trips), laps(trips)];
    expect(whole.ended_by).toBe("breaker");
    expect(day).toMatchObject({ ended_by: "breaker", laps: whole.laps_to_end });
    expect(day.ended_at_m).toBeCloseTo(whole.ended_at_m, 3);
  });

  test("a battery without end: the day is over after 24 hours", () => {
    const vast = {
      ...LOCO.battery,
      each: { ...LOCO.battery.each, kinetic: { capacity_C: 3.6e7, available_share: 0.4, exponent_rate_ps: 2.5e-4 } },
    };
    const day = dayOf(clubPlan(LINE, { ...held, speed_mps: 1.7 }, { battery: vast }));
    expect(day.ended_by).toBe("one_day");
    expect(Math.abs(day.time_s - 86_400)).toBeLessThan(2 * (day.time_s / day.laps));
    expect(day.laps - day.leapt).toBeLessThan(12);
  });

  test("a reserve that the volts do not let it reach", () => {
    const weak = clubPlan(LINE, { ...held, speed_mps: 1.7 }, { battery: { ...BATTERY, use_down_to: 0.01 } });
    const [day, whole] = [dayOf(weak), laps(weak)];
    expect(day.ended_by).toBe(whole.ended_by);
    expect(Math.abs(day.laps - whole.laps_to_end)).toBeLessThanOrEqual(1);
  });
});
