import { type EffortAnswer, type EffortRow, figures, formatGradient, quantity } from "@rideon/sim-core";
import { type Dashes, drawn, overlaid, roundUp, scale } from "../../charts/braille.js";
import { LABEL_columns, MPS_PER } from "../../charts/frame.js";
import { axis } from "../../charts/line-strip.js";
import type { Opened } from "../../words/ready.js";
import { wrap } from "../../words/table.js";
import { type Colour, painted, type Terminal } from "../../words/terminal.js";

/** One line of the picture: named at its right end, or in the heading. */
interface Line {
  name: string;
  force_N: (row: EffortRow) => number;
  dashes?: Dashes;
  colour: Colour;
}

const ROWS = 14;
/** Room for names to the right of the picture. */
const NAME_columns = 12;
/** Pull far above what grips and what is wanted is cut off, or these would be lost at the foot of the picture. */
const MOST_ABOVE = 2.5;

/** Pull against speed, motor cold and hot, with what the line takes of it and what the rail passes on. */
export function effortChart(effort: EffortAnswer, { eyes }: Opened, screen: Terminal): string[] {
  const { rows } = effort;
  const speedUnit = eyes.style === "imperial" ? "mph" : "km/h";
  const forceUnit = eyes.chainageUnit === "ft" ? "lbf" : "N";
  const unit_N = quantity(`1 ${forceUnit}`, "force");
  const hot = differsHot(effort);
  const pulls: Line[] = [
    ...(hot ? [{ ...PULL_HOT, force_N: (row: EffortRow) => row.pull_hot_N }] : []),
    { name: "cold", force_N: (row) => row.pull_cold_N, colour: "cyan" },
  ];
  const levels = levelsOf(effort, unit_N);
  const most = (lines: readonly Line[]) => Math.max(...lines.flatMap(({ force_N }) => rows.map(force_N)));
  const top = roundUp(Math.min(most([...levels, ...pulls]), MOST_ABOVE * most(levels)) / unit_N);
  const speed = rows.map(({ speed_mps }) => speed_mps / MPS_PER[speedUnit]);
  const fastest = speed.at(-1) ?? 1;
  const columns = screen.columns - LABEL_columns - 1 - NAME_columns;
  const frame = { columns, rows: ROWS, x: [0, fastest], y: [0, top] } as const;
  const lines = [...pulls, ...levels];
  const layers = lines.map(({ force_N, dashes }) =>
    drawn({ x: speed, y: rows.map((row) => force_N(row) / unit_N), ...(dashes && { dashes }) }, frame),
  );
  const names = namesAt(levels, rows.at(-1), (force_N) => scale([0, top], ROWS - 1)(force_N / unit_N));
  const margin = " ".repeat(LABEL_columns + 1);
  const label = (row: number) => (row === 0 ? String(top) : row === ROWS - 1 ? "0" : "");
  return [
    "",
    ...wrap(
      `pull, ${forceUnit}, against speed, lever full open${hot ? "; dashed: the motor hot" : ""}`,
      columns + NAME_columns,
    ).map((line) => margin + line),
    ...overlaid(layers).map((stretches, row) => {
      const picture = stretches
        .map(({ text, layer }) => (layer < 0 ? text : painted(text, lines[layer]?.colour ?? "cyan", screen)))
        .join("");
      return `${label(row).padStart(LABEL_columns)}│${picture} ${names[row] ?? ""}`.trimEnd();
    }),
    ...axis(fastest, columns, speedUnit).map((line) => margin + line),
  ];
}

const PULL_HOT = { name: "hot", dashes: { set: 5, of: 8 }, colour: "yellow" } as const;

/** Shown by dashes: how much of the lines is left out tells them apart without colour. */
const levelsOf = (
  { grip_N, ruling_gradient_compensated_percent, restart_gradient_percent }: EffortAnswer,
  unit_N: number,
): Line[] => [
  { name: `grip ${figures(grip_N / unit_N)}`, force_N: () => grip_N, dashes: { set: 8, of: 10 }, colour: "green" },
  ...(restart_gradient_percent > 0
    ? [gradientLine(restart_gradient_percent, (row) => row.restart_N, { set: 1, of: 6 })]
    : []),
  ...(ruling_gradient_compensated_percent > LEVEL_percent
    ? [gradientLine(ruling_gradient_compensated_percent, (row) => row.ruling_N, { set: 2, of: 6 })]
    : []),
  gradientLine(0, (row) => row.level_N, { set: 1, of: 2 }),
];

const LEVEL_percent = 0.01;

const gradientLine = (percent: number, force_N: Line["force_N"], dashes: Dashes): Line => ({
  name: formatGradient(percent / 100),
  force_N,
  dashes,
  colour: "dim",
});

/** Is the pull of the hot motor another line? */
export const differsHot = ({ rows }: EffortAnswer): boolean =>
  rows.some(({ pull_cold_N, pull_hot_N }) => Math.abs(pull_cold_N - pull_hot_N) > SAME * (rows[0]?.pull_cold_N ?? 0));

const SAME = 0.01;

/** A name on each line's own row, or on the next that is free. */
function namesAt(lines: readonly Line[], end: EffortRow | undefined, height: (force_N: number) => number): string[] {
  const names: string[] = [];
  if (!end) return names;
  for (const { name, force_N } of lines) {
    let row = ROWS - 1 - height(force_N(end));
    while (names[row] !== undefined && row < ROWS - 1) row++;
    names[row] = names[row] === undefined ? name : `${names[row]}, ${name}`;
  }
  return names;
}
