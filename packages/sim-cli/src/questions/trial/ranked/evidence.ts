import type { CauseName, Evidence, RankedCause } from "@rideon/sim-core";
import { capital } from "../../../words/lists.js";
import { readingLabel } from "../sheet/labels.js";
import type { TrialTold } from "../told.js";
import { readingValue } from "../units.js";
import { asFarAsKnown, CALLED, causeWords } from "./causes.js";
import { percent, plainly } from "./chance.js";

/** Why a cause is likely: what was read, what it has there, and what a sound loco reads. */
export function evidenceWords({ cause, evidence }: Pick<RankedCause, "cause" | "evidence">, told: TrialTold): string[] {
  if (cause === "nothing_wrong") return ["every reading is about what a sound loco has"];
  if (cause === "none_of_these") return ["no fault by itself has all these readings"];
  if (evidence.length === 0) return ["nothing that was read tells it from a sound loco"];
  return evidence.map((row) => rowWords(row, "this cause", CALLED.nothing_wrong, told));
}

/** `running on the level, speed: 0.0 mph (this cause 0.0 mph; a sound loco 4.1 mph)`. */
function rowWords(
  { reading, unit, read, this_cause, other }: Evidence,
  mine: string,
  others: string,
  { eyes }: TrialTold,
) {
  const [found, has, there] = [read, this_cause, other].map((value) => readingValue(value, unit, eyes));
  return `${readingLabel(reading)}: ${found} (${mine} ${has}; ${others} ${there})`;
}

/** The second of them, and why it is less likely. */
export function runnerUp(told: TrialTold, first: RankedCause, second: RankedCause): string[] {
  if (second.probability < NEGLIGIBLE) return [];
  const chance = `${capital(plainly(second.probability))} (${percent(second.probability)}): ${causeWords(asFarAsKnown(second), told)}.`;
  if (second.cause === "none_of_these") return [chance];
  if (first.cause === "none_of_these") return [`${chance} Of the faults known here it comes nearest.`];
  const why = second.against.map((row) => rowWords(row, CALLED[first.cause], CALLED[second.cause], told));
  if (why.length === 0) return [`${chance} What was read hardly tells the two apart.`];
  return [`${chance} Less likely because of:`, ...why];
}

const NEGLIGIBLE = 1e-6;

/** All of these are alike from the seat: slow, or standing, with current flowing. */
const ALIKE: readonly CauseName[] = [
  "held_wheel",
  "dragging_brake_or_tight_chain",
  "flat_battery",
  "bad_joint",
  "wrong_sprocket_or_wheel",
];
/** Likelier than this, a cause is not told to be out of it; the second is told by itself. */
const OUT = 0.02;

export function notThese({ eyes }: TrialTold, causes: readonly RankedCause[]): string[] {
  const out = causes
    .slice(1)
    .filter(({ cause, probability }, i) => ALIKE.includes(cause) && probability < (i === 0 ? NEGLIGIBLE : OUT));
  return out.flatMap(({ cause, against: [row] }) => {
    if (!row) return [];
    const [found, would] = [row.read, row.other].map((value) => readingValue(value, row.unit, eyes));
    return [`${CALLED[cause]}: ${readingLabel(row.reading)} would be ${would}, and ${found} was read`];
  });
}
