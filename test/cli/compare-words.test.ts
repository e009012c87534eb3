import type { CompareAnswer } from "@rideon/sim-core";
import { createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { explainedInWords } from "../../packages/sim-cli/src/questions/compare/explained.js";
import { flattered, quantityRows, SHORT, strayedInWords } from "../../packages/sim-cli/src/questions/compare/judged.js";
import { differenceTold, moreTold } from "../../packages/sim-cli/src/questions/compare/told.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { table } from "../../packages/sim-cli/src/words/table.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const eyes = eyesFor("metric", undefined, createPlan(PLAN, LOCO, CIRCUIT).track);
const imperial = eyesFor("imperial", undefined, createPlan(PLAN, LOCO, CIRCUIT).track);
const quantity = (
  name: CompareAnswer["quantities"][number]["name"],
  logged: number,
  predicted: number,
  doubt: number,
) =>
  ({
    name,
    logged,
    predicted,
    bias: logged - predicted,
    doubt,
    within_doubt: false,
    mean_within_doubt: true,
  }) as CompareAnswer["quantities"][number];
const ALL = {
  quantities: [
    quantity("speed", 3.456, 3.412, 0.123),
    quantity("motor_current", 114.2, 101.9, 13.5),
    quantity("battery_current", 113.2, 100.9, 13.5),
    quantity("battery_voltage", 25.137, 25.174, 0.243),
    quantity("temperature", 121.1, 120.65, 17.3),
    quantity("duty", 0.875, 0.861, 0.075),
  ],
} as unknown as CompareAnswer;

describe("a logged run beside the sums, in words", () => {
  test.each([eyes, imperial])("keeps to a table at 80 columns, whatever differs", (own) => {
    const head = ["", "logged", "sums", "difference", "left open", ""];
    const lines = table(quantityRows(ALL, own, SHORT), { width: 78, head, right: [1, 2] });
    expect(lines).toHaveLength(7);
    for (const line of lines.slice(1)) expect(line).toMatch(/ partly$/);
  });
  test("has no more figures than a difference is worth", () => {
    expect(moreTold("speed", 1.6e-6, imperial)).toBe("next to nothing more");
    expect(moreTold("battery_current", 0.00019, eyes)).toBe("next to nothing more");
    expect(moreTold("battery_current", 1.444, eyes)).toBe("1.4 A more");
    expect(differenceTold("battery_voltage", 0.00841, eyes)).toBe("0.008 V");
    expect(differenceTold("duty", 0.0123, eyes)).toBe("1.2 points");
    expect(differenceTold("temperature", 0.45, eyes)).toMatch(/^0\.[45] °C$/);
  });
});

test("rolling that the log leaves freer is said first, with what it does to stops", () => {
  const told = (rolls: number | null, agrees = true) => flattered({ ...ALL, agrees, rolls }, eyes).join(" ");
  expect(told(0.407)).toContain("as little as 40 % of the resistance that the sums have: count on longer stops");
  expect(told(1) + told(null) + told(0, false)).not.toContain("resistance");
});

test("and rolling that it leaves stiffer, with what that does to starting again", () => {
  const told = (stiffens: number | null, agrees = true) =>
    flattered({ ...ALL, agrees, rolls: 1, stiffens }, eyes).join(" ");
  expect(told(1.802)).toContain(
    "as much as 181 % of the resistance that the sums have: count on starting again with fewer",
  );
  expect(told(1) + told(null) + told(2, false)).not.toContain("resistance");
});

describe("a log that is wrong in itself", () => {
  const explained = (own: Partial<CompareAnswer>) =>
    explainedInWords(
      {
        ...ALL,
        agrees: false,
        explained_by: [{ path: "plan.passenger_mass", value: 75, would_be: 100, share: 0.9, likely: false }],
        speed_unit: null,
        better_scale: null,
        meter: null,
        ...own,
      } as unknown as CompareAnswer,
      eyes,
    ).join(" ");

  test("is told so, and no figure of the files beside it", () => {
    expect(explained({})).toContain("The mass of a passenger");
    const meter = explained({ meter: { name: "battery_current", reads: 1.6, flowed: false } });
    expect(meter).toContain("a shunt or a clamp at the battery reads too much");
    expect(explained({ better_scale: 0.943 })).toContain("A wheel's diameter in the logger that is too large does so");
    expect(explained({ speed_unit: 1 / 3.6 })).toContain("that looks like km/h read as m/s");
    for (const each of [meter, explained({ better_scale: 0.943 }), explained({ speed_unit: 3.6 })])
      expect(each).not.toContain("passenger");
  });
  test("or may be, beside the figures", () => {
    const both = explained({ meter: { name: "battery_current", reads: 1.2, flowed: null } });
    expect(both).toContain("The mass of a passenger");
    expect(both).toContain("that reads 1.2 times what flows would explain it as well");
  });
  test("says nothing of how the loco pulls where the speed is in another unit", () => {
    const strayed = { for_m: 100, at_m: 0, logged_mps: 6, predicted_mps: 2 };
    expect(strayedInWords({ ...ALL, strayed, speed_unit: null } as CompareAnswer, eyes)).toHaveLength(1);
    expect(strayedInWords({ ...ALL, strayed, speed_unit: 1 / 3.6 } as CompareAnswer, eyes)).toEqual([]);
  });
  test("tells a wind from behind as that", () => {
    const wind = { path: "plan.track.wind", value: 0, would_be: -4, share: 0.9, likely: true };
    expect(explained({ explained_by: [wind] })).toMatch(/from behind would take away/);
  });
});
