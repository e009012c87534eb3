import type { LevelsAnswer } from "@rideon/sim-core";
import { extent } from "../../ground/extent.js";
import { type Figure, WIDE } from "../../svg/draw.js";
import { INKS } from "../../svg/ink.js";
import { about, type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import { plainly } from "../../svg/units.js";
import { standingInWords } from "./standing.js";
import { levelInWords } from "./words.js";

/** A line that rises less is not drawn as a mountain range, m. */
const LEAST_RISE_m = 0.8;

const POOR = "Heights of a receiver are metres in doubt, and tell no gradients of a railway.";

/** The line from place to place, far steeper than it is. */
export function lineFigure(answer: LevelsAnswer): Figure {
  const received = "received" in answer;
  const standing = standingInWords(answer);
  const along = answer.points.filter(({ distance_m, inverted }) => distance_m !== null && !inverted);
  const x = along.map(({ distance_m }) => distance_m as number);
  const y = along.map(({ level_m }) => level_m);
  const spec: Panel = {
    name: "levels",
    height_px: 160,
    x: { quantity: "along the rail", units: plainly("m along the rail"), range: x.length > 1 ? extent(x) : [0, 1] },
    y: { quantity: "Level", units: plainly("m"), range: about(y, LEAST_RISE_m) },
    lines: [{ name: "rail", ink: INKS[0], x, y, dots: true }],
    posts: along.filter(({ place }) => place !== "").map(({ distance_m }) => distance_m as number),
    foot: true,
  };
  return {
    name: "levels",
    title: received
      ? "The line by a receiver's heights"
      : standing === undefined
        ? "The line as levelled"
        : `The line as levelled. ${standing}`,
    see: `${received ? POOR : levelInWords(answer)} Heights are drawn far steeper than they are.`,
    height_px: panelHeight_px(spec),
    body: panel(spec, WIDE, 0),
  };
}
