import { describe, expect, test } from "vitest";
import { parts } from "../../packages/sim-core/src/index.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { shafts } from "../../packages/sim-core/src/studies/shafts/shafts.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const { lever: _, ...held } = PLAN;
const filesOf = (loco: Partial<LocoDefinition> = {}, plan: Partial<PlanDefinition> = {}): PlanFiles => ({
  plan: { ...held, speed_mps: 1.5, ...plan },
  loco: { ...LOCO, ...loco },
  track: CIRCUIT,
});
const FILES = filesOf();
const { lines } = parts(FILES);
const line = (part: string, place: string | null = null, of = lines) =>
  of.find((each) => each.part === part && (place === null || each.place === place))!;

describe("the list", () => {
  test("has every part of the drive once, and what the files have is had", () => {
    const names = lines.map(({ part, place }) => `${part} ${place ?? ""}`.trim());
    for (const name of [
      "motor",
      "controller",
      "chain 1",
      "chain 2",
      "shaft motor",
      "shaft layshaft",
      "shaft axle",
      "battery",
    ])
      expect(names).toContain(name);
    expect(lines.filter(({ part }) => part === "sprocket").map(({ figures }) => figures.teeth)).toEqual([
      11, 45, 12, 30,
    ]);
    expect(line("battery").count).toBe(2);
    expect(line("breaker").have).toBe(true);
    expect(line("isolator").have).toBe(false);
    expect(line("brake").have).toBe(false);
  });
  test("counts what is needed and what will not do", () => {
    const answer = parts(FILES);
    expect(answer.needed).toBe(answer.lines.filter(({ have }) => !have).length);
    expect(answer.wanting).toBe(answer.lines.filter(({ enough }) => enough === false).length);
  });
  test("tells shafts as shafts are judged, and the next bar that is sold", () => {
    const { rows } = shafts(createPlan(FILES.plan, FILES.loco, FILES.track));
    for (const row of rows) {
      const { figures, wanted } = line("shaft", row.shaft);
      expect(wanted.diameter_m).toBe(row.least_diameter_m);
      expect(figures.diameter_m).toBeGreaterThanOrEqual(row.least_diameter_m);
      expect(figures.diameter_m).toBeLessThan(1.3 * row.least_diameter_m + 0.001);
    }
  });
  test("a part that is given is had, and judged by what is asked of it", () => {
    const own = filesOf({
      gears: [
        { ...LOCO.gears[0]!, shaft: { diameter_m: 0.03 } },
        { ...LOCO.gears[1]!, chain: "08B", centres_m: 0.3 },
      ],
      wiring: { ...LOCO.wiring!, isolator: { rating_A: 1, breaks_A: 1, voltage_V: 48 } },
    });
    const given = parts(own).lines;
    expect(line("shaft", "motor", given)).toMatchObject({ have: true, enough: true });
    const isolator = given.find(({ part }) => part === "isolator")!;
    expect(isolator).toMatchObject({ have: true, enough: false });
    expect(isolator.margin).toBeNull();
    expect(line("chain", "2", given).figures.links! % 2).toBe(0);
    expect(line("chain", "2", given).figures.centres_m).toBeGreaterThan(0.28);
  });
  test("links with no centres given are whole and even, at the least centres that will do", () => {
    for (const { figures } of lines.filter(({ part }) => part === "chain")) {
      expect(figures.links! % 2).toBe(0);
      expect(figures.least_centres_m).toBeGreaterThan(0.05);
      // Two links more let the centres be a pitch farther apart: 12.7 mm of 08B.
      expect(figures.each_two_links_m).toBe(0.0127);
    }
  });
  test("the difference of two lists is what one has otherwise", () => {
    expect(parts(FILES, FILES).changes).toEqual([]);
    const { changes } = parts(FILES, filesOf({ gears: [{ ...LOCO.gears[0]!, teeth: [11, 40] }, LOCO.gears[1]!] }));
    const teeth = changes!.flatMap(({ before, after }) =>
      after?.part === "sprocket" && before?.figures.teeth !== after.figures.teeth
        ? [[before?.figures.teeth, after.figures.teeth]]
        : [],
    );
    expect(teeth).toEqual([[45, 40]]);
  });
  test("a train that does not get round has no motor that will do", () => {
    const stalled = parts(filesOf({}, { passengers: 6, cars: [{ ...held.cars![0]!, mass_kg: 900 }] }));
    expect(stalled.outcome).not.toBe("completed");
    expect(stalled.ended_by).not.toBeNull();
    expect(line("motor", null, stalled.lines)).toMatchObject({ margin: null, enough: null });
  });
});
