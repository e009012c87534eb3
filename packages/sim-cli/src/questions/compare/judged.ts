import {
  type CompareAnswer,
  type Compared,
  type Explanation,
  figures,
  formatPercent,
  keyAt,
  mistakenFor,
  type QuantityCompared,
} from "@rideon/sim-core";
import { ENDED_BY } from "../../words/endings.js";
import type { Eyes } from "../../words/eyes.js";
import { capital, listed } from "../../words/lists.js";
import { tooLittle } from "../../words/logged.js";
import { figureCalled } from "../../words/measure.js";
import { CALLED, differenceTold, moreTold, readingTold } from "./told.js";

/** One sentence: do the sums and the loco agree? */
export function headline({ agrees, covers, quantities, outcome }: CompareAnswer): string {
  if (outcome !== "completed") return "By the sums the train does not come as far as the real one did.";
  if (agrees)
    return `The loco agrees with the sums over ${formatPercent(Math.floor(100 * covers.share) / 100)} of the line, its steepest bits among it, as far as the doubt of both goes.`;
  const off = quantities.filter(({ within_doubt }) => !within_doubt);
  if (off.length === 0 && quantities.some(({ name }) => name !== "speed"))
    return `Not told: this log tells too little, for ${covers.share === 0 ? "neither current nor volts nor duty in it tell of the line" : tooLittle(covers)}. Where it was compared it does not differ; what was not run over is not agreed with. Log one whole lap or more, or the line from end to end.`;
  if (off.length === 0)
    return "The sums can run at the speed that was logged. Nothing else was logged, so nothing else is proved.";
  const differ = off.length === 1 && !/volts/.test(CALLED[off[0]?.name ?? "speed"]) ? "differs" : "differ";
  const places = off.some(({ mean_within_doubt }) => !mean_within_doubt) ? "" : " in places";
  return `The loco does not agree with the sums: ${listed(off.map(({ name }) => CALLED[name]))} ${differ}${places} by more than both leave open.`;
}

/** Of what the sums have: less is no matter. */
const MORE_DRAWN = 0.05;
const HOTTER_K = 5;

/** Where the real loco is worse than the sums, whatever is left open: what they promise flatters. */
export function flattered({ quantities, rolls }: CompareAnswer, eyes: Eyes): string[] {
  const of = (name: Compared) => quantities.find((each) => each.name === name);
  const [drawn, heat] = [of("battery_current"), of("temperature")];
  const share = drawn && drawn.predicted > 0 ? drawn.bias / drawn.predicted : 0;
  return [
    ...(share > MORE_DRAWN
      ? [
          `It drew ${formatPercent(Math.round(100 * share) / 100)} more from the battery than by the sums: count on fewer laps to a charge than they tell.`,
        ]
      : []),
    ...(rolls !== null && rolls < 1 - MORE_DRAWN
      ? [
          `By it the train may roll with as little as ${formatPercent(Math.floor(100 * rolls) / 100)} of the resistance that the sums have: count on longer stops, and on running farther, than they tell.`,
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

/** What a figure is worth in the unit of its key; of what has no single figure, a factor. */
export function figureTold({ path }: Explanation, value: number, eyes: Eyes): string {
  const key = keyAt(path.replaceAll(".*", ".1"));
  if (key?.kind === "quantity") return eyes.of(value, key.dimension);
  if (key?.kind === "number") return figures(value);
  return `${figures(value)} times`;
}

export const explainedUnder = ({ agrees }: CompareAnswer): string =>
  agrees === false ? "What would explain the difference" : "What would take the difference away";

export function explainedInWords(answer: CompareAnswer, eyes: Eyes): string[] {
  const read = readWrongly(answer);
  if (read !== undefined) return [read];
  const { explained_by, quantities, from_m, better_from_m } = answer;
  const off = quantities.filter(({ within_doubt }) => !within_doubt);
  const inPlaces = off.filter(({ mean_within_doubt }) => mean_within_doubt);
  const first =
    inPlaces.length > 0
      ? [
          `It differs in places more than in the mean. Look first whether the log begins at ${eyes.place(from_m)} (--from tells another place)${better_from_m === null ? "" : `: begun at about ${eyes.place(Math.round(better_from_m))}, it would lie much better`}. Look then at the line's profile there, and at what was done there that the plan does not have.`,
        ]
      : [];
  const also = answer.meter
    ? [
        `${capital(METER[answer.meter.name] ?? "a meter")} that reads ${figures(answer.meter.reads)} times what flows would explain it as well: hold another beside it.`,
      ]
    : [];
  if (explained_by.length === 0)
    return [...first, ...also, ...(off.length > inPlaces.length && also.length === 0 ? [unexplained(answer)] : [])];
  const rows = explained_by.map((each) => {
    const from =
      each.value === 1 && figureTold(each, 1, eyes) === "1 times"
        ? ""
        : `, taken as ${figureTold(each, each.value, eyes)}`;
    const would =
      each.path === "plan.track.wind" && each.would_be < 0
        ? `${figureTold(each, -each.would_be, eyes)} from behind`
        : figureTold(each, each.would_be, eyes);
    const likely = each.likely ? "" : " That is farther off than is likely of it.";
    return `${capital(figureCalled(each.path))}${from}: ${would} would take away ${partOf(each.share)} of it.${likely}`;
  });
  return [
    ...first,
    ...rows,
    ...also,
    ...(explained_by.length + also.length > 1 ? ["Each of them by itself; the log does not tell which it is."] : []),
  ];
}

const METER: Partial<Record<Compared, string>> = {
  battery_current: "an ammeter, a shunt or a clamp at the battery",
  motor_current: "an ammeter, a shunt or a clamp at the motor",
};

/** Where the log itself is wrong no figure of the files is to be looked for; undefined where it may be right. */
function readWrongly({ speed_unit, better_scale, meter }: CompareAnswer): string | undefined {
  if (speed_unit !== null)
    return `Look first at the unit of the speed: the plan's is ${figures(speed_unit)} times what was logged${mistakenFor(speed_unit)}. With another unit in the heading all of this changes.`;
  if (better_scale !== null)
    return `Look first at the scale of the distance: were a metre of the log ${figures(better_scale)} m of the line's, it would lie much better along it. A wheel's diameter in the logger that is ${better_scale < 1 ? "too large" : "too small"} does so, or a receiver; a button pressed once a lap (a column lap) would hold it.`;
  if (meter?.flowed === false)
    return `Look first at the meter: ${CALLED[meter.name]} was logged at ${figures(meter.reads)} times what the sums have, everywhere alike, and the battery's volts know nothing of it, as they would had it flowed. ${capital(METER[meter.name] ?? "a meter")} reads too ${meter.reads > 1 ? "much" : "little"}, or is set to another size.`;
  return undefined;
}

/** Which way it differs says where to look. */
function unexplained({ quantities }: CompareAnswer): string {
  const drawn = quantities.find(({ name }) => name === "battery_current" || name === "motor_current");
  if (!drawn || drawn.mean_within_doubt) return "No single figure of the files explains it; a meter may read wrongly.";
  return drawn.bias > 0
    ? "No single figure of the files explains it. A drag that is in no figure would: a rubbing brake, a tight chain, a worn bearing; or a meter that reads wrongly."
    : "No single figure of the files explains it. A meter that reads too little would: a clamp that was turned round or not set to zero, a shunt of another size; or a train that was lighter than the plan's.";
}

const partOf = (share: number): string =>
  share > 0.9 ? "nearly all" : share > 0.6 ? "most" : share > 0.4 ? "about half" : "some";
