import { quantity, UnitError } from "@rideon/sim-core";

/** An option of the command line, as its help and its completion tell it. */
export interface CommandOption {
  /** `--sight <LENGTH>`: the name as typed, and its value's. */
  flags: string;
  about: string;
  /** Words it takes, where it takes no others. */
  choices?: readonly string[];
  /** Reads what was typed. @param before what an earlier one of the same gave @throws OptionError */
  parse?: (text: string, before?: never) => unknown;
}

/** What was typed will not do; says what would. */
export class OptionError extends Error {
  override name = "OptionError";
}

/** Options given again and again. */
export const collect = (value: string, before: readonly string[] = []): string[] => [...before, value];

/** The name of a file or a folder; an empty one is a slip of a script. */
export function named(value: string): string {
  if (value === "") throw new OptionError("the name is empty");
  return value;
}

/** Words of a list, however they are parted. */
export const wordsOf = (text: string): string[] => text.split(/[\s,;]+/).filter((word) => word !== "");

/** Of every command that reads a plan. */
export const PLAN_OPTIONS: readonly CommandOption[] = [
  {
    flags: "--set <PATH=VALUE>",
    about: 'any key of the plan, or loco. and a key of the loco file (repeatable): loco.mass="150 kg"',
    parse: collect,
  },
  { flags: "--passengers <NUMBER>", about: "number aboard, without the driver" },
  { flags: "--speed <SPEED>", about: 'drive to this speed: "4 mph"' },
  { flags: "--lever <SHARE>", about: "hold the lever here, 0 to 1, whatever the speed" },
  { flags: "--laps <NUMBER>", about: "laps to run" },
  { flags: "--rail <STATE>", about: "dry, damp, wet or greasy" },
  { flags: "--charge <SHARE>", about: 'charge at the start: 0.8 or "80 %"' },
  { flags: "--json", about: "one JSON document on standard output, nothing else there" },
  { flags: "--out <FOLDER>", about: "write the answer's files into this folder", parse: named },
  {
    flags: "--units <STYLE>",
    about: "units of the text (default: as typed in the files)",
    choices: ["metric", "imperial"],
  },
  { flags: "--strict", about: "warnings give status 1" },
  { flags: "--quiet", about: "no progress or notes; answers and warnings stay" },
];

/** Of commands that tell the rest only where it is asked for. */
export const ALL_OPTION: CommandOption = { flags: "--all", about: "tell everything, at length" };

/** Of every command that draws. */
export const SVG_OPTION: CommandOption = {
  flags: "--svg <FILE>",
  about: "write the picture alone into this file, or - for standard output",
  parse: named,
};

/** `20` or more, whole. */
export const wholeFrom =
  (least: number, most: number, like: string) =>
  (text: string): number => {
    const value = Number(text);
    if (/^\d+$/.test(text.trim()) && value >= least && value <= most) return value;
    throw new OptionError(`it is a whole number from ${least} to ${most}, such as ${like}`);
  };

/** Of every command whose answer tells how sure it is. */
export const SURE_OPTIONS: readonly CommandOption[] = [
  { flags: "--sure", about: "take every figure at its middle: no bands, no draws" },
  {
    flags: "--draws <NUMBER>",
    about: "so many plain draws of the whole simulation for the bands (default: few, well spread)",
    parse: wholeFrom(20, 1_000_000, "2000"),
  },
  {
    flags: "--seed <NUMBER>",
    about: "of the draws: the same seed gives the same bands (default: 1)",
    parse: wholeFrom(0, 2_147_483_647, "1"),
  },
  {
    flags: "--workers <NUMBER>",
    about: "threads that share the draws (default: as many as there are cores)",
    parse: wholeFrom(1, 64, "2"),
  },
];

/** Of every command that reads a sheet of readings. */
export const SHEET_OPTIONS: readonly CommandOption[] = [
  { flags: "--json", about: "one JSON document on standard output, nothing else there" },
  { flags: "--quiet", about: "no notes; answers and warnings stay" },
];

/** Of every command about a train that is pulled or let coast. */
export const MESH_OPTIONS: readonly CommandOption[] = [
  {
    flags: "--plan <FILE>",
    about: "the plan whose train it was: for its mass, what turns in it, the drag of its drive, and its line",
    parse: named,
  },
  {
    flags: "--mesh <HOW>",
    about: "was the motor in mesh? in: the drive's drag is taken off, as the plan has it; out (default)",
    choices: ["in", "out"],
  },
];

/** Of every command whose figures may go into a loco's file. */
export const INTO_OPTION: CommandOption = {
  flags: "--into <FILE>",
  about: "put what was measured into this loco file, and show what changed",
  parse: named,
};

/** Of every command that takes a log. */
export const LOG_OPTIONS: readonly CommandOption[] = [
  {
    flags: "--column <NAME=QUANTITY>",
    about: 'what a column with a name of its own holds: "Batt A=battery_current A" (repeatable)',
    parse: collect,
  },
  {
    flags: "--from <PLACE>",
    about:
      'where the log begins, or the lap button is pressed: "120 m" along the line, or a place (default: the first post)',
    parse: named,
  },
];

export interface SightFlags {
  /** Sight distance to judge by, m. */
  sight?: number;
}

/** Nobody stops on the spot, and beyond this no line of a club can be seen, m. */
const SIGHT_m = { least: 1, most: 1000 } as const;

/** Of every command that judges stops. */
export const SIGHT_OPTION: CommandOption = {
  flags: "--sight <LENGTH>",
  about: 'how far ahead the driver sees, to judge by: "65 ft" (default: 20 m)',
  parse(text) {
    const sight_m = lengthIn(text);
    if (sight_m >= SIGHT_m.least && sight_m <= SIGHT_m.most) return sight_m;
    throw new OptionError(`it is a length from ${SIGHT_m.least} m to ${SIGHT_m.most} m, such as 20 m or 65 ft`);
  },
};

function lengthIn(text: string): number {
  try {
    return quantity(text, "length", "20 m or 65 ft");
  } catch (error) {
    throw error instanceof UnitError ? new OptionError(error.message) : error;
  }
}

/** Finer would only fill the disk. */
const FINEST_EVERY_s = 0.001;

/** Of every command that traces a working. */
export const EVERY_OPTION: CommandOption = {
  flags: "--every <SECONDS>",
  about: "interval of the trace (default: 0.5)",
  parse(text) {
    const every_s = secondsIn(text);
    if (every_s >= FINEST_EVERY_s) return every_s;
    throw new OptionError(`it is a number of seconds, at least ${FINEST_EVERY_s}, such as 0.5`);
  },
};

/** A driver looks up again within half a second, and a step ends there; a finer one than this finds nothing more. */
const [FINEST_s, LONGEST_s] = [1e-4, 0.5];

/** Of every command whose step may be chosen. */
export const STEP_OPTIONS: readonly CommandOption[] = [
  {
    flags: "--step <SECONDS>",
    about: "longest step of the simulation, 0.0001 to 0.5 s (default: chosen and told)",
    parse(text) {
      const step_s = secondsIn(text);
      if (step_s >= FINEST_s && step_s <= LONGEST_s) return step_s;
      throw new OptionError("it is seconds, from 0.0001 to 0.5");
    },
  },
  { flags: "--check-step", about: "run again at half the step and tell the difference" },
];

/** `0.5` or `0.5 s`; NaN for anything else. */
const secondsIn = (text: string): number => Number(/^\s*(\d+\.?\d*|\.\d+)\s*s?\s*$/.exec(text)?.[1] ?? Number.NaN);
