import { type LapsAnswer, usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { EVERY_OPTION, PLAN_OPTIONS, STEP_OPTIONS, SURE_OPTIONS, SVG_OPTION } from "../../work/options.js";

/** Of a day whose trace is kept. */
const TRACE_s = 0.5;
/** Of one that only shows how far it is. */
const NO_TRACE_s = 60;

/** Laps until something ends the day. */
export const laps = asked<AskedFlags, { answer: LapsAnswer }>({
  name: "laps",
  about: "how many laps a charge lasts, to the reserve and to the end, and what ends it",
  inFull:
    "how many laps a charge lasts, to the reserve and to the end, and what ends it; with `battery.charger` in the loco file, how long it charges after that",
  example: "rideon laps plan.yaml --passengers 6 --out results",
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SVG_OPTION, EVERY_OPTION, ...STEP_OPTIONS],
  files: ["trace.csv", "answer.json"],
  every_s: ({ out, every = TRACE_s }) => (out === undefined ? NO_TRACE_s : every),
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: () => ({ question: "laps", found: {} }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
