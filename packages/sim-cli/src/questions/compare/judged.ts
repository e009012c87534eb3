import {
  type CompareAnswer,
  type Compared,
  type Explanation,
  figures,
  formatPercent,
  keyAt,
  type QuantityCompared,
} from "@rideon/sim-core";
import { ENDED_BY } from "../../words/endings.js";
import type { Eyes } from "../../words/eyes.js";
import { capital, listed } from "../../words/lists.js";
import { figureCalled } from "../../words/measure.js";
import { CALLED, differenceTold, moreTold, readingTold } from "./told.js";

/** One sentence: do the sums and the loco agree? */
export function headline({ quantities, outcome }: CompareAnswer): string {
  if (outcome !== "completed") return "By the sums the train does not come as far as the real one did.";
  const telling = quantities.filter(({ name }) => name !== "speed");
  const off = quantities.filter(({ within_doubt }) => !within_doubt).map(({ name }) => CALLED[name]);
  if (off.length > 0)
    return `The loco does not agree with the sums: ${listed(off)} ${off.length === 1 && !/volts/.test(off[0] ?? "") ? "differs" : "differ"} by more than both leave open.`;
  if (telling.length === 0)
    return "The sums can run at the speed that was logged. Nothing else was logged, so nothing else is proved.";
  return "The loco agrees with the sums, as far as the doubt of both goes.";
}

/** Of what the sums have: less is no matter. */
const MORE_DRAWN = 0.05;
const HOTTER_K = 5;

/** Where the real loco is worse than the sums, whatever is left open: what they promise flatters. */
export function flattered({ quantities }: CompareAnswer, eyes: Eyes): string[] {
  const of = (name: Compared) => quantities.find((each) => each.name === name);
  const [drawn, heat] = [of("battery_current"), of("temperature")];
  const share = drawn && drawn.predicted > 0 ? drawn.bias / drawn.predicted : 0;
  return [
    ...(share > MORE_DRAWN
      ? [
          `It drew ${formatPercent(Math.round(100 * share) / 100)} more from the battery than by the sums: count on fewer laps to a charge than they tell.`,
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
  return [
    `By the sums it ${why} after ${eyes.length(came_m)}, having begun at ${eyes.place(from_m)}; the log goes on to ${eyes.length(distance_m)}. What follows is about the part before.`,
  ];
}

export const quantityRows = ({ quantities }: CompareAnswer, eyes: Eyes): string[][] =>
  quantities.map((each) => [
    CALLED[each.name],
    readingTold(each.name, each.logged, eyes),
    readingTold(each.name, each.predicted, eyes),
    sameTold(each, eyes),
    `± ${differenceTold(each.name, each.doubt, eyes)}`,
    each.within_doubt ? "agrees" : "differs",
  ]);

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

/** What a figure is worth in the unit of its key; of what has no single figure, a factor. */
export function figureTold({ path }: Explanation, value: number, eyes: Eyes): string {
  const key = keyAt(path.replaceAll(".*", ".1"));
  if (key?.kind === "quantity") return eyes.of(value, key.dimension);
  if (key?.kind === "number") return figures(value);
  return `${figures(value)} times`;
}

export const explainedUnder = ({ quantities }: CompareAnswer): string =>
  quantities.every(({ within_doubt }) => within_doubt)
    ? "What would take the difference away"
    : "What would explain the difference";

export function explainedInWords({ explained_by, quantities }: CompareAnswer, eyes: Eyes): string[] {
  if (explained_by.length === 0)
    return quantities.every(({ within_doubt }) => within_doubt)
      ? []
      : [
          "No single figure of the files explains it. A drag that is in no figure would: a rubbing brake, a tight chain, a flat tyre of a bearing; or a meter that reads wrongly.",
        ];
  const rows = explained_by.map((each) => {
    const from =
      each.value === 1 && figureTold(each, 1, eyes) === "1 times"
        ? ""
        : `, taken as ${figureTold(each, each.value, eyes)}`;
    const likely = each.likely ? "" : " That is farther off than is likely of it.";
    return `${capital(figureCalled(each.path))}${from}: ${figureTold(each, each.would_be, eyes)} would take away ${partOf(each.share)} of it.${likely}`;
  });
  return explained_by.length > 1 ? [...rows, "Each of them by itself; the log does not tell which it is."] : rows;
}

const partOf = (share: number): string =>
  share > 0.9 ? "nearly all" : share > 0.6 ? "most" : share > 0.4 ? "about half" : "some";
