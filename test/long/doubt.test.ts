import { join } from "node:path";
import { readPlan } from "@rideon/sim-cli/read";
import { bands, type Doubted, DRAWS, drawnHeadlines, type Headline, SEED } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { SITE } from "../cli/command.js";

/** So many truths, each a plain draw of the whole simulation. */
const TRUTHS = { count: 500, seed: 11, plain: true };
/** The ends of 500 plain draws are themselves off by a thirtieth of the width, one standard deviation; nineteen in twenty. */
const ENDS = 0.1 + 1.65 / 30;

/** Places where the bare answers have their longest stops. */
const FOUND = { hardest_m: [230, 270], loaded: 8, teeth: [[12, 76] as const, [12, 28] as const] };

const CASES: [question: Doubted, plan: string][] = [
  ["run", "plan.yaml"],
  ["laps", "plan.yaml"],
  ["climb", "plan.yaml"],
  ["brakes", "saturday.yaml"],
  ["gears", "plan.yaml"],
  ["size", "saturday.yaml"],
];

/** Laps and passengers are whole: those of a truth are cut as the band's are. */
const told = (name: string, value: number) => (/^(?:laps|passengers)/.test(name) ? Math.floor(value + 1e-9) : value);

describe.each(CASES)("bands of few draws against 500 plain ones: %s of %s", (question, plan) => {
  const { plan: definition, loco, track, tables, doubts } = readPlan(join(SITE, plan));
  const files = { plan: definition, loco, track, tables, doubts };
  const truths = drawnHeadlines(files, question, FOUND, TRUTHS);
  const few = bands(files, question, FOUND, { count: DRAWS[question], seed: SEED, plain: false });
  const valuesOf = (name: string) =>
    truths.flatMap((each: Headline | null) => {
      const value = each?.figures[name];
      return value === null || value === undefined ? [] : [told(name, value)];
    });
  const names = Object.keys(few.bands);

  test("they hold the truth in nine of ten", () => {
    const held = names.map((name) => {
      const { p05, p95 } = few.bands[name]!;
      const values = valuesOf(name);
      return values.filter((value) => value >= p05 && value <= p95).length / values.length;
    });
    // Whole figures lie on the ends themselves, and count as held.
    const whole = names.some((name) => /^(?:laps|passengers)/.test(name)) ? 0.03 : 0;
    const mean = held.reduce((sum, each) => sum + each, 0) / held.length;
    expect(mean, held.join()).toBeGreaterThan(0.87);
    expect(mean, held.join()).toBeLessThan(0.935 + whole);
    // One band by itself is as far off as 500 truths and its own draws may have it.
    for (const each of held) expect(Math.abs(each - 0.9), held.join()).toBeLessThan(0.065 + whole);
  });

  test("their ends are those of plain draws to a tenth of the width", () => {
    const plain = bands(files, question, FOUND, TRUTHS, truths);
    for (const name of names) {
      const [a, b] = [few.bands[name]!, plain.bands[name]!];
      const width = b.p95 - b.p05;
      expect(Math.abs(a.p05 - b.p05), `${name} ${a.p05} ${b.p05}`).toBeLessThan(ENDS * width + 1e-12);
      expect(Math.abs(a.p95 - b.p95), `${name} ${a.p95} ${b.p95}`).toBeLessThan(ENDS * width + 1e-12);
    }
  });
});
