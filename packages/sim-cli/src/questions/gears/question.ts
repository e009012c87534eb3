import { type GearsAnswer, usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { PLAN_OPTIONS, STEP_OPTIONS, SURE_OPTIONS, SVG_OPTION } from "../../work/options.js";
import { TEETH_OPTION } from "../../work/teeth.js";

interface GearsFlags extends AskedFlags {
  /** Sizes of sprockets to hand. */
  teeth?: readonly number[];
}

/** Sprockets from those to hand, tried in the plan's working. */
export const gears = asked<GearsFlags, { answer: GearsAnswer }>({
  name: "gears",
  about: "sprocket choices from the teeth to hand, ranked, with speed, pull, current, heat and chain checks",
  inFull:
    "sprockets from the teeth to hand (`--teeth 9,11,13,57,60`), simulated and ranked, with faults in words and the chains of the best",
  example: "rideon gears plan.yaml --teeth 9,11,12,13,38,44,57",
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SVG_OPTION, TEETH_OPTION, ...STEP_OPTIONS],
  files: ["answer.json"],
  doing: "trying sprockets",
  own: ({ teeth }) => ({ teeth }),
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: ({ answer: { rows } }) => ({ question: "gears", found: rows[0] ? { teeth: rows[0].teeth } : {} }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
