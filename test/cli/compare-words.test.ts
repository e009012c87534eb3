import type { CompareAnswer } from "@rideon/sim-core";
import { createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { quantityRows, SHORT } from "../../packages/sim-cli/src/questions/compare/judged.js";
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
