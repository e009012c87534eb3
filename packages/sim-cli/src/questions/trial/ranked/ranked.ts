import { type CauseName, figures, type RankedCause } from "@rideon/sim-core";
import { capital } from "../../../words/lists.js";
import { cautionOf, TITLE } from "../sheet/steps.js";
import type { TrialTold } from "../told.js";
import { readingValue } from "../units.js";
import { asFarAsKnown, CALLED, causeWords, isNamed } from "./causes.js";
import { percent, plainly } from "./chance.js";
import { evidenceWords, notThese, runnerUp } from "./evidence.js";
import { REMEDY } from "./remedies.js";

/** The causes ranked, in words. */
export interface RankedWords {
  headline: string;
  causes: CauseLine[];
  /** The second, and line by line why it is not the first; nothing where there is hardly a second. */
  runnerUp: string[];
  /** What looks like it from the seat, and by which reading it is not that. */
  notThese: string[];
  remedy: { heading: string; text: string };
  /** What was thought likelier beforehand; "" where nothing was. */
  priors: string;
  next: NextWords | undefined;
}

export interface CauseLine {
  chance: string;
  what: string;
  evidence: string[];
}

export interface NextWords {
  /** "Read next", or that what was read is to be read again. */
  heading: string;
  reading: string;
  what: string;
  /** What to beware of there. */
  caution: string;
  would: { cause: string; value: string }[];
}

/** Causes that are worth a line: as likely as this, and at most so many. */
const WORTH = 0.01;
const TOLD = 5;
/** Less likely than this, the first of them is no answer yet. */
const LEADS = 0.5;

/** @param causes as ranked, the likeliest first */
export function rankedWords(told: TrialTold, causes: readonly RankedCause[]): RankedWords {
  const [first, second] = causes;
  if (!first) throw new Error("there is always a likeliest cause");
  const likely = causes.filter(({ probability }, i) => i === 0 || (probability >= WORTH && i < TOLD));
  return {
    headline: headline(told, first),
    causes: likely.map((cause) => ({
      chance: percent(cause.probability),
      what: causeWords(asFarAsKnown(cause), told),
      evidence: [...waysWords(cause), ...evidenceWords(cause, told)],
    })),
    runnerUp: second ? runnerUp(told, first, second) : [],
    notThese: notThese(told, causes),
    remedy: { heading: first.probability < LEADS ? "What to do if it is" : "What to do", text: REMEDY[first.cause] },
    priors: priorsWords(told),
    next: nextWords(told),
  };
}

/** `which: a chain too tight 48 %, a brake on a car 20 %`, where that is not known yet. */
function waysWords(cause: RankedCause): string[] {
  if (isNamed(cause)) return [];
  const told = cause.ways.filter(({ probability }) => probability >= WORTH);
  return told.length < 2 ? [] : [`which: ${told.map((way) => `${way.where} ${percent(way.probability)}`).join("; ")}`];
}

function headline(told: TrialTold, first: RankedCause): string {
  const chance = `${plainly(first.probability)} (${percent(first.probability)})`;
  if (first.cause === "none_of_these" && several(told))
    return `It does not read as a sound loco does, and none of the faults known here fits by itself, ${chance}: read the odd ones again before anything is changed.`;
  if (first.cause === "none_of_these")
    return `None of the faults known here fits what was read, ${chance}: read the odd ones again before anything is changed.`;
  if (first.probability < LEADS)
    return `No cause stands out yet. The likeliest, ${chance}: ${causeWords(asFarAsKnown(first), told)}.`;
  if (first.cause === "nothing_wrong")
    return `Nothing is wrong, ${chance}: what was read is about what a sound loco reads.`;
  return `${capital(chance)}: ${causeWords(asFarAsKnown(first), told)}.`;
}

/** Are several lines outside their bands? */
const several = ({ answer: { taken } }: TrialTold): boolean =>
  (taken ?? []).filter(({ outside }) => outside).length > 2;

function priorsWords({ filled }: TrialTold): string {
  const given = Object.entries(filled?.priors ?? {}).map(
    ([cause, by]) => `${CALLED[cause as CauseName]} ${figures(by)} times`,
  );
  return given.length === 0 ? "" : `Taken as likelier than usual before anything was read: ${given.join(", ")}.`;
}

function nextWords(told: TrialTold): NextWords | undefined {
  const { answer, eyes } = told;
  const { next_reading: next } = answer;
  if (!next) return undefined;
  return {
    heading: next.again ? "Read this again first" : next.step === "looks" ? "Look next" : "Read next",
    reading: next.reading,
    what: `${TITLE[next.step]}: ${next.what}`.replace(/[^?]$/, "$&."),
    caution: cautionOf(told, next.step),
    would: next.would_read.map(({ cause, where, value }) => ({
      cause: where === "" ? CALLED[cause] : `${CALLED[cause]}: ${where}`,
      value: readingValue(value, next.unit, eyes),
    })),
  };
}
