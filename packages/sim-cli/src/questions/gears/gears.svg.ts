import type { GearsAnswer } from "@rideon/sim-core";
import { type Figure, HALO, type Sheet, tag, words } from "../../svg/draw.js";
import type { Seen } from "../../svg/parts.js";
import { shownIn } from "../../svg/units.js";

const MOST_ROWS = 12;
/** Here the names stand above their bars. */
const NARROW_px = 500;

/** Sprocket choices in their order, each with bars for its speed and its steepest restart beside what is wanted. */
export function gearsFigure({ units, eyes }: Seen, answer: GearsAnswer, sheet: Sheet): Figure {
  const rows = answer.rows.slice(0, MOST_ROWS);
  const narrow = sheet.width_px < NARROW_px;
  const names_px = narrow ? 6 : 190;
  const row_px = narrow ? 44 : 34;
  const half_px = (sheet.width_px - names_px - 30) / 2;
  const lefts = [names_px, names_px + half_px + 20] as const;
  const most = [
    Math.max(answer.wanted_speed_mps, ...rows.map(({ speed_mps }) => speed_mps)),
    Math.max(answer.ruling_gradient_compensated_percent, ...rows.map((row) => row.restart_gradient_percent)),
  ] as const;
  // A train that goes nowhere has bars of no width, and no scale to be drawn to.
  const wide = (which: 0 | 1, value: number) =>
    most[which] > 0 ? (half_px * 0.66 * Math.max(0, value)) / most[which] : 0;
  const body = rows.map((row, i) => {
    const y = 46 + i * row_px;
    const bar = narrow ? y + 16 : y;
    const teeth = row.teeth.map(([driving, driven]) => `${driving}:${driven}`).join(" × ");
    const bars = ([0, 1] as const).map((which) => {
      const value = which === 0 ? row.speed_mps : row.restart_gradient_percent;
      const text = which === 0 ? `${round(shownIn(value, units.speed))} ${units.speed.unit}` : `${round(value)} %`;
      const fill = which === 0 ? "#0072B2" : "#E69F00";
      return (
        tag("rect", {
          x: lefts[which],
          y: bar,
          width: wide(which, value),
          height: 16,
          fill,
          "data-bar": which === 0 ? "speed" : "restart",
        }) + words(lefts[which] + wide(which, value) + 5, bar + 13, text, HALO)
      );
    });
    const faults =
      row.faults.length === 0
        ? "no fault found"
        : `${row.faults.length} ${row.faults.length === 1 ? "fault" : "faults"}`;
    return (
      words(4, y + 9, `${i + 1}. ${teeth}`, { "font-weight": 600 }) +
      words(narrow ? sheet.width_px - 6 : 4, narrow ? y + 9 : y + 24, faults, {
        "font-size": 0.88 * sheet.font_px,
        "text-anchor": narrow ? "end" : undefined,
      }) +
      bars.join("")
    );
  });
  const height = 46 + rows.length * row_px + 6;
  const wanted = ([answer.wanted_speed_mps, answer.ruling_gradient_compensated_percent] as const).map((value, which) =>
    tag("path", {
      d: `M${(lefts[which as 0 | 1] + wide(which as 0 | 1, value)).toFixed(1)} 38V${height - 6}`,
      stroke: "#000",
      "stroke-width": 1.6,
      "stroke-dasharray": "4 3",
    }),
  );
  const heads =
    words(lefts[0], 16, "Speed on the level", { "font-weight": "bold" }) +
    words(lefts[0], 32, "dashes: wanted") +
    words(lefts[1], 16, "Steepest restart", { "font-weight": "bold" }) +
    words(lefts[1], 32, "dashes: steepest here");
  const [best] = rows;
  const see = best
    ? `Best first: those without fault, nearest the wanted ${eyes.speed(answer.wanted_speed_mps)}. The first, ${best.teeth.map(([a, b]) => `${a} driving ${b}`).join(" and ")}, runs ${eyes.speed(best.speed_mps)} on the level. A bar of restart short of its dashes does not start again on the steepest gradient here.`
    : "No choice of these teeth gears the motor down.";
  return {
    name: "gears",
    title: "Sprockets that would do",
    see,
    height_px: height,
    body: heads + body.join("") + wanted.join(""),
  };
}

const round = (value: number): string => (Math.round(100 * value) / 100).toString();
