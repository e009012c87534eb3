import { INTO_OPTION, SHEET_OPTIONS } from "../../work/options.js";
import { PLAN_ARGUMENT, type Question } from "../../work/question.js";

/** What the real battery still is. */
export const batteryQuestion: Question = {
  name: "battery",
  about:
    "state of charge, resistance and health with their doubt, from volts rested and under load and a run to the cut-out",
  inFull:
    "the real battery's state of charge, resistance and health, with their doubt, from rested volts, volts and amps at two loads, and the ampere-hours of a run to the cut-out, by the plan's own battery; `--into loco.yaml` puts them into the file",
  example: "rideon battery battery.csv plan.yaml",
  argument: { name: "readings", about: "the readings, a CSV, or - for standard input", usual: "battery.csv" },
  beside: PLAN_ARGUMENT,
  options: [
    { ...INTO_OPTION, about: "put what was measured into this loco or plan file, and show what changed" },
    ...SHEET_OPTIONS,
  ],
  answer: async (path, flags, plan) => (await import("./answer.js")).batteryTold(path, plan, flags),
};
