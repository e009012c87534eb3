import { type FixesAnswer, formatGradient, figures as round } from "@rideon/sim-core";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type Asked, GRADIENTS, nextStep } from "./words.js";

/** How little a receiver's heights tell comes first, then how the track was taken, and its levels. */
export function receivedInWords(answer: FixesAnswer, asked: Asked, without: number): string[] {
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(poorInWords(answer)).map((line) => painted(line, "bold", screen)),
    ...wrapped(taken(answer, without)),
    ...section("Levels, m", table(pointRows(answer), { width: inside, head: POINTS, right: [0, 1, 2, 3, 4] })),
    ...section("Gradients", table(gradientRows(answer), { width: inside, head: GRADIENTS, right: [0, 1] })),
    ...section("What this is good for", wrap(GOOD_FOR, inside)),
    "",
    ...wrapped(nextStep(asked)),
  ];
}

const GOOD_FOR =
  "Length, to a few metres in a hundred, and hills of many metres. Short steep places are drawn flatter than they are, and flat ones steeper. Do not judge by it what a train can stop or hold, nor what it can pull. A level and a staff, a water tube or an inclinometer tells gradients; measure the steepest place with one of them.";

/** Whether any gradient is told, and over what distance 1 in 100 would be. */
function poorInWords({ gradients, received }: FixesAnswer): string {
  const { difference_m, one_in_100_told_over_m, untold } = received;
  const metres = `${round(difference_m)} m`;
  const which =
    untold === gradients.length
      ? "No gradient of this track is told"
      : untold === 0
        ? "Every gradient of this track is told, within wide limits"
        : `Of ${gradients.length} gradients ${untold} are not told at all`;
  return `${which}. Over 50 m, 1 in 100 rises 0.5 m, and two heights of a receiver may differ by ${metres} where there is no rise: 1 in 100 is told only between places more than ${round(one_in_100_told_over_m)} m apart.`;
}

function taken({ received, misclosure_m, adjusted_by, points }: FixesAnswer, without: number): string {
  const { fixes, places, lap } = received;
  const length_m = points.at(-1)?.distance_m ?? 0;
  const parts = [
    `The track has ${fixes} fixes${without > 0 ? `, besides ${without} without a height, which are left out` : ""}; the way is drawn through ${places} of them, and is ${round(length_m)} m long.`,
  ];
  if (lap) parts.push(lapInWords(lap));
  else parts.push("It does not come round to where it was; in the plan write kind: end-to-end under track.");
  if (misclosure_m !== null && Math.abs(misclosure_m) < TOLD_m)
    parts.push("It ends at the height with which it began at the same place, as near as it tells heights.");
  else if (misclosure_m !== null)
    parts.push(
      `It ends ${round(Math.abs(misclosure_m))} m ${misclosure_m < 0 ? "below" : "above"} the height with which it began at the same place; ${adjusted_by === "none" ? "not spread" : "spread by distance"}.`,
    );
  return parts.join(" ");
}

function lapInWords({ before_m, length_m, after_m }: NonNullable<FixesAnswer["received"]["lap"]>): string {
  const left = [
    ...(before_m >= 1 ? [`the ${round(before_m)} m before it`] : []),
    ...(after_m >= 1 ? [`the ${round(after_m)} m after it (${round(after_m / length_m)} laps more)`] : []),
  ];
  const rest = left.length > 0 ? ` The profile is that lap; ${left.join(" and ")} are left out.` : "";
  return `It comes round to where it was after ${round(length_m)} m.${rest}`;
}

/** No height of a receiver is told to less, m. */
const TOLD_m = 0.05;

const POINTS = ["at", "level", "±", "rise", "corrected by"];

/** To the tenth of a metre, which is more than they are good for; no minus before nothing. */
const tenths = (value: number): string => (Math.abs(value) < TOLD_m ? 0 : value).toFixed(1);

const pointRows = ({ points }: FixesAnswer): string[][] =>
  points.map(({ distance_m, level_m, doubt_m, rise_m, correction_m }) => [
    `${round(distance_m ?? 0)} m`,
    tenths(level_m),
    doubt_m === 0 ? "" : tenths(doubt_m),
    rise_m === null ? "" : tenths(rise_m),
    correction_m === 0 ? "" : tenths(correction_m),
  ]);

function told(percent: number): string {
  const steep = formatGradient(Math.abs(percent) / 100);
  return steep === "level" ? steep : `${steep}${percent < 0 ? " down" : " up"}`;
}

const gradientRows = ({ gradients }: FixesAnswer): string[][] =>
  gradients.map(({ from_m, to_m, gradient_percent, doubt_percent }) => {
    const [low, high] = [gradient_percent - doubt_percent, gradient_percent + doubt_percent];
    const within = `${told(low)} to ${told(high)}`;
    const isTold = low > 0 || high < 0;
    return [
      `${round(from_m)} m`,
      `${round(to_m)} m`,
      isTold ? `${told(gradient_percent)} (${within})` : `not told: ${within}`,
    ];
  });
