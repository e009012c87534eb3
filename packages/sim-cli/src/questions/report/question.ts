import { LOG_OPTIONS, named, PLAN_OPTIONS, SURE_OPTIONS } from "../../work/options.js";
import { PLAN_ARGUMENT, type Question } from "../../work/question.js";

/** The committee's page, or the driver's card alone. */
export const report: Question = {
  name: "report",
  about: "one page for the club's committee, that prints, and can be tried in any browser; with a driver's card",
  inFull:
    "one page for the club's committee, to print or to try live in any browser, with a driver's card to cut out (`--card`: the card alone)",
  example: "rideon report plan.yaml --out results",
  argument: PLAN_ARGUMENT,
  options: [
    ...PLAN_OPTIONS,
    ...SURE_OPTIONS,
    { flags: "--card", about: "the driver's card alone" },
    {
      flags: "--log <FILE>",
      about: "a logged run, to stand beside the sums: what rideon compare takes, with its --column and --from",
      parse: named,
    },
    ...LOG_OPTIONS,
  ],
  answer: async (path, flags) => (await import("./answer.js")).reported(path, flags),
  work: () => import("./work.js"),
};
