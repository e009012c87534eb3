import { FOOT_m } from "@rideon/sim-core";
import { drawn, roundUp } from "../../charts/braille.js";
import { LABEL_columns, MPS_PER } from "../../charts/frame.js";
import { distanceAxis, gradientWords, placeNames, stripOf } from "../../charts/line-strip.js";
import { extent } from "../../ground/extent.js";
import type { Opened } from "../../words/ready.js";
import { type Colour, painted, type Terminal } from "../../words/terminal.js";
import type { RunWorked } from "./work.js";

interface Panel {
  heading: string;
  colour: Colour;
  rows: number;
  x: readonly number[];
  y: readonly number[];
  /** Bottom and top of the picture. */
  range: readonly [number, number];
}

/** Speed, current and the line itself along the first lap. Nothing where the train has not moved. */
export function chart(told: RunWorked & Opened, screen: Terminal): string[] {
  const { picture, plan, eyes, answer } = told;
  const { run_m } = picture;
  const end_m = run_m.at(-1) ?? 0;
  if (end_m < LEAST_RUN_m) return [];
  const strip = stripOf(plan, picture);
  const columns = screen.columns - LABEL_columns - 2;
  const unit = eyes.style === "imperial" ? "mph" : "km/h";
  const speed = picture.speed_mps.map((each) => each / MPS_PER[unit]);
  const height = strip.height_m.map((each) => each / (eyes.chainageUnit === "ft" ? FOOT_m : 1));
  const panels: Panel[] = [
    { heading: `speed, ${unit}`, colour: "cyan", rows: 5, x: run_m, y: speed, range: aboutZero(speed) },
    {
      heading: "motor current, A",
      colour: "yellow",
      rows: 5,
      x: run_m,
      y: picture.motor_current_A,
      range: aboutZero(picture.motor_current_A),
    },
    {
      heading: `height, ${eyes.chainageUnit}`,
      colour: "green",
      rows: 3,
      x: strip.run_m,
      y: height,
      range: extent(height),
    },
  ];
  const margin = " ".repeat(LABEL_columns + 1);
  const slopes = `${"1 in".padStart(LABEL_columns)} ${gradientWords(strip, columns)}`;
  const stopped = answer.outcome !== "completed" && answer.laps === 0;
  const axis = distanceAxis(strip, columns, eyes.chainageUnit, stopped ? end_m : undefined);
  return [
    ...panels.flatMap((panel) => ["", ...lines(panel, strip.length_m, columns, screen)]),
    slopes,
    ...[...axis, ...placeNames(strip, columns)].map((line) => margin + line),
  ];
}

const LEAST_RUN_m = 0.5;

function lines(
  { heading, colour, rows, x, y, range }: Panel,
  length_m: number,
  columns: number,
  screen: Terminal,
): string[] {
  const curve = drawn({ x, y }, { columns, rows, x: [0, length_m], y: range });
  const label = (row: number) => (row === 0 ? hundredths(range[1]) : row === rows - 1 ? hundredths(range[0]) : "");
  return [
    `${" ".repeat(LABEL_columns + 1)}${heading}`,
    ...curve.map((line, row) => `${label(row).padStart(LABEL_columns)}│${painted(line.trimEnd(), colour, screen)}`),
  ];
}

const hundredths = (value: number): string => (Math.round(100 * value) / 100).toString();

/** From 0, or below it where the values go there, to a round figure. */
function aboutZero(values: readonly number[]): [number, number] {
  const [least, most] = extent(values);
  return [least < 0 ? -roundUp(-least) : 0, roundUp(most)];
}
