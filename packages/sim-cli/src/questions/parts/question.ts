import type { PartsAnswer } from "@rideon/sim-core";
import { UsageError } from "../../read/diagnostics.js";
import { asked } from "../../work/asked.js";
import { filesOf } from "../../work/files.js";
import type { AskedFlags } from "../../work/flags.js";
import { ALL_OPTION, type CommandOption, named, PLAN_OPTIONS } from "../../work/options.js";
import type { PartsReady } from "./ready.js";

const BESIDE_OPTION: CommandOption = {
  flags: "--beside <FILE>",
  about: "another loco's file: what its list has otherwise",
  parse: named,
};

export interface PartsFlags extends AskedFlags {
  /** Another loco's file. */
  beside?: string;
}

/** The list to take to the shop. */
export const partsQuestion = asked<PartsFlags, { answer: PartsAnswer }, PartsReady>({
  name: "parts",
  about:
    "the list to take to the shop: what there is and what is needed, the figure to order each by, and how near it is",
  inFull:
    "the list to take to the shop: motor, sprockets, chains, shafts, keys, bearings, batteries, charger, breaker, cables, switches, brakes and couplings; what the files have is judged by what this line asks of it, what they do not have stands there with the figure to order by, each with its rule; `--beside other.yaml` tells what another loco would have otherwise, `--all` what shafts and couplings carry, `--out` writes `parts.csv`",
  example: "rideon parts plan.yaml --out shop",
  options: [...PLAN_OPTIONS.filter(({ flags }) => !/^--laps /.test(flags)), BESIDE_OPTION, ALL_OPTION],
  files: ["parts.csv", "answer.json"],
  open: async (path, flags) => {
    const { openPlan } = await import("../../work/opened.js");
    const opened = await openPlan(path, flags);
    if (flags.beside === undefined) return opened;
    const set = [...(flags.set ?? []), `loco=${flags.beside}`];
    try {
      return { ...opened, beside: await openPlan(path, { ...flags, set }) };
    } catch (error) {
      // It is told as what was typed.
      if (error instanceof UsageError) throw new UsageError(error.message.replaceAll("--set loco=", "--beside "));
      throw error;
    }
  },
  own: (_, { beside }) => (beside ? { beside: filesOf(beside.reading) } : {}),
  doing: "looking at what every part must carry",
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
