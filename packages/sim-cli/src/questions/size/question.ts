import type { OpenedSizing } from "../../words/ready.js";
import { asked } from "../../work/asked.js";
import type { PlanFlags } from "../../work/flags.js";
import { openSizing } from "../../work/opened.js";
import { PLAN_OPTIONS } from "../../work/options.js";
import type { SizeWorked } from "./work.js";

/** What to buy for a train, its line, its speed and its hours. */
export const size = asked<PlanFlags, SizeWorked, OpenedSizing>({
  name: "size",
  about: "what to buy for a train, its line, its speed and its hours: no motor, gears or battery need be named yet",
  example: 'rideon size plan.yaml --speed "5 mph" --set duration="3 h"',
  options: PLAN_OPTIONS,
  files: ["answer.json"],
  doing: "working out what to buy",
  open: openSizing,
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
