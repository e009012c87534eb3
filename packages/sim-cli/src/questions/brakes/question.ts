import { brakesStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { foundInBrakes } from "../../work/found.js";
import {
  PLAN_OPTIONS,
  SIGHT_OPTION,
  type SightFlags,
  STEP_OPTIONS,
  SURE_OPTIONS,
  SVG_OPTION,
} from "../../work/options.js";
import type { BrakesWorked } from "./work.js";

/** Stopping distances from everywhere on the line, and where the train will not stay parked. */
export const brakes = asked<AskedFlags & SightFlags, BrakesWorked>({
  name: "brakes",
  about:
    "stopping distances from everywhere on the line, with no brake up to every brake, dry and wet; where it will not stay parked",
  inFull:
    "stopping distance from everywhere on the line with no brake, the motor's drag, the electric brake, the loco's brake and every brake, dry and wet; within sight or not (`--sight \"65 ft\"`), what people aboard bear, the brake it wants, where it will not stay parked",
  example: 'rideon brakes plan.yaml --sight "65 ft" --passengers 8',
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SVG_OPTION, SIGHT_OPTION, ...STEP_OPTIONS],
  files: ["answer.json"],
  doing: "stopping it from everywhere on the line",
  own: ({ sight }) => ({ sight_m: sight }),
  step_s: ({ plan }) => brakesStep_s(plan),
  doubt: ({ answer }) => ({ question: "brakes", found: foundInBrakes(answer) }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
