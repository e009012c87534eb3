import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { charging } from "../../packages/sim-core/src/studies/charging/charging.js";
import { leastCharger } from "../../packages/sim-core/src/studies/charging/least.js";
import { laps } from "../../packages/sim-core/src/studies/laps.js";
import { CIRCUIT, clubPlan } from "../support/club.js";

type BatteryDefinition = LocoDefinition["battery"];
const AH_C = 3600;

const battery = (
  chemistry: "lead-acid" | "lifepo4",
  capacity_Ah: number,
  over: Partial<BatteryDefinition> = {},
): BatteryDefinition => ({
  chemistry,
  in_series: 2,
  each: { voltage_V: 12, capacity: { capacity_C: capacity_Ah * AH_C }, resistance_ohm: 0.006 },
  ...(chemistry === "lifepo4" && { protection: { current_A: 100 } }),
  ...over,
});
const withBattery = (definition: BatteryDefinition, air_temperature_degC = 25) =>
  clubPlan(CIRCUIT, { air_temperature_degC, speed_mps: 1.5 }, { battery: definition });
const leadAcid = (current_A = 10) =>
  withBattery(battery("lead-acid", 100, { charger: { current_A, voltage_V: 28.8 } }));
const lithium = (current_A = 20, voltage_V = 29.2, air_degC = 25) =>
  withBattery(battery("lifepo4", 100, { charger: { current_A, voltage_V } }), air_degC);
const codes = (plan: ReturnType<typeof leadAcid>) => charging(plan, { from: 0.5 }).cautions.map(({ code }) => code);

describe("a charge", () => {
  test("its parts add up, and its curve goes from where it starts to where it ends", () => {
    const answer = charging(leadAcid(), { from: 0.3 });
    const { moments } = answer;
    expect(answer.given_Ah).toBeCloseTo(answer.charge_factor * answer.taken_Ah, 6);
    expect(answer.taken_Ah).toBeCloseTo(69, 6);
    expect(moments[0]).toMatchObject({ time_h: 0, state_of_charge: 0.3, current_A: 10 });
    expect(moments.at(-1)).toMatchObject({ time_h: answer.to_full_h, state_of_charge: answer.state_of_charge_end });
    for (const [i, moment] of moments.entries()) {
      if (i === 0) continue;
      expect(moment.state_of_charge).toBeGreaterThanOrEqual(moments[i - 1]!.state_of_charge);
      expect(moment.current_A).toBeLessThanOrEqual(moments[i - 1]!.current_A);
    }
    expect(answer.to_90_percent_h).toBeGreaterThan(answer.constant_current_h);
    expect(answer.to_90_percent_h).toBeLessThan(answer.to_full_h!);
  });

  test("from full takes no time, and from above 90 % is there already", () => {
    expect(charging(leadAcid(), { from: 1 })).toMatchObject({ to_full_h: 0, to_90_percent_h: 0, given_Ah: 0 });
    expect(charging(leadAcid(), { from: 0.93 }).to_90_percent_h).toBe(0);
  });

  test("twice the current does not halve the hours of lead-acid, and does of lithium", () => {
    const hours = (plan: ReturnType<typeof leadAcid>) => charging(plan, { from: 0.5 }).to_full_h!;
    expect(hours(leadAcid(20)) / hours(leadAcid(10))).toBeGreaterThan(0.75);
    expect(hours(lithium(20)) / hours(lithium(10))).toBeCloseTo(0.5, 1);
  });

  test("two strings at twice the current take as long as one", () => {
    const one = charging(leadAcid(), { from: 0.2 });
    const two = charging(
      withBattery(battery("lead-acid", 100, { in_parallel: 2, charger: { current_A: 20, voltage_V: 28.8 } })),
      { from: 0.2 },
    );
    expect(two.to_full_h).toBeCloseTo(one.to_full_h!, 9);
    expect(two.given_Ah).toBeCloseTo(2 * one.given_Ah, 6);
    expect(two.gas!.air_m3ph).toBeCloseTo(2 * one.gas!.air_m3ph, 9);
    expect(two.gas!.hydrogen_l).toBeCloseTo(2 * one.gas!.hydrogen_l, 6);
  });

  test("lithium ends by its current, or is cut off by a management that bears less than the charger's volts", () => {
    expect(charging(lithium(20, 28.4), { from: 0.2 })).toMatchObject({ ended_by: "current", gas: null });
    const cut = withBattery(
      battery("lifepo4", 100, { charger: { current_A: 20, voltage_V: 29.2 }, protection: { high_voltage_V: 28 } }),
    );
    const answer = charging(cut, { from: 0.2 });
    expect(answer).toMatchObject({ ended_by: "management", to_full_h: null });
    expect(answer.cautions.map(({ code }) => code)).toContain("management_disconnects");
  });
});

