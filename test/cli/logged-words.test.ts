import { createPlan, type LimitsAnswer, limits } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { judgement } from "../../packages/sim-cli/src/questions/limits/judgement.js";
import { dayInWords } from "../../packages/sim-cli/src/words/day.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const plan = createPlan(PLAN, LOCO, CIRCUIT);
const eyes = eyesFor("metric", undefined, plan.track);
const BRAKED = { ...LOCO, brakes: [{ rail_force_N: 400 }] };
const asked = (agrees: boolean): LimitsAnswer =>
  limits({ plan: { ...PLAN, laps: 3 }, loco: BRAKED, track: CIRCUIT, logged: { agrees, draws: 1.3 } });

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
