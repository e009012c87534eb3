import { createPlan } from "@rideon/sim-core";
import { expect, test } from "vitest";
import { laneOf } from "../../packages/sim-cli/src/questions/brakes/lanes.svg.js";
import { WIDE } from "../../packages/sim-cli/src/svg/draw.js";
import type { Seen } from "../../packages/sim-cli/src/svg/parts.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const seen = { eyes: eyesFor("metric", undefined, createPlan(PLAN, LOCO, CIRCUIT).track) } as Seen;
const stretch = (from_m: number, to_m: number, rollsBack: boolean) => ({
  from_m,
  to_m,
  distance_m: 144,
  rollsBack,
  gathers: false,
  top_speed_mps: 2,
});
const said = (stretches: readonly ReturnType<typeof stretch>[]) =>
  [
    ...laneOf(seen, stretches, { set: "none", name: "no brake" }, (m) => 50 + 2 * m, 0, WIDE).matchAll(
      />([^<>]+)<\/text/g,
    ),
  ]
    .map(([, text]) => text)
    .join(" ");

test("what is written above the panels reads as of one set of brakes, whichever comes first", () => {
  expect(said([stretch(10, 40, true), stretch(200, 260, false)])).toBe("no brake: rolls back; 144 m (472 ft).");
  expect(said([stretch(10, 40, false), stretch(200, 260, true)])).toBe("no brake: 144 m (472 ft); rolls back.");
  expect(said([stretch(200, 260, true)])).toBe("no brake: rolls back.");
});
