import type { LevelPoint, LevelsAnswer } from "@rideon/sim-core";
import { extent } from "../../ground/extent.js";
import { type Figure, WIDE } from "../../svg/draw.js";
import { BAND, INKS } from "../../svg/ink.js";
import { about, type Line, type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import { plainly } from "../../svg/units.js";
import { standingInWords } from "./standing.js";
import { levelInWords } from "./words.js";

/** A line that rises less is not drawn as a mountain range, m. */
const LEAST_RISE_m = 0.8;

const POOR = "Heights of a receiver are metres in doubt, and tell no gradients of a railway.";

const endsOf = ({ level_m, doubt_m }: LevelPoint): number[] => [level_m - doubt_m, level_m + doubt_m];

/** From the lowest that each place may lie to the highest. */
const doubtsOf = (points: readonly LevelPoint[]): Line => ({
  name: "lies within",
  ink: BAND,
  x: points.flatMap(({ distance_m }) => [distance_m ?? Number.NaN, distance_m ?? Number.NaN, Number.NaN]),
  y: points.flatMap((point) => [...endsOf(point), Number.NaN]),
});

/** Places that no line joins: what a staff touched that was held upside down. */
const apart = (name: string, points: readonly LevelPoint[]): Line => ({
  name,
  ink: INKS[1],
  x: points.flatMap(({ distance_m }) => [distance_m ?? Number.NaN, Number.NaN]),
  y: points.flatMap(({ level_m }) => [level_m, Number.NaN]),
  dots: true,
});

/** The line from place to place, far steeper than it is. */
export function lineFigure(answer: LevelsAnswer): Figure {
  const received = "received" in answer;
  const standing = standingInWords(answer);
  const placed = answer.points.filter(({ distance_m }) => distance_m !== null);
  const along = placed.filter(({ inverted }) => !inverted);
  const above = placed.filter(({ inverted }) => inverted);
  const x = along.map(({ distance_m }) => distance_m as number);
  const y = along.map(({ level_m }) => level_m);
  const spec: Panel = {
    name: "levels",
    height_px: 160,
    x: { quantity: "along the rail", units: plainly("m along the rail"), range: x.length > 1 ? extent(x) : [0, 1] },
    y: { quantity: "Level", units: plainly("m"), range: about(placed.flatMap(endsOf), LEAST_RISE_m) },
    lines: [
      ...(along.some(({ doubt_m }) => doubt_m > 0) ? [doubtsOf(along)] : []),
      { name: "rail", ink: INKS[0], x, y, dots: true },
      ...(above.length > 0 ? [apart("upside down", above)] : []),
    ],
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
    see: `${received ? POOR : levelInWords(answer)} Heights are drawn far steeper than they are; grey bars are what nineteen in twenty lie within.${above.length > 0 ? " Places read upside down are dots by themselves, and no rail." : ""}`,
    height_px: panelHeight_px(spec),
    body: panel(spec, WIDE, 0),
  };
}
