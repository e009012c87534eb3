import { existsSync, readFileSync } from "node:fs";
import { csvText } from "../../files/csv.js";
import { splitRows } from "../../read/csv/csv.js";
import { TOLD } from "../../read/readings/told.js";
import { evidenceWords } from "./ranked/evidence.js";
import { cautionOf } from "./sheet/steps.js";
import type { TrialTold } from "./told.js";
import { readingUnit } from "./units.js";

/** The answer with what people read beside the figures: a caution for every step, the evidence in words. */
export function trialJson(told: TrialTold): object {
  const { steps, causes } = told.answer;
  return {
    ...told.answer,
    steps: steps.map((step) => ({ ...step, caution: cautionOf(told, step.step) })),
    causes:
      causes?.map(({ evidence, ...cause }) => ({
        ...cause,
        evidence: evidenceWords({ cause: cause.cause, evidence }, told).join("; "),
        evidence_readings: evidence,
      })) ?? null,
    priors: told.filled?.priors ?? null,
  };
}

/** A sheet to fill in: every reading's name, its value blank, what to read as the note. */
export function sheetCsv({ answer, eyes }: TrialTold): string {
  const rows = answer.steps.flatMap(({ readings }) =>
    readings.map(({ reading, what, unit, or_else }) => [
      reading,
      "",
      `${what} [${readingUnit(unit, eyes)}${or_else ? `, or ${or_else.answer}` : ""}]`,
    ]),
  );
  const day = toldRows(answer, eyes).map(({ row, what }) => [row, "", what]);
  return `# Leave blank what was not read. A number without its unit is taken in the one in brackets. Then: rideon trial --readings sheet.csv\n${csvText([["reading", "value", "note"], ...rows, ...day])}`;
}

/** Rows that tell how it was on the day, where something was read under way. */
export const toldRows = ({ steps }: TrialTold["answer"], eyes: TrialTold["eyes"]): { row: string; what: string }[] =>
  steps.some(({ step }) => step === "first_run")
    ? TOLD.map(({ row, what, unit }) => ({
        row,
        what: `${what} [${unit === undefined ? "%" : readingUnit(unit, eyes)}]`,
      }))
    : [];

/** May a new sheet take this one's place? Not one that somebody has written in, nor one that is no sheet of ours. */
export function isBlankSheet(path: string): boolean {
  if (!existsSync(path)) return true;
  let odd = false;
  const rows = splitRows(readFileSync(path, "utf8"), () => {
    odd = true;
  });
  const [header, ...lines] = rows ?? [];
  const at = header?.cells.indexOf("value") ?? -1;
  return !odd && at >= 0 && lines.every(({ cells }) => (cells[at] ?? "") === "");
}
