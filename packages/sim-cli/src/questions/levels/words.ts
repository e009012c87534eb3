import { formatGradient, type LevelsAnswer, figures as round } from "@rideon/sim-core";
import { started } from "../../words/next.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { carriedInWords, looseInWords, mm, uncheckedInWords } from "./standing.js";

export interface Asked {
  kind: "book" | "slopes" | "fixes";
  /** Was the book that of a water tube? */
  tube?: boolean;
  /** Is there a profile to be had? */
  profile: boolean;
  written: readonly string[];
  /** What it may miss by, where that was told. */
  class?: { class_mm: number; per: "km" | "setups" } | undefined;
}

/** Whether it closes first, then levels, gradients and the checks of surveyors. */
export function levelsInWords(answer: LevelsAnswer, asked: Asked): string[] {
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(closes(answer, asked)).map((line) => painted(line, "bold", screen)),
    ...[carriedInWords(answer, asked.kind === "slopes"), looseInWords(asked.class, answer)]
      .filter((text) => text !== "")
      .flatMap(wrapped),
    ...wrapped(levelInWords(answer)),
    ...(asked.kind === "slopes" ? wrapped(SLOPES) : []),
    ...section("Levels, m", table(pointRows(answer), { width: inside, head: POINTS, right: [1, 2, 3, 4, 5] })),
    ...(answer.gradients.length > 0
      ? section("Gradients", table(gradientRows(answer), { width: inside, head: GRADIENTS, right: [0, 1] }))
      : []),
    ...section(
      "Checks",
      [checksInWords(answer, asked), ...uncheckedInWords(answer)].flatMap((text) => wrap(text, inside)),
    ),
    "",
    ...wrapped(nextStep(asked)),
  ];
}

const SLOPES =
  "An inclinometer adds up: a tenth of a degree is 17 mm in every 10 m, and cannot tell 1 in 100 from 1 in 85 by itself. A level and a staff, or a water tube, is ten times as good.";

const NOTHING_m = 5e-6;

/** How a survey that closes on nothing is closed, by what it was surveyed with. */
function closing({ kind, tube }: Asked): string {
  if (kind === "slopes")
    return "no slope that is wrong would show. On a circuit, end with the first place again, at the length of the lap, and give both their known level; on a line with ends, give both ends the levels that a staff or a water tube finds.";
  const again = tube ? "Bring the tube round to the first place again" : "Sight the first place again at the end";
  return `no reading that is wrong would show. ${again}, and give it its known level there.`;
}

function closes(answer: LevelsAnswer, asked: Asked): string {
  const { misclosure_m, allowed_m, accepted, adjusted_by } = answer;
  if (misclosure_m === null) return `The book closes on nothing: ${closing(asked)}`;
  const missed =
    Math.abs(misclosure_m) < NOTHING_m
      ? "The book ends on its bench mark"
      : `The book ends ${mm(Math.abs(misclosure_m))} ${misclosure_m < 0 ? "below" : "above"} its bench mark`;
  const spread =
    adjusted_by === "none" ? "not spread" : `spread by ${adjusted_by === "setups" ? "set-ups" : "distance"}`;
  // Slopes have a doubt of their own, and no class.
  if (answer.checks === null) return `${missed}; ${spread}.`;
  if (allowed_m === null || accepted === null)
    return `${missed}; ${spread}. What is allowed cannot be told without distances.`;
  const look = "Look for a reading that is wrong, or level it again.";
  if (accepted) return `${missed}; ${mm(allowed_m)} are allowed. It is accepted, and ${spread}.`;
  const within = Math.abs(misclosure_m) <= allowed_m;
  const on = within
    ? `${missed}; ${mm(allowed_m)} are allowed`
    : `${missed}, and no more than ${mm(allowed_m)} are allowed`;
  return `${on}${within ? ", but not every bench mark fits" : ""}: it is NOT accepted, and ${spread}. ${[...marksInWords(answer), look].join(" ")}`;
}

/** The bench marks on the way that do not fit the one before. */
const marksInWords = ({ bench_marks }: LevelsAnswer): string[] =>
  bench_marks.slice(0, -1).flatMap(({ place, distance_m, misclosure_m, allowed_m, accepted }) => {
    if (accepted !== false || allowed_m === null) return [];
    const at = [place, ...(distance_m === null ? [] : [`at ${round(distance_m)} m`])]
      .filter((part) => part !== "")
      .join(" ");
    return `At the bench mark ${at} it is ${mm(Math.abs(misclosure_m))} ${misclosure_m < 0 ? "below" : "above"}; ${mm(allowed_m)} more or less than at the one before are allowed.`;
  });

