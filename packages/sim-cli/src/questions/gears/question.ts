import { type GearsAnswer, usualStep_s } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import {
  type CommandOption,
  OptionError,
  PLAN_OPTIONS,
  STEP_OPTIONS,
  SURE_OPTIONS,
  SVG_OPTION,
  wordsOf,
} from "../../work/options.js";

interface GearsFlags extends AskedFlags {
  /** Sizes of sprockets to hand. */
  teeth?: readonly number[];
}

/** As `sizesOf` of the core has them. */
const TEETH = { least: 5, most: 200 } as const;
/** Of more sizes than anybody stocks, all pairs of pairs would take for ever. */
const MOST_SIZES = 40;

const TEETH_OPTION: CommandOption = {
  flags: "--teeth <LIST>",
  about:
    "teeth of the sprockets to hand, each as often as wanted: 9,11,13,57,60 (default: what shops keep for the chain)",
  parse(text) {
    const words = wordsOf(text);
    const odd = words.filter((word) => !/^\d+$/.test(word) || Number(word) < TEETH.least || Number(word) > TEETH.most);
    const like = `teeth are whole numbers from ${TEETH.least} to ${TEETH.most}, such as 9,11,13,57,60`;
    if (words.length === 0) throw new OptionError(like);
    if (odd.length > 0) throw new OptionError(`${odd.join(", ")} will not do; ${like}`);
    const sizes = [...new Set(words.map(Number))];
    if (sizes.length <= MOST_SIZES) return sizes;
    throw new OptionError(`${sizes.length} sizes are more than ${MOST_SIZES}; leave out the unlikely ones`);
  },
};

/** Sprockets from those to hand, tried in the plan's working. */
export const gears = asked<GearsFlags, { answer: GearsAnswer }>({
  name: "gears",
  about: "sprocket choices from the teeth to hand, ranked, with speed, pull, current, heat and chain checks",
  inFull:
    "sprockets from the teeth to hand (`--teeth 9,11,13,57,60`), simulated and ranked, with faults in words and the chains of the best",
  example: "rideon gears plan.yaml --teeth 9,11,12,13,38,44,57",
  options: [...PLAN_OPTIONS, ...SURE_OPTIONS, SVG_OPTION, TEETH_OPTION, ...STEP_OPTIONS],
  files: ["answer.json"],
  doing: "trying sprockets",
  own: ({ teeth }) => ({ teeth }),
  step_s: ({ plan }) => usualStep_s(plan),
  doubt: ({ answer: { rows } }) => ({ question: "gears", found: rows[0] ? { teeth: rows[0].teeth } : {} }),
  work: () => import("./work.js"),
  tell: () => import("./tell.js"),
});
