import { WIDE } from "../../svg/draw.js";
import { seenBy } from "../../svg/parts.js";
import type { Telling } from "../../work/asking.js";
import { stoppingFigure } from "./stopping.svg.js";
import { brakesInWords } from "./words.js";
import type { BrakesWorked } from "./work.js";

export const telling: Telling<BrakesWorked> = {
  inWords: brakesInWords,
  draw(told) {
    const { answer, picture } = told;
    if (!picture) return [];
    return answer.rails.map(({ rail }) => {
      const rows = answer.rows.filter((row) => row.rail === rail);
      const figure = stoppingFigure(
        seenBy(told),
        picture,
        rows,
        answer.sight_m,
        WIDE,
        [],
        rail === answer.rails.at(-1)?.rail ? told.sureness?.bands : {},
      );
      return { ...figure, title: `${figure.title}: ${rail} rail` };
    });
  },
};
