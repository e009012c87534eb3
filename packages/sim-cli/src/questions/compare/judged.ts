import { type CompareAnswer, type Compared, formatPercent, type QuantityCompared } from "@rideon/sim-core";
import { ENDED_BY } from "../../words/endings.js";
import type { Eyes } from "../../words/eyes.js";
import { listed } from "../../words/lists.js";
import { tooLittle } from "../../words/logged.js";
import { CALLED, differenceTold, moreTold, readingTold } from "./told.js";

/** One sentence: do the sums and the loco agree? */
export function headline({ agrees, covers, quantities, outcome }: CompareAnswer): string {
  if (outcome !== "completed") return "By the sums the train does not come as far as the real one did.";
  if (agrees)
    return `The loco agrees with the sums over ${formatPercent(Math.floor(100 * covers.share) / 100)} of the line, its steepest bits among it, as far as the doubt of both goes.`;
  const off = quantities.filter(({ within_doubt }) => !within_doubt);
  if (off.length === 0 && quantities.some(({ name }) => name !== "speed"))
    return `Not told: this log tells too little, for ${covers.share === 0 ? "neither current nor volts nor duty in it tell of the line" : tooLittle(covers)}. Where it was compared it does not differ; what was not run over is not agreed with.${hidden(covers)} Log one whole lap or more, or the line from end to end, with the current in it.`;
  if (off.length === 0)
    return "The sums can run at the speed that was logged. Nothing else was logged, so nothing else is proved.";
  const differ = off.length === 1 && !/volts/.test(CALLED[off[0]?.name ?? "speed"]) ? "differs" : "differ";
  const places = off.some(({ mean_within_doubt }) => !mean_within_doubt) ? "" : " in places";
  return `The loco does not agree with the sums: ${listed(off.map(({ name }) => CALLED[name]))} ${differ}${places} by more than both leave open.`;
}

/** Of the line: where a train starts and stops nothing is compared. */
const NOT_COMPARED = 0.1;

/** What was run over and logged, and yet tells nothing: most often a battery's volts. */
const hidden = ({ ran, share }: CompareAnswer["covers"]): string =>
  ran - share > NOT_COMPARED
    ? " Where more is left open than the load changes, as it may be of a battery's volts, a train that draws otherwise would not show."
    : "";

/** Of what the sums have: less is no matter. */
const MORE_DRAWN = 0.05;
const HOTTER_K = 5;

/** Where the real loco is worse than the sums, whatever is left open: what they promise flatters. */
export function flattered({ agrees, quantities, rolls, stiffens }: CompareAnswer, eyes: Eyes): string[] {
  const of = (name: Compared) => quantities.find((each) => each.name === name);
  const [drawn, heat] = [of("battery_current"), of("temperature")];
  const share = drawn && drawn.predicted > 0 ? drawn.bias / drawn.predicted : 0;
  return [
    ...(share > MORE_DRAWN
      ? [
          `It drew ${formatPercent(Math.round(100 * share) / 100)} more from the battery than by the sums: count on fewer laps to a charge than they tell.`,
        ]
      : []),
    // Of a log that does not agree nothing is told by a fit.
    ...(agrees !== false && rolls !== null && rolls < 1 - MORE_DRAWN
      ? [
          `By it the train may roll with as little as ${formatPercent(Math.floor(100 * rolls) / 100)} of the resistance that the sums have: count on longer stops, and on running farther, than they tell.`,
        ]
      : []),
    ...(agrees !== false && stiffens !== null && stiffens > 1 + MORE_DRAWN
      ? [
          `By it the train may roll with as much as ${formatPercent(Math.ceil(100 * stiffens) / 100)} of the resistance that the sums have: count on starting again with fewer aboard than they tell.`,
        ]
      : []),
    ...(heat && heat.bias > HOTTER_K
      ? [
          `The motor's case was ${differenceTold("temperature", heat.bias, eyes)} hotter than by the sums: count on less spare there.`,
        ]
      : []),
  ];
}

export function cutShort({ outcome, ended_by, came_m, distance_m, from_m }: CompareAnswer, eyes: Eyes): string[] {
  if (outcome === "completed") return [];
  const why = ended_by ? ENDED_BY[ended_by].it : "ends";
  const before = came_m < NOTHING_m ? "" : " What follows is about the part before.";
  return [
    `By the sums it ${why} after ${eyes.length(came_m)}, having begun at ${eyes.place(from_m)}; the log goes on to ${eyes.length(distance_m)}.${before}`,
  ];
}

/** Of a train that came no farther there is nothing to compare, m. */
const NOTHING_m = 20;

/** Where the sums' train ran away from the driver, or fell behind. */
export function strayedInWords({ strayed, speed_unit }: CompareAnswer, eyes: Eyes): string[] {
  // Of another unit there is nothing to be said of the loco.
  if (!strayed || speed_unit !== null) return [];
  const { for_m, at_m, logged_mps, predicted_mps } = strayed;
  const faster = predicted_mps > logged_mps;
  const why = faster
    ? "It gathers speed there with nothing to hold it: the real train was braked, or rolls less freely."
    : "It cannot keep up there: the real train pulls better, or is lighter, than its files have it.";
  return [
    `By the sums the train runs at another speed than was logged over ${eyes.length(for_m)}; farthest off from ${eyes.place(at_m)}, ${eyes.speed(predicted_mps)} where ${eyes.speed(logged_mps)} was logged. ${why} Currents and volts are not compared there.`,
  ];
}

/** @param verdicts the last column: whole on a page, short where a table of a terminal would be too wide for it */
export const quantityRows = ({ quantities }: CompareAnswer, eyes: Eyes, verdicts = WHOLE): string[][] =>
  quantities.map((each) => [
    CALLED[each.name],
    readingTold(each.name, each.logged, eyes),
    readingTold(each.name, each.predicted, eyes),
    sameTold(each, eyes),
    `± ${differenceTold(each.name, each.doubt, eyes)}`,
    verdicts[verdict(each)],
  ]);

const WHOLE = { differs: "differs", places: "differs in places", driven: "driven so", agrees: "agrees" };
export const SHORT: typeof WHOLE = { ...WHOLE, places: "partly", driven: "driven" };

/** The speed is no proof: it was what the sums were driven by. */
function verdict({ name, within_doubt, mean_within_doubt }: QuantityCompared): keyof typeof WHOLE {
  if (!mean_within_doubt) return "differs";
  if (!within_doubt) return "places";
  return name === "speed" ? "driven" : "agrees";
}

/** Less than this of what is left open is no difference to speak of. */
const NONE = 0.02;

const sameTold = ({ name, bias, doubt }: QuantityCompared, eyes: Eyes): string =>
  Math.abs(bias) < NONE * doubt ? "the same" : moreTold(name, bias, eyes);

export const worstRows = ({ quantities }: CompareAnswer, eyes: Eyes): string[][] =>
  quantities
    .filter(({ name }) => name !== "speed" || quantities.length === 1)
    .map(({ name, worst, rms }) => [
      CALLED[name],
      `${moreTold(name, worst.difference, eyes)} from ${eyes.place(worst.from_m)}: ${Math.abs(worst.difference) <= worst.doubt ? "within" : "beyond"} the ${differenceTold(name, worst.doubt, eyes)} left open there. From piece to piece it differs by ${differenceTold(name, rms, eyes)} (rms).`,
    ]);
