import { formatGradient, type LevelsAnswer, figures as round } from "@rideon/sim-core";
import { started } from "../../words/next.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";

export interface Asked {
  kind: "book" | "slopes" | "fixes";
  /** Is there a profile to be had? */
  profile: boolean;
  written: readonly string[];
}

/** Whether it closes first, then levels, gradients and the checks of surveyors. */
export function levelsInWords(answer: LevelsAnswer, asked: Asked): string[] {
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(closes(answer)).map((line) => painted(line, "bold", screen)),
    ...wrapped(levelInWords(answer)),
    ...(asked.kind === "slopes" ? wrapped(SLOPES) : []),
    ...section("Levels, m", table(pointRows(answer), { width: inside, head: POINTS, right: [1, 2, 3, 4, 5] })),
    ...section("Gradients", table(gradientRows(answer), { width: inside, head: GRADIENTS, right: [0, 1] })),
    ...section("Checks", wrap(checksInWords(answer), inside)),
    "",
    ...wrapped(nextStep(asked)),
  ];
}

const SLOPES =
  "An inclinometer adds up: a tenth of a degree is 17 mm in every 10 m, and cannot tell 1 in 100 from 1 in 85 by itself. A level and a staff, or a water tube, is ten times as good.";

const mm = (value_m: number): string => `${round(1000 * value_m)} mm`;

function closes(answer: LevelsAnswer): string {
  const { misclosure_m, allowed_m, accepted, adjusted_by } = answer;
  if (misclosure_m === null)
    return "The book closes on nothing: no reading that is wrong would show. Sight the first place again at the end, and give it its known level there.";
  const missed = `The book ends ${mm(Math.abs(misclosure_m))} ${misclosure_m < 0 ? "below" : "above"} its bench mark`;
  const spread =
    adjusted_by === "none" ? "not spread" : `spread by ${adjusted_by === "setups" ? "set-ups" : "distance"}`;
  if (allowed_m === null || accepted === null)
    return `${missed}; ${spread}. What is allowed cannot be told without distances.`;
  return accepted
    ? `${missed}; ${mm(allowed_m)} are allowed. It is accepted, and ${spread}.`
    : `${missed}, and no more than ${mm(allowed_m)} are allowed: it is NOT accepted, and ${spread}. Look for a reading that is wrong, or level it again.`;
}

/** How much it rises, and where it is steepest. */
export function levelInWords({ points, gradients }: LevelsAnswer): string {
  const levels = points.map(({ level_m }) => level_m);
  const rise = Math.max(...levels) - Math.min(...levels);
  const steepest = gradients.reduce<(typeof gradients)[number] | undefined>(
    (a, b) => (a && Math.abs(a.gradient_percent) >= Math.abs(b.gradient_percent) ? a : b),
    undefined,
  );
  const where = steepest
    ? ` The steepest is ${between(steepest)}, from ${round(steepest.from_m)} m to ${round(steepest.to_m)} m.`
    : "";
  return `The highest place lies ${round(rise)} m above the lowest.${where}`;
}

/** `1 in 71 (1 in 69 to 1 in 73)`; of what is level, how far from it that may be. */
function between({ gradient_percent, doubt_percent }: LevelsAnswer["gradients"][number]): string {
  const told = (percent: number) => formatGradient(Math.max(0, percent) / 100);
  const steep = Math.abs(gradient_percent);
  const least = told(steep - doubt_percent);
  if (least === "level") return `level, give or take ${told(steep + doubt_percent)}`;
  return `${told(steep)} (${told(steep + doubt_percent)} to ${least})`;
}

const POINTS = ["place", "at", "level", "±", "rise", "corrected by", ""];

/** To the millimetre, and no minus before nothing. */
const metres = (value: number): string => (Math.abs(value) < 5e-4 ? 0 : value).toFixed(3);

const pointRows = ({ points }: LevelsAnswer): string[][] =>
  points.map(({ place, distance_m, level_m, doubt_m, rise_m, correction_m, known_level_m }) => [
    place,
    distance_m === null ? "" : `${round(distance_m)} m`,
    metres(level_m),
    doubt_m === 0 ? "" : doubt_m.toFixed(3),
    rise_m === null ? "" : metres(rise_m),
    correction_m === 0 ? "" : `${(1000 * correction_m).toFixed(1)} mm`,
    known_level_m === null ? "" : "bench mark",
  ]);

export const GRADIENTS = ["from", "to", "gradient, and nineteen in twenty"];

const gradientRows = ({ gradients }: LevelsAnswer): string[][] =>
  gradients.map((each) => [`${round(each.from_m)} m`, `${round(each.to_m)} m`, `${wayOf(each)}${between(each)}`]);

/** What may be level goes neither way for sure. */
function wayOf({ gradient_percent, doubt_percent }: LevelsAnswer["gradients"][number]): string {
  if (Math.abs(gradient_percent) <= doubt_percent) return "";
  return gradient_percent > 0 ? "up " : "down ";
}

function checksInWords({ checks, setups }: LevelsAnswer): string {
  if (!checks) return "Slopes have no book to add up.";
  const three = (value: number) => value.toFixed(3);
  const { backsights_m, foresights_m, rises_m, falls_m, last_less_first_m, agree } = checks;
  return `Backsights ${three(backsights_m)} less foresights ${three(foresights_m)}: ${three(backsights_m - foresights_m)}. Rises ${three(rises_m)} less falls ${three(falls_m)}: ${three(rises_m - falls_m)}. Last level less first: ${three(last_less_first_m)}. ${agree ? "All three agree" : "They do NOT agree"}, over ${setups} set-up${setups === 1 ? "" : "s"}.`;
}

export function nextStep({ profile, written }: Asked): string {
  const track = written.find((path) => path.endsWith("track.csv"));
  if (!profile) return "No profile can be made: fewer than two places have a distance along the rail.";
  if (track) return `Next: name ${track} in the plan under track, profile, and ask ${started()} check.`;
  return "--out FOLDER writes the profile as track.csv, which every command takes.";
}
