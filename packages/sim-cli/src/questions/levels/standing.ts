import { type LevelsAnswer, figures as round, whyCarried } from "@rideon/sim-core";

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
      return `It misses by ${missed}, more than its readings explain`;
    default:
      return undefined;
  }
}

/** What is carried in the doubt of every level and gradient, and why; nothing where readings alone make it. */
export function carriedInWords(answer: LevelsAnswer): string {
  const carried_m = answer.sections.reduce((most, each) => Math.max(most, each.carried_m), 0);
  const told = `the whole of ${mm(carried_m)} is counted in the doubt of every level and gradient there`;
  switch (whyCarried(answer)) {
    case "class":
      return `Nothing says which reading is wrong: ${told}.`;
    case "readings":
      return `That is more than its readings explain, and may all lie between two places: ${told}.`;
    case "unclosed": {
      const where = answer.misclosure_m === null ? "" : "Behind the last bench mark nothing closes. ";
      const slip = carried_m < 1 ? `its longest reading, ${mm(carried_m)},` : "a whole metre";
      return `${where}A reading that is wrong by ${slip} would not show (common practice, no source): as much is counted in the doubt of every level and gradient there, until the book closes.`;
    }
    default:
      return "";
  }
}

/** A class that no table of surveyors has. */
export const looseInWords = (asked: { class_mm: number; per: "km" | "setups" } | undefined): string =>
  asked?.per === "km" && asked.class_mm > LOOSEST_mm
    ? `A class of ${asked.class_mm} mm √km is looser than fourth-order levelling, which allows ${LOOSEST_mm}.`
    : "";
