import type { WiringAnswer } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { assumedNote } from "../../words/notes.js";
import type { Told } from "../../words/ready.js";
import { rail, trainInWords } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import type { Telling } from "../../work/asking.js";
import { firstWords } from "./first.js";
import { wiringPage } from "./page.js";
import { schematicFigure } from "./schematic.svg.js";
import { METER_HEAD, meterRows, standingTold, stepsOf } from "./steps.js";
import { CABLE_HEAD, cableRows, headline, notRound, pathRows } from "./told.js";

export const telling: Telling<{ answer: WiringAnswer }> = {
  inWords: wiringInWords,
  draw: ({ answer }) => [schematicFigure(answer)],
  write(told, outputs) {
    outputs.write("wiring.html", wiringPage(told));
  },
};

/** What is missing or will not do first; then the path, the cables, the order of connecting, and what a meter shows. */
function wiringInWords(told: Told<WiringAnswer>): readonly string[] {
  const { answer, eyes, plan, quiet } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const numbered = stepsOf(answer, eyes).map((step, i) => [`${i + 1}.`, step]);
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...notRound(answer).flatMap(wrapped),
    ...wrapped(`${trainInWords(told, plan.train)}; ${rail(told.reading.plan)}.`),
    ...section("How the power goes", table(pathRows(answer), { width: inside })),
    ...section("Cables, both leads together", [
      ...table(cableRows(answer), { width: inside, head: CABLE_HEAD, right: [1, 2, 3, 4, 5, 6] }),
      ...wrap(standingTold(answer), inside),
    ]),
    ...section(
      "Before anything is joined",
      firstWords(answer, eyes).flatMap((text) => wrap(text, inside)),
    ),
    ...section("The order of connecting", table(numbered, { width: inside })),
    ...section(
      "What a voltmeter shows, from the battery's −",
      table(meterRows(answer, eyes), { width: inside, head: METER_HEAD }),
    ),
    "",
    ...(quiet ? [] : wrapped(assumedNote(plan.notes))),
    ...wrapped(CAUTION),
  ];
}
