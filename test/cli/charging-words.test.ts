import { type ChargingCaution, type ChargingInShort, createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { chargingInWords } from "../../packages/sim-cli/src/words/charging.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const { lever: _, ...held } = PLAN;
const { track } = createPlan({ ...held, speed_mps: 1 }, LOCO, CIRCUIT);
const [metric, imperial] = [eyesFor("metric", "metric", track), eyesFor("metric", "imperial", track)];

const CHARGE: ChargingInShort = {
  charger_current_A: 10,
  charger_voltage_V: 28.8,
  from: 0.5,
  constant_current_h: 3.45,
  state_of_charge_at_taper: 0.8,
  to_90_percent_h: 5.04,
  to_full_h: 10.34,
  ended_by: "charge",
  state_of_charge_end: 0.99,
  current_at_end_A: 0.5,
  taken_Ah: 49,
  given_Ah: 56.35,
  charge_factor: 1.15,
  energy_at_most_Wh: 1623,
  gas: { hydrogen_l: 40, air_m3ph: 1.2, air_sealed_m3ph: 0.6, opening_cm2: 33.6, room_m3: 3 },
  cautions: [{ code: "gas", value: null, limit: null, unit: null }],
};
const words = (over: Partial<ChargingInShort> = {}, eyes = metric) => chargingInWords({ ...CHARGE, ...over }, eyes);

describe("a charge in words", () => {
  test("tells hours rounded up, what goes in, and the gas", () => {
    expect(words()).toBe(
      "A charger of 10 A at 28.8 V has this battery full in about 10 h 30 min; it gives 56.4 Ah for the 49 Ah that are missing. It is at 90 % after about 5 h 30 min, and the last tenth goes in slowly. Lead-acid gives off hydrogen, which explodes: open the battery box, let 1.2 m³ of air an hour pass it, and keep sparks and flames away.",
    );
  });

  test("in imperial units too", () => {
    expect(words({}, imperial)).toContain("43 ft³ (1.2 m³) of air");
  });

  test("of one that never fills it, or has nothing to do, says so", () => {
    expect(words({ to_full_h: null, ended_by: "management", state_of_charge_end: 0.62 })).toContain(
      "the battery's own protection disconnects at 62 %",
    );
    expect(words({ to_full_h: null, ended_by: "never" })).toContain("does not fill this battery in two weeks");
    expect(words({ taken_Ah: 0, to_full_h: 0 })).toContain("the battery is full");
  });

  test("the most that a battery takes is not rounded up", () => {
    const caution: ChargingCaution = { code: "current_above_usual", value: 60, limit: 14.96, unit: "A" };
    expect(words({ cautions: [caution], gas: null })).toContain("14 A at most");
  });

  const CAUTIONS: ChargingCaution[] = [
    { code: "lithium_below_freezing", value: -3, limit: 0, unit: "degC" },
    { code: "lithium_cold_current", value: 20, limit: 10, unit: "A" },
    { code: "lithium_hot", value: 50, limit: 45, unit: "degC" },
    { code: "lead_acid_cold", value: 4, limit: 10, unit: "degC" },
    { code: "current_above_usual", value: 60, limit: 50, unit: "A" },
    { code: "management_disconnects", value: 29.2, limit: 28, unit: "V" },
  ];
  test.each(CAUTIONS.map((caution) => [caution.code, caution] as const))("%s is told", (_, caution) => {
    for (const eyes of [metric, imperial]) {
      const text = words({ cautions: [caution], gas: null }, eyes);
      expect(text.length).toBeGreaterThan(words({ cautions: [], gas: null }, eyes).length + 20);
      expect(text).not.toMatch(/undefined|NaN|_|null/);
      expect(text).toMatch(/\.$/);
    }
  });
});
