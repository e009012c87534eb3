import { TOOLS } from "@rideon/sim-core";
import { type CommandOption, collect, named, OptionError, PLAN_OPTIONS, wordsOf } from "../../work/options.js";
import { PLAN_ARGUMENT, type Question } from "../../work/question.js";

const OPTIONS: readonly CommandOption[] = [
  {
    flags: "--saw <TEXT>",
    about: 'what was seen, or rows of the sheet: "does not move", "rest_volts=25.0 V" (repeatable): ranks the causes',
    parse: collect,
  },
  {
    flags: "--readings <FILE>",
    about: "a filled sheet, reading,value,note with units in the values, or - for standard input: ranks the causes",
    parse: named,
  },
  {
    flags: "--with <LIST>",
    about: `the instruments there are: ${TOOLS.join(",")} (default: all)`,
    parse(text) {
      const words = wordsOf(text).filter((word) => word !== "and" && word !== "a");
      const odd = words.filter((word) => !TOOLS.some((tool) => tool === word));
      const like = `they are ${TOOLS.join(", ")}, such as --with voltmeter,clamp`;
      if (words.length === 0) throw new OptionError(like);
      if (odd.length > 0) throw new OptionError(`${odd.join(", ")} will not do; ${like}`);
      return TOOLS.filter((tool) => words.includes(tool));
    },
  },
  {
    flags: "--long",
    about: "the whole sheet: everything that these instruments can read, and what each fault would read",
  },
];

/** The sheet of a first outing, or with a filled one what it makes likely. */
export const trial: Question = {
  name: "trial",
  about:
    "the sheet for the first outing: what to check in order and what each instrument should read; with --readings what is likely wrong",
  inFull:
    'the sheet for the first outing: safety, what to look at first, what each instrument should read and between what (`--with voltmeter,clamp` for what there is, `--long` for all of it and what it could be when it does not); with `--saw "does not move"` or `--readings sheet.csv` the likely causes ranked, and the next thing to look at or read',
  example: "rideon trial plan.yaml --out outing",
  argument: PLAN_ARGUMENT,
  options: [...PLAN_OPTIONS, ...OPTIONS],
  answer: async (path, flags) => (await import("./answer.js")).tried(path, flags),
  work: () => import("./work.js"),
};
