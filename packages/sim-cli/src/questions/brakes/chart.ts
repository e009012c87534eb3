import { type BrakeSet, type BrakesRow, FOOT_m, figures } from "@rideon/sim-core";
import { type Dashes, drawn, overlaid, roundUp, scale } from "../../charts/braille.js";
import { LABEL_columns } from "../../charts/frame.js";
import {
  distanceAxis,
  gradientWords,
  type LineStrip,
  placeNames,
  stripOfCircuit,
  stripThereAndBack,
} from "../../charts/line-strip.js";
import { shortLength } from "../../words/eyes.js";
import { type Colour, painted, type Terminal } from "../../words/terminal.js";
import type { BrakesTold } from "./sets.js";
import { judged, SET, toldSets, WITH } from "./sets.js";

const ROWS = 4;
/** What stops further off than this many times the sight is cut off, or the sight would be lost at the foot. */
const MOST_ABOVE = 3;
const LEAST_ABOVE = 1.2;

/** How a rail's curve is drawn: the plan's own unbroken, the wet one dashed. */
const RAILS: readonly { colour: Colour; dashes?: Dashes }[] = [
  { colour: "cyan" },
  { colour: "yellow", dashes: { set: 2, of: 4 } },
];
const SIGHT: { colour: Colour; dashes: Dashes } = { colour: "dim", dashes: { set: 1, of: 3 } };

/** Over a panel: does not stop from there; stops, but further off than the picture goes. */
const NEVER = "✕";
const HIGHER = "↑";

/** Stopping distance along the line, the sets one under the other, with the line itself below. */
export function brakesChart(told: BrakesTold, screen: Terminal): string[] {
  const { answer, eyes } = told;
  if (answer.worst.length === 0) return [];
  const strip = lineOf(told);
  const columns = screen.columns - LABEL_columns - 2;
  const margin = " ".repeat(LABEL_columns + 1);
  const slopes = `${"1 in".padStart(LABEL_columns)} ${gradientWords(strip, columns)}`;
  const axis = distanceAxis(strip, columns, eyes.chainageUnit);
  return [
    ...toldSets(answer, told).flatMap((set) => ["", ...panel(set, told, strip, columns, screen)]),
    slopes,
    ...[...axis, ...placeNames(strip, columns)].map((line) => margin + line),
  ];
}

function panel(set: BrakeSet, told: BrakesTold, strip: LineStrip, columns: number, screen: Terminal): string[] {
  const { answer, eyes } = told;
  const top_m = topOf_m(told);
  const frame = { columns, rows: ROWS, x: [0, strip.length_m], y: [0, top_m] } as const;
  const rows = answer.rows.filter(({ brakes }) => brakes === set);
  const curves = answer.rails.flatMap(({ rail }, i) => {
    const { colour, dashes } = RAILS[i] ?? { colour: "cyan" };
    return unbroken(rows.filter((row) => row.rail === rail)).map((part) => ({
      colour,
      lines: drawn({ ...curveOf(part, strip), ...(dashes && { dashes }) }, frame),
    }));
  });
  const sight = drawn({ x: [0, strip.length_m], y: [answer.sight_m, answer.sight_m], dashes: SIGHT.dashes }, frame);
  const layers = [...curves, { colour: SIGHT.colour, lines: sight }];
  const sightRow = ROWS - 1 - Math.floor(scale([0, top_m], ROWS * DOTS - 1)(answer.sight_m) / DOTS);
  const label = (row: number) =>
    row === sightRow ? "sight" : row === 0 ? shortLength(top_m, eyes) : row === ROWS - 1 ? "0" : "";
  const picture = overlaid(layers.map(({ lines }) => lines)).map((stretches, row) => {
    const text = stretches
      .map(({ text, layer }) => (layer < 0 ? text : painted(text, layers[layer]?.colour ?? "cyan", screen)))
      .join("");
    return `${label(row).padStart(LABEL_columns)}│${text}`.trimEnd();
  });
  const marks = marksOver(rows, strip, columns, top_m);
  const margin = " ".repeat(LABEL_columns + 1);
  return [`${margin}stops in, ${eyes.chainageUnit}: ${SET[set]}`, ...(marks ? [margin + marks] : []), ...picture];
}

