import type { LapsAnswer } from "@rideon/sim-core";
import { eventsCsv } from "../../files/csv.js";
import { WIDE } from "../../svg/draw.js";
import { seenBy } from "../../svg/parts.js";
import type { Detailed } from "../../words/events.js";
import type { Telling } from "../../work/asking.js";
import { chargeFigure } from "./charge.svg.js";
import { lapsInWords } from "./words.js";

export const telling: Telling<{ answer: Detailed<LapsAnswer> }> = {
  inWords: lapsInWords,
  draw: (told) => [chargeFigure(seenBy(told), told.answer, WIDE, told.sureness?.bands.laps_to_reserve)],
  write: ({ answer }, outputs) => outputs.write("events.csv", eventsCsv(answer.events)),
};
