import type { EnergyBalance } from "@rideon/sim-core";
import { type Figure, plotWidth_px, type Sheet, words } from "../../svg/draw.js";
import { FILLS, type Fill, filled, inkOn } from "../../svg/fills.js";
import { energyRows } from "./energy.js";

const BAR_px = 44;
/** Of the bar; above it stand the numbers of parts too narrow to carry their own. */
const TOP_px = 20;
const ROW_px = 19;
/** Between numbers above the bar. */
const NUMBER_px = 16;
/** Room for watt-hours and share. */
const AMOUNTS_px = 124;
/** Narrower, a part has its number above it. */
const LEAST_px = 14;

/** Where the energy of the working goes: one bar, its parts numbered and named below. */
export function energyFigure(balance: EnergyBalance, laps: number, sheet: Sheet): Figure {
  const rows = energyRows(balance);
  const total = rows.at(-1) ?? ["", "", ""];
  const parts = rows
    .slice(0, -1)
    .map(([name = "", amount = "", share = ""]) => ({ name, amount, share, percent: Number.parseFloat(share) }));
  const spent = parts
    .filter(({ percent }) => percent > 0)
    .map((part, i) => ({ ...part, number: String(i + 1), fill: FILLS[i % FILLS.length]! }));
  const all = spent.reduce((sum, { percent }) => sum + percent, 0);
  const width = plotWidth_px(sheet) + sheet.left_px + sheet.right_px - 12;
  let at = 6;
  const blocks = spent.map((part) => {
    const wide = (width * part.percent) / all;
    at += wide;
    return { ...part, wide, middle: at - wide / 2, box: { x: at - wide, y: TOP_px, width: wide, height: BAR_px } };
  });
  const bar = blocks.map(({ name, number, fill, wide, middle, box }) => {
    const part = filled(fill, box, { stroke: "#fff", "stroke-width": 1.5, "data-part": name });
    return wide < LEAST_px ? part : part + numberOn(fill, middle, number);
  });
  const narrow = blocks.filter(({ wide }) => wide < LEAST_px);
  const places = spread(
    narrow.map(({ middle }) => middle),
    sheet.width_px - NUMBER_px / 2,
  );
  const above = narrow.map(({ number }, i) =>
    words(places[i]!, TOP_px - 5, number, { "text-anchor": "middle", "font-weight": "bold" }),
  );
  const top = TOP_px + BAR_px + 20;
  const names = parts.map(({ name, amount, share }, i) => {
    const y = top + i * ROW_px;
    const own = spent.find((each) => each.name === name);
    const swatch = { x: 28, y: y - 10, width: 12, height: 12 };
    return (
      words(20, y, own?.number ?? "–", { "text-anchor": "end", "font-weight": "bold" }) +
      (own ? filled(own.fill, swatch, { stroke: "#000", "stroke-width": 0.6 }) : "") +
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
    body: bar.join("") + above.join("") + names.join(""),
  };
}

/** Numbers as near to their places as they can stand without touching, the last no farther than `most`. */
function spread(wanted: readonly number[], most: number): number[] {
  const places: number[] = [];
  for (const each of wanted) places.push(Math.max(each, (places.at(-1) ?? -NUMBER_px / 2) + NUMBER_px));
  for (let i = places.length - 1, limit = most; i >= 0; i--, limit -= NUMBER_px)
    places[i] = Math.min(places[i]!, limit);
  return places;
}

/** Edged with the fill, so that its lines do not run into the number. */
const numberOn = (fill: Fill, x: number, number: string): string =>
  words(x, TOP_px + BAR_px / 2 + 5, number, {
    "text-anchor": "middle",
    fill: inkOn(fill),
    "font-weight": "bold",
    stroke: fill.colour,
    "stroke-width": 4,
    "paint-order": "stroke",
  });
