import { SWEPT, type Swept } from "@rideon/sim-core";
import {
  type CommandOption,
  collect,
  named,
  OptionError,
  PLAN_OPTIONS,
  SURE_OPTIONS,
  SVG_OPTION,
  wordsOf,
} from "../../work/options.js";
import { PLAN_ARGUMENT, type Question } from "../../work/question.js";
import { TEETH_OPTION } from "../../work/teeth.js";

/** What no grid of cases can be asked, and why. */
const NOT_SWEPT: Readonly<Record<string, string>> = {
  trial: "its answer is a sheet to fill in at the track, and no figure",
  compare: "it holds one logged run beside one plan",
  report: "its answer is a page to read, of what limits, brakes, climb and laps tell",
  sweep: "it is one",
  new: "it writes files to start from",
  ...Object.fromEntries(
    ["levels", "pull", "coastdown", "battery"].map((name) => [
      name,
      "it reduces what was measured, which is the same whatever the plan; what it finds can be varied",
    ]),
  ),
};

function questionsIn(text: string): Swept[] {
  const words = wordsOf(text);
  const odd = words.find((word) => !(SWEPT as readonly string[]).includes(word));
  if (words.length > 0 && odd === undefined) return SWEPT.filter((each) => words.includes(each));
  const why = odd === undefined ? undefined : NOT_SWEPT[odd];
  const asks = `a sweep asks one or more of ${SWEPT.join(", ")}, such as laps,climb`;
  throw new OptionError(why === undefined ? asks : `${odd} cannot be asked of a grid: ${why}; ${asks}`);
}

function shareIn(text: string): { k: number; of: number } {
  const [k, of] = (/^(\d+)\/(\d+)$/.exec(text.trim()) ?? []).slice(1).map(Number);
  if (k !== undefined && of !== undefined && k >= 1 && k <= of && of <= 100_000) return { k, of };
  throw new OptionError("it is a share of all, such as 3/8: the third of eight");
}

const OPTIONS: readonly CommandOption[] = [
  {
    flags: "--vary <KEY=VALUES>",
    about:
      'a key of the plan, or loco. and a key of the loco file, and its values: passengers=0..12, rail=dry,wet, loco.gears.1.teeth=[11,44],[11,48], loco.mass="120..180 kg by 20" (repeatable: every combination)',
    parse: collect,
  },
  {
    flags: "--cases <FILE>",
    about: "a CSV with a case a row, its columns keys, with units in the cells",
    parse: named,
  },
  {
    flags: "--beside <FILE>",
    about: "another loco file, side by side with the plan's own (repeatable, five designs at most)",
    parse: collect,
  },
  {
    flags: "--ask <QUESTIONS>",
    about: `what each case is asked: ${SWEPT.join(", ")} (default: limits; shafts are those of parts)`,
    parse: questionsIn,
  },
  { flags: "--best <FIGURE>", about: "the figure that the best are told by: laps_to_reserve", parse: named },
  {
    flags: "--need <FIGURES>",
    about: 'what the best must have: "restarts=yes,stops_m<20" (repeatable)',
    parse: (text: string, before: readonly string[] = []) => [
      ...before,
      ...text.split(",").filter((each) => each.trim() !== ""),
    ],
  },
  { flags: "--bands", about: "the figures' bands besides: 5 and 95 draws in a hundred lie below" },
  { flags: "--list", about: "print the cases, a line each, and work nothing out" },
  { flags: "--share <K/N>", about: "work out a share of the cases into a file of its own: 3/8", parse: shareIn },
  {
    flags: "--gather <FILES>",
    about:
      "put the files of shares together: 'results/sweep-*-of-8.csv' (repeatable); with the shares' own options, the list of parts of --beside too",
    parse: collect,
  },
];

/** A figure is one of a file that is gone on with, whoever reads it. */
const UNITS_ABOUT = "units of the list of parts on the page; a sweep's figures are in the units of their names";

/** Many cases of a plan. */
export const sweepQuestion: Question = {
  name: "sweep",
  about:
    "what if: a plan with this or that otherwise, every combination, each asked the same; on all cores, or many machines",
  inFull:
    "what if: every combination of what is varied (`--vary passengers=0..12 --vary rail=dry,wet`), a case a row of a file (`--cases`), or designs side by side (`--beside other-loco.yaml`), each asked the same (`--ask laps,climb`); the best of them, a map over two keys, a CSV that goes on where it was interrupted, and shares for many machines",
  example: "rideon sweep plan.yaml --vary loco.wheels.driven_axles=1,2 --vary rail=dry,damp,wet --ask climb",
  argument: PLAN_ARGUMENT,
  options: [
    ...PLAN_OPTIONS.filter(({ flags }) => flags !== "--strict").map((option) =>
      option.flags.startsWith("--units ") ? { ...option, about: UNITS_ABOUT } : option,
    ),
    ...OPTIONS,
    TEETH_OPTION,
    ...SURE_OPTIONS.filter(({ flags }) => flags !== "--sure"),
    SVG_OPTION,
  ],
  answer: async (path, flags) => (await import("./answer.js")).swept(path, flags),
  work: () => import("./work.js"),
};
