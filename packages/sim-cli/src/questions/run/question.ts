import { usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { ALL_OPTION, EVERY_OPTION, PLAN_OPTIONS, STEP_OPTIONS, SURE_OPTIONS, SVG_OPTION } from "../../work/options.js";
import type { RunWorked } from "./work.js";

/** Close together enough to be drawn. */
const TRACE_s = 0.5;

/** One working of the plan. */
export const run = asked<AskedFlags, RunWorked>({
  name: "run",
  about: "one working: speed, current and charge along the way",
  inFull:
    "one working: speed, current and charge along the way, how near trouble was (`--all`: where the energy went, what breaker and cables protect, and what happened when)",
  example: 'rideon run plan.yaml --passengers 6 --speed "5 mph" --rail wet',
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, ALL_OPTION, SVG_OPTION, EVERY_OPTION, ...STEP_OPTIONS],
  files: ["trace.csv", "events.csv", "answer.json"],
  every_s: ({ every }) => every ?? TRACE_s,
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: () => ({ question: "run", found: {} }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
