import type { PartLine, PartsAnswer } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import { CAUTION } from "../../ground/caution.js";
import { stopsShort } from "../../words/endings.js";
import { listed } from "../../words/lists.js";
import { assumedNote } from "../../words/notes.js";
import { changeRows, judgedTold, notListed, orderTold, partTold, RULES } from "../../words/parts.js";
import type { Told } from "../../words/ready.js";
import { rail, trainInWords } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import type { Telling } from "../../work/asking.js";
import { ballastTold } from "./ballast.js";
import { couplingRows, shaftRemarks, shaftRows } from "./loads.js";
import type { PartsReady } from "./ready.js";

export const telling: Telling<{ answer: PartsAnswer }, PartsReady> = {
  inWords: partsInWords,
  write(told, outputs) {
    outputs.write("parts.csv", partsCsv(told));
  },
};

/** What will not do first, what is needed, and what there is. */
function partsInWords(told: Told<PartsAnswer, PartsReady>): readonly string[] {
  const { answer, eyes, plan, quiet, all } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const [needed, had] = [answer.lines.filter(({ have }) => !have), answer.lines.filter(({ have }) => have)];
  const rules = [...new Set(answer.lines.map(({ rule }) => RULES[rule]))];
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...notRound(answer).flatMap(wrapped),
    ...wrapped(`${trainInWords(told, plan.train)}; ${rail(told.reading.plan)}.`),
    ...section(
      "Needed, with the figure to order by",
      table(
        needed.map((line) => [partTold(line), orderTold(line, eyes)]),
        { width: inside },
      ),
    ),
    ...section(
      "In the files",
      table(
        had.map((line) => [
          partTold(line),
          [orderTold(line, eyes), judgedTold(line)].filter((each) => each !== "").join(": "),
        ]),
        { width: inside },
      ),
    ),
    ...beyondFirstAxle(answer).flatMap((text) => ["", ...wrapped(text)]),
    ...section(
      "What the other loco would have otherwise",
      answer.changes === null
        ? []
        : answer.changes.length === 0
          ? ["Nothing."]
          : table(changeRows(answer.changes, eyes), { width: inside }),
    ),
    ...besideBeyond(told).flatMap((text) => ["", ...wrapped(text)]),
    ...section(
      "Ballast",
      ballastTold(answer, eyes).flatMap((text) => wrap(text, inside)),
    ),
    ...(all
      ? [
          ...section("What the shafts carry", table(shaftRows(answer, eyes), { width: inside })),
          ...shaftRemarks(answer).flatMap((text) => wrap(text, inside).map((line) => `  ${line}`)),
          ...section("What the couplings carry", table(couplingRows(answer, eyes), { width: inside })),
        ]
      : []),
    ...section(
      "The rules behind it",
      rules.flatMap((rule) => wrap(rule, inside)),
    ),
    "",
    ...(quiet ? [] : wrapped(assumedNote(plan.notes))),
    ...wrapped(CAUTION),
  ];
}

const beyondFirstAxle = ({ lines, shafts }: PartsAnswer): string[] =>
  notListed({
    coupled: shafts.remarks.includes("coupled_axles"),
    axles: (lines.find(({ part }) => part === "wheels")?.count ?? 0) / 2,
  });

/** And of the other loco, where that is told otherwise. */
function besideBeyond({ answer, beside }: Told<PartsAnswer, PartsReady>): string[] {
  if (!beside) return [];
  const { train } = beside.plan;
  const axles = beside.reading.loco.wheels.axles ?? 2;
  const own = beyondFirstAxle(answer);
  return notListed({ coupled: train.shafts.drivenAxles > 1, axles })
    .filter((text) => !own.includes(text))
    .map((text) => text.replace("Not on this list", "Of the other loco, not on this list"));
}

function headline({ lines, needed, wanting, outcome }: PartsAnswer): string {
  const bad = lines.filter(({ enough }) => enough === false).map(partTold);
  const will =
    wanting === 0
      ? `Nothing that is in the files ${outcome === "completed" ? "falls" : "is known to fall"} short of what this line asks`
      : `This will not do as it is: ${listed(bad)}`;
  return `${will}; ${needed === 0 ? "nothing more is needed" : `${needed} ${needed === 1 ? "line" : "lines"} of parts are not in them yet`}.`;
}

/** A list for a train that does not get round is a list for another train. */
const notRound = (answer: PartsAnswer): string[] =>
  stopsShort(
    answer,
    "Put that right first (climb, gears and size tell how). What must be carried for ever is not known before, and nothing is ordered by it here.",
  );

/** A line a part, for a spreadsheet. */
function partsCsv({ answer, eyes }: Told<PartsAnswer>): string {
  const rows = answer.lines.map((line: PartLine) => [
    partTold(line),
    String(line.count),
    line.have ? "have" : "needed",
    orderTold(line, eyes),
    judgedTold(line),
    line.margin === null ? "" : line.margin.toFixed(2),
    RULES[line.rule],
  ]);
  return stringify([["part", "count", "status", "order_by", "judged", "margin", "rule"], ...rows]);
}
