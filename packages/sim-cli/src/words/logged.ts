import { formatPercent, type LogSays } from "@rideon/sim-core";

/** What a logged run says of the sums, as page and card tell it. */
export interface LogWords {
  /** A sentence. */
  said: string;
  /** A few words, for a card. */
  short: string;
}

/** @param logged the core's judgement; undefined where no log was given */
export function logInWords(logged: LogSays | undefined): LogWords | undefined {
  if (!logged) return undefined;
  const { agrees, covers } = logged;
  const over = `over ${formatPercent(Math.floor(100 * covers.share) / 100)} of the line`;
  if (agrees) {
    const where = `${over}, its steepest bits among it`;
    return { said: `A logged run agrees with these sums ${where}.`, short: `agrees ${where}` };
  }
  if (agrees === false) return { said: "A logged run does not agree with these sums.", short: "DOES NOT AGREE" };
  const why = covers.share === 0 ? "neither current nor volts nor duty in it tell of the line" : tooLittle(covers);
  return {
    said: `A logged run tells too little of these sums: ${why}. What was not run over is not agreed with, and what stands here is by the sums alone.`,
    short: `NOT TOLD: ${why}`,
  };
}

/** What is wanting of the line. */
export function tooLittle({ share, steepest }: LogSays["covers"]): string {
  const over = `it tells of ${formatPercent(Math.floor(100 * share) / 100)} of the line`;
  return steepest ? over : `${over}, without its steepest bits`;
}

/** Beside every figure that people drive by, where a log has shown that the sums are of another train. */
export const NOT_COUNTED = "Not to be counted on: the logged run does not agree with these sums";

export const isCounted = (logged: LogSays | undefined): boolean => logged?.agrees !== false;
