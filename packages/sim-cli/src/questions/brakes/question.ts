import { brakesStep_s, quantity, UnitError } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { type CommandOption, OptionError, PLAN_OPTIONS, STEP_OPTIONS, SVG_OPTION } from "../../work/options.js";
import type { BrakesWorked } from "./work.js";

interface BrakesFlags extends AskedFlags {
  /** Sight distance to judge by, m. */
  sight?: number;
}

/** Nobody stops on the spot, and beyond this no line of a club can be seen, m. */
const SIGHT_m = { least: 1, most: 1000 } as const;

const SIGHT_OPTION: CommandOption = {
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

/** Stopping distances from everywhere on the line, and where the train will not stay parked. */
export const brakes = asked<BrakesFlags, BrakesWorked>({
  name: "brakes",
  about:
    "stopping distances from everywhere on the line, with no brake up to every brake, dry and wet; where it will not stay parked",
  inFull:
    "stopping distance from everywhere on the line with no brake, the motor's drag, the electric brake, the loco's brake and every brake, dry and wet; within sight or not (`--sight \"65 ft\"`), what people aboard bear, the brake it wants, where it will not stay parked",
  example: 'rideon brakes plan.yaml --sight "65 ft" --passengers 8',
  options: [...PLAN_OPTIONS, SVG_OPTION, SIGHT_OPTION, ...STEP_OPTIONS],
  files: ["answer.json"],
  doing: "stopping it from everywhere on the line",
  own: ({ sight }) => ({ sight_m: sight }),
  step_s: ({ plan }) => brakesStep_s(plan),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
