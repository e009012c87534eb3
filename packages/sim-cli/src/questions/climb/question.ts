import { usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { PLAN_OPTIONS, SURE_OPTIONS, SVG_OPTION } from "../../work/options.js";
import type { ClimbTold } from "./work.js";

/** With how many aboard the train starts again on the worst place here. */
export const climb = asked<AskedFlags, { answer: ClimbTold }>({
  name: "climb",
  about: "the load table: with how many aboard it starts again on the steepest bit, and what limits it",
  inFull:
    "the load table: with how many aboard it starts again on the steepest bit, what limits it, on other rail, with a hot motor; pull drawn against speed",
  example: "rideon climb plan.yaml --rail damp",
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SVG_OPTION],
  files: ["answer.json"],
  doing: "trying the load table",
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: () => ({ question: "climb", found: {} }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
