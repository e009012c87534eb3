import { createPlan, type LimitsAnswer, limits } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { judgement } from "../../packages/sim-cli/src/questions/limits/judgement.js";
import { aboardRows, countedInWords } from "../../packages/sim-cli/src/questions/limits/tables.js";
import { answersOf } from "../../packages/sim-cli/src/questions/report/answers.js";
import type { Told } from "../../packages/sim-cli/src/questions/report/told.js";
import { dayInWords } from "../../packages/sim-cli/src/words/day.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const plan = createPlan(PLAN, LOCO, CIRCUIT);
const eyes = eyesFor("metric", undefined, plan.track);
const WHOLE = { share: 1, steepest: true };
const BRAKED = { ...LOCO, brakes: [{ rail_force_N: 400 }] };
const asked = (agrees: boolean): LimitsAnswer =>
  limits({
    plan: { ...PLAN, laps: 3 },
    loco: BRAKED,
    track: CIRCUIT,
    logged: { agrees, covers: WHOLE, draws: 1.3, rolls: 1, stiffens: 1 },
  });

describe("a logged run that does not agree", () => {
  const off = asked(false);

  test("is said where a charge is planned for, on the page as on the card", () => {
    const { said, short } = dayInWords(off, plan, eyes);
    expect(said).toContain("The logged run does not agree with them");
    expect(short).toMatch(/^NOT KNOWN/);
    expect(dayInWords(asked(true), plan, eyes).short).toMatch(/^plan for \d+ laps$/);
  });
  test("lets nobody ride, and says what would", () => {
    const told = judgement(off, eyes);
    expect(told.said).toMatch(/^By these sums it may carry no passengers here: /);
    expect(told.first.join(" ")).toContain("Find out what makes the loco differ from these sums");
  });
});

describe("a log that drew more", () => {
  const climb = {
    rows: [{ passengers: plan.passengers, restarts_here: true }],
    other_rail: { rows: [{ passengers: plan.passengers, restarts_here: true }], rail: "wet" },
    ruling_gradient_compensated_percent: 1,
    rail: "dry",
  };
  const run = { outcome: "completed", events: [] };
  const by = (stiffens: number | null) =>
    limits({
      plan: PLAN,
      loco: BRAKED,
      track: CIRCUIT,
      logged: { agrees: true, covers: WHOLE, draws: 1.3, rolls: 1, stiffens },
    });
  const again = (may: LimitsAnswer) =>
    answersOf({ plan, eyes, climb, run, limits: may } as unknown as Told).find(({ id }) => id === "gradient")!;

  test("says that bearings are counted as stiff as it leaves them", () => {
    expect(again(by(2.5))).toMatchObject({ good: true, word: "Yes" });
    expect(again(by(2.5)).text).toContain("as stiff as the logged run leaves them");
    expect(again(by(1)).text).not.toContain("logged run");
    expect(countedInWords(by(2.5), eyes)).toContain("when pulling, as stiff as the logged run leaves them,");
  });
  test("has no tick where it does not tell how stiffly the train rolls", () => {
    expect(again(by(null))).toMatchObject({ good: false, word: "Not told: yes by the sums alone" });
    const restart = aboardRows(by(null), eyes).filter(([what]) => what?.startsWith("starts again"));
    expect(restart.length).toBeGreaterThan(0);
    for (const [, , where] of restart) expect(where).toContain("not told by the log");
    expect(aboardRows(by(1), eyes).flat().join()).not.toContain("not told by the log");
  });
});

describe("a log that drew less", () => {
  const files = { plan: { ...PLAN, laps: 3 }, loco: BRAKED, track: CIRCUIT };
  const stopping = (rolls: number | null) => {
    const may = limits(
      { ...files, logged: { agrees: true, covers: WHOLE, draws: 0.75, rolls, stiffens: 1 } },
      { sight_m: 60 },
    );
    // What is told of stops comes from the limits alone.
    return answersOf({ ...SHOWN, limits: may } as unknown as Told).find(({ id }) => id === "brakes");
  };
  const SHOWN = {
    plan,
    eyes,
    climb: { rows: [], other_rail: { rows: [], rail: "wet" }, ruling_gradient_compensated_percent: 1, rail: "dry" },
    run: { outcome: "completed", events: [] },
  };

  test("makes its stop longer, and says that it is counted so", () => {
    const [freer, own] = [stopping(0.7), stopping(1)];
    expect(freer?.text).toContain("The logged run drew less than the sums");
    expect(own?.text).not.toContain("drew less");
    const metres = (word = "") => Number(/within ([\d.]+) m/.exec(word)?.[1]);
    expect(metres(freer?.word)).toBeGreaterThan(metres(own?.word));
  });
  test("has no tick where it does not tell how freely the train rolls", () => {
    expect(stopping(1)?.good).toBe(true);
    expect(stopping(null)).toMatchObject({ good: false });
    expect(stopping(null)?.word).toMatch(/^Not told: by the sums alone within/);
  });
});
