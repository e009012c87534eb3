import type { Notes } from "../errors.js";
import type { Unfit } from "../parts/track.columns.js";
import { leant, type Track } from "../parts/track.js";
import { formatGradient } from "../units/format.js";
import { type Gradients, gradientsFelt } from "./line.js";
import type { Rolling } from "./rolling.js";

/**
 * A profile that leaves the gradient under a train more open than this is not good enough to act on: 1 in 400, about a
 * quarter of what good bearings hold back (common practice, no source). An inclinometer laid post by post is just better.
 */
export const MOST_DOUBT = 1 / 400;

/** How far the survey's own doubt reaches, where the profile tells it. */
export interface Surveyed {
  /** Steepest uphill that the train feels by the heights as they stand; and as steep as they leave open. */
  readonly steepest: number;
  readonly steepest_counted: number;
  /** By so much more, uphill or downhill, whichever is greater. */
  readonly doubt: number;
  /** Why nobody may ride by it, however small its doubt; null where nothing says so. */
  readonly levelling: Unfit | null;
}

/** Can stops, restarts and parking be judged by it? */
export const isFit = ({ doubt, levelling }: Surveyed): boolean => levelling === null && doubt <= MOST_DOUBT;

/** As the whole train feels it, whichever way it runs; null where the profile tells nothing of its survey. */
export function surveyedFor(train: Rolling, track: Track): Surveyed | null {
  const counted = leant(track, 1);
  if (counted === track && track.levelling === null) return null;
  const [plain, up, down] = [track, counted, leant(track, -1)].map((each) => gradientsFelt(train, each));
  // On the way back of a line its falls are its rises.
  const rise = (uphill: Gradients, downhill: Gradients) =>
    track.kind === "circuit" ? uphill.up.share : Math.max(uphill.up.share, -downhill.down.share);
  return {
    steepest: rise(plain, plain),
    steepest_counted: rise(up, down),
    doubt: Math.max(up.up.share - plain.up.share, plain.down.share - down.down.share),
    levelling: track.levelling,
  };
}

/** What is wrong with the levelling, and what mends it. */
const WHY: Readonly<Record<Unfit, string>> = {
  "not accepted":
    "its levelling was not accepted, and nothing says which reading is wrong, so that any of its gradients may be. Find the reading, or level it again, before anybody rides",
  "not closed":
    "its levelling closes on nothing, and a misread reading would not show, so that any of its gradients may be wrong. Close it on its first place or on a second bench mark before anybody rides",
  "by receiver":
    "its heights are those of a receiver, metres in doubt. Measure the gradients with a level and staff, a water tube or an inclinometer before anybody rides",
};

/** Warns of a profile that cannot bear a judgement. The steepest it names may not be there. */
export function lookForDoubt(train: Rolling, track: Track, notes: Notes): void {
  const surveyed = surveyedFor(train, track);
  if (!surveyed || isFit(surveyed)) return;
  const push = (message: string) =>
    notes.warnings.push({ code: "doubtful_profile", path: "plan.track.profile", message });
  if (surveyed.levelling !== null) push(`the profile is not good enough to act on: ${WHY[surveyed.levelling]}`);
  if (surveyed.doubt <= MOST_DOUBT) return;
  const { steepest, steepest_counted, doubt } = surveyed;
  const level = formatGradient(steepest) === "level";
  const there = level
    ? `the line, level by these heights, may somewhere be as steep as ${formatGradient(steepest_counted)}`
    : steepest <= doubt
      ? `the steepest bit, ${formatGradient(steepest)}, lies within what they leave open and may not be there, and elsewhere it may be as steep as ${formatGradient(steepest_counted)}`
      : `the steepest bit, ${formatGradient(steepest)}, may be as steep as ${formatGradient(steepest_counted)}`;
  const message = `the profile is not good enough to act on: its gradients may be off by ${formatGradient(doubt)} either way under this train, so that ${there}. Stops, restarts and parking are judged by the steeper, and laps, heat and charge by the heights as they stand. Measure the gradients before anybody rides`;
  push(message);
}
