import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";

type BatteryDefinition = LocoDefinition["battery"];

const leadAcid = (charger: BatteryDefinition["charger"], over: Partial<BatteryDefinition> = {}): BatteryDefinition => ({
  ...LOCO.battery,
  ...(charger && { charger }),
  ...over,
});
const lithium = (charger: BatteryDefinition["charger"], over: Partial<BatteryDefinition> = {}): BatteryDefinition => ({
  chemistry: "lifepo4",
  each: { voltage_V: 24, capacity: { capacity_C: 100 * 3600 } },
  protection: { high_voltage_V: 29.6 },
  ...(charger && { charger }),
  ...over,
});
const warnings = (battery: BatteryDefinition) =>
  clubPlan(CIRCUIT, {}, { battery }).notes.warnings.filter(({ path }) => path.startsWith("loco.battery.charger"));
const problems = (battery: BatteryDefinition) => {
  try {
    clubPlan(CIRCUIT, {}, { battery });
  } catch (error) {
    return error instanceof InputError ? error.problems : [];
  }
  return [];
};

describe("a charger beside its battery", () => {
  test("of the usual volts and amps goes without a word, and none is none", () => {
    expect(warnings(leadAcid({ current_A: 10, voltage_V: 28.8 }))).toEqual([]);
    expect(warnings(lithium({ current_A: 20, voltage_V: 29.2 }))).toEqual([]);
    expect(clubPlan(CIRCUIT, {}, { battery: leadAcid(undefined) }).train.charger).toBeNull();
  });

  test("for half of the battery is refused, with what is wanted", () => {
    const [problem] = problems(leadAcid({ current_A: 10, voltage_V: 14.4 }));
    expect(problem).toMatchObject({ path: "loco.battery.charger.voltage" });
    expect(problem?.message).toContain("14.4 V");
    expect(problem?.message).toContain("usually 28.8 V");
  });

  test.each([
    ["too many volts for lead-acid", leadAcid({ current_A: 10, voltage_V: 31 }), "charger_volts_high"],
    ["too few volts", leadAcid({ current_A: 10, voltage_V: 26.4 }), "charger_volts_low"],
    ["too many volts for lithium", lithium({ current_A: 10, voltage_V: 29.5 }), "charger_volts_high"],
    ["too many amps for lead-acid", leadAcid({ current_A: 40, voltage_V: 28.8 }), "charger_current"],
    ["too many amps for lithium", lithium({ current_A: 60, voltage_V: 29.2 }), "charger_current"],
    [
      "above its management",
      lithium({ current_A: 10, voltage_V: 29.2 }, { protection: { high_voltage_V: 28.4 } }),
      "charger_above_protection",
    ],
  ])("%s is told", (_, battery, code) => {
    expect(warnings(battery).map((warning) => warning.code)).toEqual([code]);
  });
});
