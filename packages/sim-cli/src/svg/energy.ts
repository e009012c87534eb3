import type { EnergyBalance } from "@rideon/sim-core";
import { energyRows } from "../write/energy.words.js";
import { type Figure, plotWidth_px, type Sheet, tag, words } from "./draw.js";
import { AREAS, luminance } from "./ink.js";

const BAR_px = 44;
const ROW_px = 19;
/** Room for watt-hours and share. */
const AMOUNTS_px = 124;
/** Narrower, a part carries no number of its own and is found by its order. */
const LEAST_px = 14;

/** Where the energy of the working goes: one bar, its parts numbered and named below. */
export function energyFigure(balance: EnergyBalance, laps: number, sheet: Sheet): Figure {
  const rows = energyRows(balance);
  const total = rows.at(-1) ?? ["", "", ""];
  const parts = rows
    .slice(0, -1)
    .map(([name = "", amount = "", share = ""]) => ({ name, amount, share, percent: Number.parseFloat(share) }));
  const spent = parts.filter(({ percent }) => percent > 0);
  const all = spent.reduce((sum, { percent }) => sum + percent, 0);
  const width = plotWidth_px(sheet) + sheet.left_px + sheet.right_px - 12;
  let at = 6;
  const bar = spent.map(({ percent, name }, i) => {
    const wide = (width * percent) / all;
    const fill = AREAS[i % AREAS.length]!;
    const ink = luminance(fill) > 0.18 ? "#000" : "#fff";
    const number =
      wide >= LEAST_px
        ? words(at + wide / 2, 6 + BAR_px / 2 + 5, String(i + 1), {
            "text-anchor": "middle",
            fill: ink,
            "font-weight": "bold",
          })
        : "";
    const block = tag("rect", {
      x: at,
      y: 6,
      width: wide,
      height: BAR_px,
      fill,
      stroke: "#fff",
      "stroke-width": 1.5,
      "data-part": name,
    });
    at += wide;
    return block + number;
  });
  const top = BAR_px + 26;
  const names = parts.map(({ name, amount, share, percent }, i) => {
    const y = top + i * ROW_px;
    const number = percent > 0 ? `${spent.findIndex((each) => each.name === name) + 1}` : "–";
    const box =
      percent > 0
        ? tag("rect", {
            x: 28,
            y: y - 10,
            width: 12,
            height: 12,
            fill: AREAS[i % AREAS.length]!,
            stroke: "#000",
            "stroke-width": 0.6,
          })
        : "";
    return (
      words(20, y, number, { "text-anchor": "end", "font-weight": "bold" }) +
      box +
      words(46, y, name, {
        "font-size": Math.min(sheet.font_px, (sheet.width_px - 46 - AMOUNTS_px) / (0.56 * name.length)),
      }) +
      words(sheet.width_px - 70, y, amount, { "text-anchor": "end" }) +
      words(sheet.width_px - 6, y, share, { "text-anchor": "end" })
    );
  });
  const most = spent.reduce((a, b) => (b.percent > a.percent ? b : a), spent[0] ?? { name: "nothing", percent: 0 });
  return {
    name: "energy",
    title: "Where the charge goes",
    see: `${total[1]} out of the battery ${laps === 1 ? "in one lap" : `in ${laps} laps`}, in the order it is met from battery to rail. The most, ${most.percent.toFixed(0)} %, goes into ${most.name}.`,
    height_px: top + parts.length * ROW_px,
    body: bar.join("") + names.join(""),
  };
}
