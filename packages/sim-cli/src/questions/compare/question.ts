import {
  type CommandOption,
  INTO_OPTION,
  LOG_OPTIONS,
  OptionError,
  PLAN_OPTIONS,
  SVG_OPTION,
  wordsOf,
} from "../../work/options.js";
import { PLAN_ARGUMENT, type Question } from "../../work/question.js";

function pathsIn(text: string): string[] {
  const paths = wordsOf(text);
  if (paths.length > 0) return paths;
  throw new OptionError("it is one key or more, such as loco.resistance.rolling,loco.battery.each.resistance");
}

const OPTIONS: readonly CommandOption[] = [
  ...LOG_OPTIONS,
  {
    flags: "--fit <KEYS>",
    about: "figures to be fitted to the log: loco.resistance.rolling,loco.battery.each.resistance",
    parse: pathsIn,
  },
  { ...INTO_OPTION, about: "put what was fitted into this loco file, and show what changed" },
  SVG_OPTION,
];

/** A logged run beside the sums. */
export const compareQuestion: Question = {
  name: "compare",
  about:
    "a logged run beside the sums, driven as it was driven: amps, volts and heat, place by place, and what would explain the difference",
  inFull:
    "a logged run beside the sums: the plan's train is driven over the line as the log tells that the real one was, and amps, volts and heat are held beside each other place by place, with the doubt of both and which figure would explain what differs; `--fit loco.resistance.rolling` fits figures to it, `--into loco.yaml` puts them into the file",
  example: "rideon compare log.csv plan.yaml",
  argument: { name: "log", about: "the log, a CSV, or - for standard input", usual: "log.csv" },
  beside: PLAN_ARGUMENT,
  options: [...PLAN_OPTIONS.filter(({ flags }) => !/^--(speed|lever|laps) /.test(flags)), ...OPTIONS],
  answer: async (path, flags, plan) => (await import("./answer.js")).compared(path, plan, flags),
  work: () => import("./work.js"),
};
