import { type CheckAnswer, check as checked } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { ALL_OPTION, PLAN_OPTIONS, SURE_OPTIONS } from "../../work/options.js";

/** What the files come to before anything runs. */
export const check = asked<AskedFlags, { answer: CheckAnswer }>({
  name: "check",
  about: "read everything; tell what it comes to, what is assumed, and what should be looked at",
  inFull:
    "what the files come to: ratio, speeds, masses, gradients; what to measure first; warnings (`--all`: motor and battery constants too, and every assumed value with its source)",
  example: 'rideon check plan.yaml --set loco.mass="150 kg"',
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, ALL_OPTION],
  files: ["answer.json"],
  // What widens a lap widens most of the rest.
  doubt: () => ({ question: "run", found: {} }),
  doubtLeads: true,
  atOnce: ({ plan }) => ({ answer: checked(plan) }),
  tell: () => import("./words.js"),
});
