import { quantity, TOOLS, type Tool, UnitError, type UnitStyle } from "@rideon/sim-core";
import { type Command, InvalidArgumentError, Option } from "commander";
import type { ShortSet } from "../read/index.js";

/** What every command that reads a plan is given. */
export interface PlanFlags {
  set?: readonly string[];
  passengers?: string;
  speed?: string;
  lever?: string;
  laps?: string;
  rail?: string;
  charge?: string;
  json?: true;
  out?: string;
  units?: UnitStyle;
  strict?: true;
  quiet?: true;
}

/** What every command that draws is given besides. */
export interface PictureFlags extends PlanFlags {
  /** A file for the picture alone. */
  svg?: string;
}

export interface ReportFlags extends PlanFlags {
  /** The driver's card alone. */
  card?: true;
}

/** What every command that simulates is given besides. */
export interface StepFlags extends PictureFlags {
  step?: number;
  checkStep?: true;
}

export interface RunFlags extends StepFlags {
  every?: number;
}

export interface GearsFlags extends StepFlags {
  /** Sizes of sprockets to hand. */
  teeth?: readonly number[];
}

export interface BrakesFlags extends StepFlags {
  /** Sight distance to judge by, m. */
  sight?: number;
}

export interface TrialFlags extends PlanFlags {
  /** A filled sheet. */
  readings?: string;
  /** What was seen, or rows of a sheet. */
  saw?: readonly string[];
  /** The instruments there are. */
  with?: readonly Tool[];
  /** Everything there is to read, and the fault table. */
  long?: true;
}

/** Short for `--set`: the option, and the key it sets. */
const SHORT_FOR = {
  passengers: "passengers",
  speed: "speed",
  lever: "lever",
  laps: "laps",
  rail: "track.rail",
  charge: "charge",
} as const;

/** The `--set`s of a command line, the short ones last: they are the more particular. Errors name them as typed. */
export function setsOf(flags: PlanFlags): (string | ShortSet)[] {
  const short = Object.entries(SHORT_FOR).flatMap(([flag, key]) => {
    const value = flags[flag as keyof typeof SHORT_FOR];
    return value === undefined ? [] : [{ typed: `--${flag} ${value}`.trim(), set: `${key}=${value}` }];
  });
  return [...(flags.set ?? []), ...short];
}

const collect = (value: string, before: readonly string[] = []): string[] => [...before, value];

/** The name of a file or a folder; an empty one is a slip of a script. */
export function named(value: string): string {
  if (value === "") throw new InvalidArgumentError("the name is empty");
  return value;
}

export function addPlanOptions(command: Command): Command {
  return command
    .argument("[plan]", "the plan's file, or - for standard input", named, "plan.yaml")
    .option(
      "--set <PATH=VALUE>",
      'any key of the plan, or loco. and a key of the loco file (repeatable): loco.mass="150 kg"',
      collect,
    )
    .option("--passengers <NUMBER>", "number aboard, without the driver")
    .option("--speed <SPEED>", 'drive to this speed: "4 mph"')
    .option("--lever <SHARE>", "hold the lever here, 0 to 1, whatever the speed")
    .option("--laps <NUMBER>", "laps to run")
    .option("--rail <STATE>", "dry, damp, wet or greasy")
    .option("--charge <SHARE>", 'charge at the start: 0.8 or "80 %"')
    .option("--json", "one JSON document on standard output, nothing else there")
    .option("--out <FOLDER>", "write the answer's files into this folder", named)
    .addOption(
      new Option("--units <STYLE>", "units of the text (default: as typed in the files)").choices([
        "metric",
        "imperial",
      ]),
    )
    .option("--strict", "warnings give status 1")
    .option("--quiet", "no progress or notes; answers and warnings stay");
}

export const addPictureOptions = (command: Command): Command =>
  addPlanOptions(command).option(
    "--svg <FILE>",
    "write the picture alone into this file, or - for standard output",
    named,
  );

export const addReportOptions = (command: Command): Command =>
  addPlanOptions(command).option("--card", "the driver's card alone");

export const addTrialOptions = (command: Command): Command =>
  addPlanOptions(command)
    .option(
      "--saw <TEXT>",
      'what was seen, or rows of the sheet: "does not move", "rest_volts=25.0 V" (repeatable): ranks the causes',
      collect,
    )
    .option(
      "--readings <FILE>",
      "a filled sheet, reading,value,note with units in the values, or - for standard input: ranks the causes",
      named,
    )
    .option("--with <LIST>", `the instruments there are: ${TOOLS.join(",")} (default: all)`, toolList)
    .option("--long", "the whole sheet: everything that these instruments can read, and what each fault would read");

