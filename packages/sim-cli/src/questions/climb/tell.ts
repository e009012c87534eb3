import { WIDE } from "../../svg/draw.js";
import { seenBy } from "../../svg/parts.js";
import type { Telling } from "../../work/asking.js";
import { effortFigure } from "./effort.svg.js";
import { loadFigure } from "./load.svg.js";
import { climbInWords } from "./words.js";
import type { ClimbTold } from "./work.js";
import { atReserve, wetGrip_N } from "./work.js";

export const telling: Telling<{ answer: ClimbTold }> = {
  inWords: climbInWords,
  draw(told) {
    const { answer, plan } = told;
    const seen = seenBy(told);
    const beside = {
      low: atReserve(plan, answer.ruling_gradient_compensated_percent / 100),
      wet_N: wetGrip_N(plan, answer.tractive_effort),
    };
    return [
      effortFigure(seen, answer.tractive_effort, beside, WIDE),
      loadFigure(seen, answer, answer.other_rail, WIDE, told.sureness?.bands.passengers_it_can_restart),
    ];
  },
};
