import type { LimitsAnswer, StopRow } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { dayInWords } from "../../words/day.js";
import { shortSpeed } from "../../words/eyes.js";
import { assumedNote } from "../../words/notes.js";
import { doubtfulProfile } from "../../words/profile.js";
import type { Told } from "../../words/ready.js";
import { rail, several, trainInWords } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import type { Telling } from "../../work/asking.js";
import { judgement, tooMany } from "./judgement.js";
import { aboardRows, countedInWords, partedRows, speedCells, standingInWords, stopCells } from "./tables.js";

export const telling: Telling<{ answer: LimitsAnswer }> = { inWords: limitsInWords };

/** The judgement first, what must be done, then each limit. */
function limitsInWords(told: Told<LimitsAnswer>): readonly string[] {
  const { answer, eyes, plan, quiet } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const { said, first } = judgement(answer, eyes);
  return [
    ...wrapped(said).map((line) => painted(line, "bold", screen)),
    ...tooMany(answer).flatMap(wrapped),
    ...doubtfulProfile(plan.notes).flatMap(wrapped),
    ...first.flatMap(wrapped),
    ...wrapped(`${trainInWords(told, plan.train)}; ${rail(told.reading.plan)}. ${countedInWords(answer, eyes)}`),
    ...section("How many aboard, besides the driver", table(aboardRows(answer, eyes), { width: inside, right: [1] })),
    ...section(
      `How fast, with ${several(answer.loaded, "passenger")}`,
      table(speedCells(answer, eyes), { width: inside }),
    ),
    ...section(
      `How it stops from ${fromSpeed(answer.stops, told)}, by who acts`,
      table(stopCells(answer, eyes), { width: inside }),
    ),
    ...section("If a coupling parts", table(partedRows(answer, eyes), { width: inside })),
    ...section("Where it may be left", wrap(standingInWords(answer, eyes), inside)),
    ...section("Between charges", wrap(dayInWords(answer, plan, eyes).said, inside)),
    "",
    ...(quiet ? [] : wrapped(assumedNote(plan.notes))),
    ...wrapped(CAUTION),
  ];
}

const fromSpeed = (stops: readonly StopRow[], { eyes }: Told<LimitsAnswer>): string => {
  const fastest = Math.max(0, ...stops.map(({ speed_mps }) => speed_mps ?? 0));
  return fastest > 0 ? shortSpeed(fastest, eyes) : "the plan's speed";
};
