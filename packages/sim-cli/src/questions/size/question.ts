import type { OpenedSizing } from "../../words/ready.js";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { PLAN_OPTIONS, SURE_OPTIONS } from "../../work/options.js";
import type { SizeWorked } from "./work.js";

/** What to buy for a train, its line, its speed and its hours. */
export const size = asked<AskedFlags, SizeWorked, OpenedSizing>({
  name: "size",
  about: "what to buy for a train, its line, its speed and its hours: no motor, gears or battery need be named yet",
  inFull:
    "what to buy, from train, track, speed and hours alone: motor, ratio, amps at 12 to 48 V, amp-hours, controller, breaker, cable, brake, each with its rule",
  example: 'rideon size plan.yaml --speed "5 mph" --set duration="3 h"',
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS],
  files: ["answer.json"],
  doing: "working out what to buy",
  open: async (path, flags) => (await import("../../work/opened.js")).openSizing(path, flags),
  doubt: () => ({ question: "size", found: {} }),
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
