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
  sheet: {
    columns: [
      ["time_s", "_ms, _min, _h; or time, by the clock"],
      ["distance_m", "run so far: this or speed, or both; _km, _ft, _yd, _mi"],
      ["speed_mps", "_kmh, _mph"],
      ["battery_current_A", "out of the battery is positive; _mA"],
      ["motor_current_A", "_mA"],
      ["battery_voltage_V", "_mV"],
      ["temperature_C", "of the motor's case; _F"],
      ["duty_percent", "of the controller; duty is a share"],
      ["lap", "a mark where the lap button was pressed"],
    ],
    example: [
      "time_s,distance_m,speed_mph,battery_current_A,battery_voltage_V,lap",
      "41,0,0.0,1.4,25.23,x",
      "42,0,0.2,4.8,25.16,",
    ],
  },
  options: [...PLAN_OPTIONS.filter(({ flags }) => !/^--(speed|lever|laps) /.test(flags)), ...OPTIONS],
  answer: async (path, flags, plan) => (await import("./answer.js")).compared(path, plan, flags),
  work: () => import("./work.js"),
};