/** Rows of dots in a row of characters. */
const DOTS = 4;

/** One scale for all, so that they can be compared. */
function topOf_m({ answer, eyes }: BrakesTold): number {
  const size_m = eyes.chainageUnit === "ft" ? FOOT_m : 1;
  const longest_m = answer.rows.reduce((most, { distance_m }) => Math.max(most, distance_m ?? 0), 0);
  const wanted_m = Math.max(LEAST_ABOVE * answer.sight_m, Math.min(longest_m, MOST_ABOVE * answer.sight_m));
  return size_m * roundUp(wanted_m / size_m);
}

/** A circuit as `run` has it; a line out from its first post, and back to it. */
const lineOf = ({ plan }: BrakesTold): LineStrip =>
  plan.track.kind === "circuit" ? stripOfCircuit(plan) : stripThereAndBack(plan);

const runOf_m = ({ chainage_m, direction }: BrakesRow, { length_m }: LineStrip): number =>
  direction === "back" ? length_m - chainage_m : chainage_m;

const curveOf = (rows: readonly BrakesRow[], strip: LineStrip) => ({
  x: rows.map((row) => runOf_m(row, strip)),
  y: rows.map(({ distance_m }) => distance_m ?? 0),
});

/** Parts of the line, one way, from all of which it stops. */
function unbroken(rows: readonly BrakesRow[]): BrakesRow[][] {
  const parts: BrakesRow[][] = [];
  rows.forEach((row, i) => {
    const before = rows[i - 1];
    if (!row.stops) return;
    if (before?.stops && before.direction === row.direction) parts.at(-1)?.push(row);
    else parts.push([row]);
  });
  return parts;
}

function marksOver(rows: readonly BrakesRow[], strip: LineStrip, columns: number, top_m: number): string {
  const line = new Array<string>(columns).fill(" ");
  const column = scale([0, strip.length_m], columns - 1);
  for (const row of rows) {
    const at = column(runOf_m(row, strip));
    if (!row.stops) line[at] = NEVER;
    else if ((row.distance_m ?? 0) > top_m && line[at] !== NEVER) line[at] = HIGHER;
  }
  return line.join("").trimEnd();
}

/** How the picture is read, and what it shows. */
export function whatToSee(told: BrakesTold): string[] {
  const { answer, eyes, plan } = told;
  if (answer.worst.length === 0) return [];
  const sets = toldSets(answer, told);
  const shown = answer.rows.filter(({ brakes }) => sets.includes(brakes));
  const top_m = topOf_m(told);
  const [own, wet] = answer.rails;
  const never = shown.filter(({ stops }) => !stops);
  const split = wet && never.length !== 2 * never.filter(({ rail }) => rail === wet.rail).length;
  const signs = [
    `the dots across are the ${eyes.length(answer.sight_m)} of sight`,
    ...(wet ? [`${own?.rail} rail is drawn through, ${wet.rail} dashed where it differs`] : []),
    ...(shown.some(({ distance_m }) => (distance_m ?? 0) > top_m)
      ? [`${HIGHER} is further than the picture goes`]
      : []),
    ...(never.length > 0 ? [`${NEVER} does not stop at all${split ? ", on one of the rails at least" : ""}`] : []),
    ...(plan.track.kind === "circuit" ? [] : ["the way back begins in the middle"]),
  ];
  return [`From every place how far it runs on: ${signs.join("; ")}.`, sets.map((set) => seen(set, told)).join(" ")];
}

/** `With no brake it runs beyond sight from 37 of 90 places.`. */
function seen(set: BrakeSet, told: BrakesTold): string {
  const cases = told.answer.beyond_sight.filter(({ brakes }) => brakes === set);
  const all = judged(told.answer, told).filter((row) => row.brakes === set && row.rail === cases[0]?.rail).length;
  const counts = [...new Set(cases.map(({ places }) => places.length))];
  if (counts.every((count) => count === 0)) return `${WITH[set]} it stays below the dots everywhere.`;
  const each = cases.map(({ rail, places }) => `${figures(places.length)} on ${rail} rail`);
  const where = counts.length === 1 ? figures(counts[0] ?? 0) : each.join(" and ");
  return `${WITH[set]} it runs beyond them from ${where} of ${figures(all)} places.`;
}
