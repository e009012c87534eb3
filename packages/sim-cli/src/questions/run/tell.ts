import { eventsCsv } from "../../files/csv.js";
import { WIDE } from "../../svg/draw.js";
import { seenBy } from "../../svg/parts.js";
import type { Telling } from "../../work/asking.js";
import { energyFigure } from "./energy.svg.js";
import { lapFigure } from "./lap.svg.js";
import { runInWords } from "./words.js";
import type { RunWorked } from "./work.js";

export const telling: Telling<RunWorked> = {
  inWords: runInWords,
  draw: (told) => [
    lapFigure(seenBy(told), told.picture, told.answer, WIDE),
    energyFigure(told.answer.energy_balance, Math.max(1, told.answer.laps), WIDE),
  ],
  write: ({ answer }, outputs) => outputs.write("events.csv", eventsCsv(answer.events)),
};
