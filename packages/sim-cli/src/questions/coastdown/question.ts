import { type CommandOption, INTO_OPTION, MESH_OPTIONS, OptionError, SHEET_OPTIONS } from "../../work/options.js";
import type { Question } from "../../work/question.js";

function factorIn(text: string): number {
  const value = Number(text.trim());
  if (value >= 1 && value < 3) return value;
  throw new OptionError("it is the mass it accelerates like over the mass it weighs, from 1 to 3, such as 1.05");
}

const OPTIONS: readonly CommandOption[] = [
  {
    flags: "--rotating <FACTOR>",
    about:
      "mass it accelerates like over the mass it weighs, for what turns with its wheels (default: the plan's, or 1.05)",
    parse: factorIn,
  },
  ...MESH_OPTIONS,
  INTO_OPTION,
  ...SHEET_OPTIONS,
];

/** Rolling resistance by letting the train run out. */
export const coastdown: Question = {
  name: "coastdown",
  about: "rolling resistance with its doubt from runs that coast, both ways, timed by speed or past marks",
  inFull:
    "rolling resistance with its doubt, the gradient, and what rises with speed where the runs can tell it, from runs that coast both ways, timed by speed or past marks; with `--plan plan.yaml` its line is counted where a column `from_m` tells where each run began; `--into loco.yaml` puts it into the file",
  example: "rideon coastdown runs.csv",
  argument: { name: "runs", about: "the readings, a CSV, or - for standard input", usual: "runs.csv" },
  sheet: {
    columns: [
      ["run", "its name: every row of one run has it"],
      ["direction", "out or back; the first is that in which chainages grow"],
      ["time_s", "by one clock for each run"],
      ["speed_mps", "either speed; _kmh, _mph"],
      ["distance_m", "or marks passed, from where the clock was started; _ft"],
      ["from_m", "of the head along the plan's line at that start; _ft"],
      ["note", "anything"],
    ],
    example: ["run,direction,time_s,speed_mph,from_m", "1,out,0,4.6,340", "1,out,2,4.1,"],
  },
  options: OPTIONS,
  answer: async (path, flags) => (await import("./answer.js")).coasted(path, flags),
};
