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
  sheet: {
    columns: [
      ["reading", "rested, load, or emptied (from full to the cut-out)"],
      ["voltage_V", "of the whole battery, at its own terminals"],
      ["current_A", "drawn at that moment; emptied: in the mean"],
      ["charge_Ah", "emptied: what was taken from full"],
      ["note", "anything"],
    ],
    example: ["reading,voltage_V,current_A,charge_Ah", "rested,25.18,,", "load,24.92,12.4,"],
  },
  options: [
    { ...INTO_OPTION, about: "put what was measured into this loco or plan file, and show what changed" },
    ...SHEET_OPTIONS,
  ],
  answer: async (path, flags, plan) => (await import("./answer.js")).batteryTold(path, plan, flags),
};
