import {
  formatGradient,
  type LevelsAnswer,
  missesFourthOrder,
  figures as round,
  type UncheckedSight,
  whyCarried,
} from "@rideon/sim-core";
import { listed } from "../../words/lists.js";

/** To the tenth of a millimetre below a centimetre, which is more than a staff is read to. */
export const mm = (value_m: number): string => `${round(Number((1000 * value_m).toFixed(2)))} mm`;

/** Looser than fourth-order levelling, by which a profile's own misclosure is judged, mm √km. */
const LOOSEST_mm = 24;

/**
 * How far a survey can be relied on, in a line: none where its readings alone say so. It goes wherever the profile goes: into
 * its file, and onto its picture.
 */
export function standingInWords(answer: LevelsAnswer): string | undefined {
  const missed = answer.misclosure_m === null ? "" : mm(Math.abs(answer.misclosure_m));
  const allowed = answer.allowed_m === null ? "" : `, and ${mm(answer.allowed_m)} are allowed`;
  switch (whyCarried(answer)) {
    case "class":
      return `NOT accepted: it misses by ${missed}${allowed}`;
    case "unclosed":
      return answer.misclosure_m === null
        ? "NOT checked: it closes on nothing, and a misread reading would not show"
        : "NOT checked behind its last bench mark: nothing closes there, and a misread reading would not show";
    case "readings":
      return missesFourthOrder(answer)
        ? `${answer.accepted === null ? "NOT accepted" : "Accepted by a loose class alone"}: it misses by ${missed}, more than fourth-order levelling allows`
        : `It misses by ${missed}, more than its readings explain`;
    default:
      return undefined;
  }
}

/** What is carried in the doubt of every level and gradient, and why; nothing where readings alone make it. */
export function carriedInWords(answer: LevelsAnswer, slopes: boolean): string {
  const carried_m = answer.sections.reduce((most, each) => Math.max(most, each.carried_m), 0);
  const told = `the whole of ${mm(carried_m)} is counted in the doubt of every level and gradient there`;
  switch (whyCarried(answer)) {
    case "class":
      return `Nothing says which reading is wrong: ${told}.`;
    case "readings":
      return `That is more than its readings explain, and may all lie between two places: ${told}.`;
    case "unclosed": {
      const where = answer.misclosure_m === null ? "" : "Behind the last bench mark nothing closes. ";
      const reading = slopes ? "slope" : "reading";
      // Of a book in which nothing rises.
      if (carried_m === 0) return `${where}A ${reading} that is wrong would not show.`;
      if (slopes)
        return `${where}A slope that is wrong by as much as the most that one of them rises or falls, ${mm(carried_m)}, would not show (common practice, no source): as much is counted in the doubt of every level and gradient there, until the book closes.`;
      const slip = carried_m < 1 ? `as much as the longest, ${mm(carried_m)},` : "a whole metre";
      return `${where}A reading that is wrong by ${slip} would not show (common practice, no source): as much is counted in the doubt of every level and gradient there, until the book closes.`;
    }
    default:
      return "";
  }
}

/** A class that no table of surveyors has. */
export const looseInWords = (
  asked: { class_mm: number; per: "km" | "setups" } | undefined,
  answer: LevelsAnswer,
): string =>
  [
    ...(asked?.per === "km" && asked.class_mm > LOOSEST_mm
      ? [`A class of ${asked.class_mm} mm √km is looser than fourth-order levelling, which allows ${LOOSEST_mm}.`]
      : []),
    ...(missesFourthOrder(answer)
      ? ["By fourth-order levelling it would not be accepted: its profile says so, and nobody rides by it."]
      : []),
  ].join(" ");

const at = ({ distance_m, place }: UncheckedSight): string =>
  distance_m === null ? place : `${round(distance_m)} m${place === "" ? "" : ` (${place})`}`;

/** Sights that closing does not check, and whether the steepest gradient rests on one of them; nothing where there are none. */
export function uncheckedInWords({ unchecked, points, gradients }: LevelsAnswer): string[] {
  if (unchecked.length === 0) return [];
  const named = unchecked.map(at).filter((name) => name !== "");
  const which = named.length > 0 ? `, ${listed(named)}` : "";
  const steepest = gradients.reduce<(typeof gradients)[number] | undefined>(
    (a, b) => (a && Math.abs(a.gradient_percent) >= Math.abs(b.gradient_percent) ? a : b),
    undefined,
  );
  const rests = unchecked.filter(({ point }) =>
    [steepest?.from_m, steepest?.to_m].some((end) => end !== undefined && points[point]?.distance_m === end),
  );
  const by = rests.length > 0 ? `The steepest gradient rests on ${listed(rests.map(at))}: read it again.` : "";
  return [
    `Closing does not check intermediate sights${which}: a staff misread at one of them moves that place alone, and shows nowhere. ${by}`.trim(),
    ...unchecked.filter(({ out_of_line }) => out_of_line).map(outOfLine),
  ];
}

/** Of a sight that alone makes the line steep. */
export function outOfLine(sight: UncheckedSight): string {
  const told = (percent: number | null) => formatGradient((percent ?? 0) / 100);
  const without = told(sight.without_percent);
  return `The intermediate sight at ${at(sight) || "a place without a name"} alone makes the line ${told(sight.steepest_percent)}, steeper than clubs lay them; without it the line would be ${without} there. Read it again.`;
}
