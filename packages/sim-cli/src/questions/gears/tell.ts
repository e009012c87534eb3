import type { GearsAnswer } from "@rideon/sim-core";
import { WIDE } from "../../svg/draw.js";
import { seenBy } from "../../svg/parts.js";
import type { Telling } from "../../work/asking.js";
import { gearsFigure } from "./gears.svg.js";
import { gearsInWords } from "./words.js";

export const telling: Telling<{ answer: GearsAnswer }> = {
  inWords: gearsInWords,
  draw: (told) => [gearsFigure(seenBy(told), told.answer, WIDE)],
};
