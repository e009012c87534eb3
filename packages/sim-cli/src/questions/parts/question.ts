import type { PartsAnswer } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { ALL_OPTION, PLAN_OPTIONS } from "../../work/options.js";

/** The list to take to the shop. */
export const partsQuestion = asked<AskedFlags, { answer: PartsAnswer }>({
  name: "parts",
  about:
    "the list to take to the shop: what there is and what is needed, the figure to order each by, and how near it is",
  inFull:
    "the list to take to the shop: motor, sprockets, chains, shafts, keys, bearings, batteries, charger, breaker, cables, switches, brakes and couplings; what the files have is judged by what this line asks of it, what they do not have stands there with the figure to order by, each with its rule; `--all` tells what shafts and couplings carry, `--out` writes `parts.csv`",
  example: "rideon parts plan.yaml --out shop",
  options: [...PLAN_OPTIONS.filter(({ flags }) => !/^--laps /.test(flags)), ALL_OPTION],
  files: ["parts.csv", "answer.json"],
  doing: "looking at what every part must carry",
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