function toolList(text: string): Tool[] {
  const words = text.split(/[\s,;]+/).filter((word) => word !== "" && word !== "and" && word !== "a");
  const odd = words.filter((word) => !TOOLS.some((tool) => tool === word));
  const like = `they are ${TOOLS.join(", ")}, such as --with voltmeter,clamp`;
  if (words.length === 0) throw new InvalidArgumentError(like);
  if (odd.length > 0) throw new InvalidArgumentError(`${odd.join(", ")} will not do; ${like}`);
  return TOOLS.filter((tool) => words.includes(tool));
}

export const addRunOptions = (command: Command): Command =>
  addStepOptions(
    addPictureOptions(command).option("--every <SECONDS>", "interval of the trace (default: 0.5)", everySeconds),
  );

export const addGearsOptions = (command: Command): Command =>
  addStepOptions(
    addPictureOptions(command).option(
      "--teeth <LIST>",
      "teeth of the sprockets to hand, each as often as wanted: 9,11,13,57,60 (default: what shops keep for the chain)",
      teethList,
    ),
  );

export const addBrakesOptions = (command: Command): Command =>
  addStepOptions(
    addPictureOptions(command).option(
      "--sight <LENGTH>",
      'how far ahead the driver sees, to judge by: "65 ft" (default: 20 m)',
      sightLength,
    ),
  );

function addStepOptions(command: Command): Command {
  return command
    .option(
      "--step <SECONDS>",
      "step of the simulation: 0.1 s over a whole number (default: chosen and told)",
      stepSeconds,
    )
    .option("--check-step", "run again at half the step and tell the difference");
}

/** As `sizesOf` of the core has them. */
const TEETH = { least: 5, most: 200 } as const;
/** Of more sizes than anybody stocks, all pairs of pairs would take for ever. */
const MOST_SIZES = 40;

function teethList(text: string): number[] {
  const words = text.split(/[\s,;]+/).filter((word) => word !== "");
  const odd = words.filter((word) => !/^\d+$/.test(word) || Number(word) < TEETH.least || Number(word) > TEETH.most);
  const like = `teeth are whole numbers from ${TEETH.least} to ${TEETH.most}, such as 9,11,13,57,60`;
  if (words.length === 0) throw new InvalidArgumentError(like);
  if (odd.length > 0) throw new InvalidArgumentError(`${odd.join(", ")} will not do; ${like}`);
  const sizes = [...new Set(words.map(Number))];
  if (sizes.length <= MOST_SIZES) return sizes;
  throw new InvalidArgumentError(`${sizes.length} sizes are more than ${MOST_SIZES}; leave out the unlikely ones`);
}

/** Nobody stops on the spot, and beyond this no line of a club can be seen, m. */
const SIGHT_m = { least: 1, most: 1000 } as const;

function sightLength(text: string): number {
  const sight_m = lengthIn(text);
  if (sight_m >= SIGHT_m.least && sight_m <= SIGHT_m.most) return sight_m;
  throw new InvalidArgumentError(`it is a length from ${SIGHT_m.least} m to ${SIGHT_m.most} m, such as 20 m or 65 ft`);
}

function lengthIn(text: string): number {
  try {
    return quantity(text, "length", "20 m or 65 ft");
  } catch (error) {
    throw error instanceof UnitError ? new InvalidArgumentError(error.message) : error;
  }
}

/** Finer would only fill the disk. */
const FINEST_EVERY_s = 0.001;

function everySeconds(text: string): number {
  const every_s = secondsIn(text);
  if (every_s >= FINEST_EVERY_s) return every_s;
  throw new InvalidArgumentError(`it is a number of seconds, at least ${FINEST_EVERY_s}, such as 0.5`);
}

/** The driver looks up every 0.1 s, and his looks must fall on steps. */
const LOOK_s = 0.1;
const MOST_STEPS_A_LOOK = 1000;

function stepSeconds(text: string): number {
  const parts = LOOK_s / secondsIn(text);
  const whole = Math.round(parts);
  if (whole >= 1 && whole <= MOST_STEPS_A_LOOK && Math.abs(parts - whole) < 1e-6 * whole) return LOOK_s / whole;
  throw new InvalidArgumentError("it is 0.1 s over a whole number: 0.1, 0.05, 0.025, 0.02, 0.01 …");
}

/** `0.5` or `0.5 s`; NaN for anything else. */
const secondsIn = (text: string): number => Number(/^\s*(\d+\.?\d*|\.\d+)\s*s?\s*$/.exec(text)?.[1] ?? Number.NaN);
