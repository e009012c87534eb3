import { readPlan } from "@rideon/sim-cli/read";
import { brakes, brakesAt, createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { SITE } from "../cli/command.js";

// A law: one place asked alone has the rows that it has among all.
const { plan, loco, track, tables } = readPlan(`${SITE}plan.yaml`);
const braked = { ...loco, brakes: [{ rail_force_N: 200 }] };

describe.each(["circuit", "end-to-end"] as const)("stops from one place of a line that is a %s", (kind) => {
  const ready = createPlan({ ...plan, track: { ...plan.track, kind } }, braked, track, tables);
  const all = brakes(ready).rows;
  test.each([0, 128, 226, 300])("at %i m", (chainage_m) => {
    const rows = brakesAt(ready, chainage_m);
    expect(rows.length).toBe((kind === "circuit" ? 1 : 2) * 4 * 2);
    for (const row of rows) {
      expect(all).toContainEqual(row);
      const near = all
        .filter(({ direction }) => direction === row.direction)
        .map((each) => Math.abs(each.chainage_m - chainage_m));
      expect(Math.abs(row.chainage_m - chainage_m)).toBe(Math.min(...near));
    }
  });
});
