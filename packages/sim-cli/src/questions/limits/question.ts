import { type LimitsAnswer, usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { PLAN_OPTIONS, SIGHT_OPTION, type SightFlags, SURE_OPTIONS } from "../../work/options.js";
import { foundIn } from "./found.js";

/** What this train may do on this line. */
export const limits = asked<AskedFlags & SightFlags, { answer: LimitsAnswer }>({
  name: "limits",
  about: "what this train may do here: how many aboard, how fast on which stretch, and what must be done first",
  inFull:
    'what this train may do on this line, on the safe side: how many aboard and what bounds that, how fast on which stretch, how it stops by who acts, what a parted coupling does, where it may be left, how many laps to plan for (`--sight "65 ft"`)',
  example: "rideon limits plan.yaml --rail wet",
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SIGHT_OPTION],
  files: ["answer.json"],
  doing: "looking at every limit",
  own: ({ sight }) => ({ sight_m: sight }),
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: ({ answer }) => ({ question: "limits", found: foundIn(answer) }),
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