describe("cautions", () => {
  test("gas of lead-acid always, the cold of both, and too much current", () => {
    expect(codes(leadAcid())).toEqual(["gas"]);
    expect(codes(leadAcid(40))).toEqual(["gas", "current_above_usual"]);
    expect(codes(withBattery(battery("lead-acid", 100, { charger: { current_A: 10, voltage_V: 28.8 } }), 4))).toEqual([
      "gas",
      "lead_acid_cold",
    ]);
    expect(codes(lithium(20))).toEqual([]);
    expect(codes(lithium(60))).toEqual(["current_above_usual"]);
  });

  // Alpha APL48-50LFP, table 4.3: below 0 °C none, to 10 °C 0.1 C.
  test.each([
    [-1, 5, ["lithium_below_freezing"]],
    [0, 5, ["lithium_below_freezing"]],
    [5, 10, []],
    [5, 11, ["lithium_cold_current"]],
    [9.9, 11, ["lithium_cold_current"]],
    [10, 50, []],
    [50, 10, ["lithium_hot"]],
  ])("lithium at %d °C and %d A", (air_degC, current_A, expected) => {
    expect(codes(lithium(current_A, 29.2, air_degC))).toEqual(expected);
  });
});

describe("the least charger", () => {
  test("has the battery full just in time, and a little less does not", () => {
    for (const plan of [leadAcid(), lithium()]) {
      const { current_A, charging: told } = leastCharger(plan, { from: 0.4, by_h: 12 });
      expect(told!.to_full_h).toBeLessThanOrEqual(12);
      expect(told!.to_full_h).toBeCloseTo(12, 2);
      const less = { current_A: 0.98 * current_A!, voltage_V: told!.charger_voltage_V };
      expect(charging(plan, { from: 0.4, charger: less }).to_full_h).toBeGreaterThan(12);
    }
  });

  test("takes the volts usual for the chemistry where no charger is given", () => {
    expect(leastCharger(withBattery(battery("lead-acid", 100)), { from: 0.5, by_h: 12 }).charger_voltage_V).toBeCloseTo(
      28.8,
      9,
    );
    expect(leastCharger(withBattery(battery("lifepo4", 100)), { from: 0.5, by_h: 12 }).charger_voltage_V).toBeCloseTo(
      29.2,
      9,
    );
  });

  test("is none where lead-acid takes longer than that whatever the charger, and in the frost for lithium", () => {
    const hurried = leastCharger(leadAcid(), { from: 0.2, by_h: 6 });
    expect(hurried.current_A).toBeNull();
    expect(hurried.at_most_current_h).toBeGreaterThan(6);
    expect(hurried.charging!.charger_current_A).toBe(hurried.most_current_A);
    const frost = leastCharger(lithium(20, 29.2, -5), { from: 0.5, by_h: 12 });
    expect(frost).toMatchObject({ current_A: null, most_current_A: 0, at_most_current_h: null, charging: null });
  });
});

describe("what cannot be used", () => {
  const problems = (ask: () => unknown) => {
    try {
      ask();
    } catch (error) {
      return error instanceof InputError ? error.problems.map(({ path }) => path) : [String(error)];
    }
    return [];
  };
  test("is told with its place", () => {
    const none = withBattery(battery("lead-acid", 100));
    expect(problems(() => charging(none, { from: 0.5 }))).toEqual(["loco.battery.charger"]);
    expect(problems(() => charging(leadAcid(), { from: 1.2 }))).toEqual(["options.charge"]);
    expect(problems(() => charging(leadAcid(), { from: Number.NaN }))).toEqual(["options.charge"]);
    expect(problems(() => leastCharger(leadAcid(), { from: -1, by_h: 0 }))).toEqual(["options.charge", "options.by_h"]);
  });
});

test("laps tells the charge from where the day ended, where a charger is given", () => {
  const given = { charger: { current_A: 10, voltage_V: 28.8 } };
  const day = laps(withBattery(battery("lead-acid", 20, given)));
  expect(day.charging).toMatchObject({ from: day.state_of_charge_end, charger_current_A: 10 });
  expect(laps(withBattery(battery("lead-acid", 20))).charging).toBeNull();
});