/** How much it rises, and where it is steepest. */
export function levelInWords({ points, gradients }: LevelsAnswer): string {
  const rail = points.filter(({ inverted }) => !inverted);
  const highest_m = rail.reduce((most, { level_m }) => Math.max(most, level_m), Number.NEGATIVE_INFINITY);
  const lowest_m = rail.reduce((least, { level_m }) => Math.min(least, level_m), Number.POSITIVE_INFINITY);
  const steepest = gradients.reduce<(typeof gradients)[number] | undefined>(
    (a, b) => (a && Math.abs(a.gradient_percent) >= Math.abs(b.gradient_percent) ? a : b),
    undefined,
  );
  const where = !steepest
    ? ""
    : isOpen(steepest)
      ? ` The steepest, ${formatGradient(Math.abs(steepest.gradient_percent) / 100)} by these readings, from ${round(steepest.from_m)} m to ${round(steepest.to_m)} m, is not told: ${open(steepest)}.`
      : ` The steepest is ${between(steepest)}, from ${round(steepest.from_m)} m to ${round(steepest.to_m)} m.`;
  const over = points.length - rail.length;
  const above =
    over > 0
      ? ` ${over === 1 ? "One place was" : `${over} places were`} read with the staff upside down, and ${over === 1 ? "is" : "are"} not taken for rail.`
      : "";
  const rise =
    rail.length > 0
      ? `The highest place lies ${round(Number((highest_m - lowest_m).toFixed(4)))} m above the lowest.`
      : "";
  return `${rise}${where}${above}`.trim();
}

/** May it be level, though it does not look so? */
const isOpen = ({ gradient_percent, doubt_percent }: LevelsAnswer["gradients"][number]): boolean =>
  Math.abs(gradient_percent) <= doubt_percent && formatGradient(gradient_percent / 100) !== "level";

const open = ({ gradient_percent, doubt_percent }: LevelsAnswer["gradients"][number]): string =>
  `anything from level to ${formatGradient((Math.abs(gradient_percent) + doubt_percent) / 100)}`;

/** `1 in 71 (1 in 69 to 1 in 73)`; of what is level, or may be, how far from it that may be. */
function between(gradient: LevelsAnswer["gradients"][number]): string {
  const { gradient_percent, doubt_percent } = gradient;
  const told = (percent: number) => formatGradient(Math.max(0, percent) / 100);
  const steep = Math.abs(gradient_percent);
  const least = told(steep - doubt_percent);
  const most = told(steep + doubt_percent);
  if (isOpen(gradient)) return `not told: ${told(steep)}, but ${open(gradient)}`;
  if (least === "level")
    return most === "level"
      ? "level"
      : `level, give or take 1 in ${Number((100 / (steep + doubt_percent)).toPrecision(2))}`;
  return `${told(steep)} (${told(steep + doubt_percent)} to ${least})`;
}

const POINTS = ["place", "at", "level", "±", "rise", "corrected by", ""];

/** To the millimetre, and no minus before nothing. */
const metres = (value: number): string => (Math.abs(value) < 5e-4 ? 0 : value).toFixed(3);

const pointRows = ({ points }: LevelsAnswer): string[][] =>
  points.map(({ place, distance_m, level_m, doubt_m, rise_m, correction_m, known_level_m, inverted }) => [
    place,
    distance_m === null ? "" : `${round(distance_m)} m`,
    metres(level_m),
    doubt_m === 0 ? "" : doubt_m.toFixed(3),
    rise_m === null ? "" : metres(rise_m),
    Math.abs(correction_m) < NOTHING_m ? "" : `${(1000 * correction_m).toFixed(1)} mm`,
    [...(known_level_m === null ? [] : ["bench mark"]), ...(inverted ? ["upside down"] : [])].join(", "),
  ]);

export const GRADIENTS = ["from", "to", "gradient, and nineteen in twenty"];

const gradientRows = ({ gradients }: LevelsAnswer): string[][] =>
  gradients.map((each) => [`${round(each.from_m)} m`, `${round(each.to_m)} m`, `${wayOf(each)}${between(each)}`]);

/** What may be level goes neither way for sure. */
function wayOf({ gradient_percent, doubt_percent }: LevelsAnswer["gradients"][number]): string {
  if (Math.abs(gradient_percent) <= doubt_percent) return "";
  return gradient_percent > 0 ? "up " : "down ";
}

function checksInWords({ checks, setups }: LevelsAnswer, { tube }: Asked): string {
  if (!checks) return "Slopes have no book to add up.";
  const three = metres;
  const { backsights_m, foresights_m, rises_m, falls_m, last_less_first_m, agree } = checks;
  const [back, fore] = tube ? ["Readings behind", "readings ahead"] : ["Backsights", "foresights"];
  const over = `${setups} ${tube ? "reach" : "set-up"}${setups === 1 ? "" : tube ? "es" : "s"}${tube ? " of the tube" : ""}`;
  return `${back} ${three(backsights_m)} less ${fore} ${three(foresights_m)}: ${three(backsights_m - foresights_m)}. Rises ${three(rises_m)} less falls ${three(falls_m)}: ${three(rises_m - falls_m)}. Last level less first: ${three(last_less_first_m)}. ${agree ? "All three agree" : "They do NOT agree"}, over ${over}.`;
}

export function nextStep({ profile, written }: Asked): string {
  const track = written.find((path) => path.endsWith("track.csv"));
  if (!profile) return "No profile can be made: fewer than two places have a distance along the rail.";
  if (track) return `Next: name ${track} in the plan under track, profile, and ask ${started()} check.`;
  return "--out FOLDER writes the profile as track.csv, which every command takes.";
}
