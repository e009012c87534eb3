import { FOOT_m, figures, type Plan } from "@rideon/sim-core";
import { plain } from "../ground/plain.js";
import { scale } from "./braille.js";
import type { Picture } from "./picture.js";

/** The line as the drawn lap meets it, against the distance run since the lap began. */
export interface LineStrip {
  length_m: number;
  run_m: number[];
  height_m: number[];
  /** From this point to the next, signed as the train meets it. */
  gradient_percent: number[];
  places: { run_m: number; name: string }[];
}

/** A circuit is known to its end wherever the train got to; of a line there and back, what was run. */
export const stripOf = (plan: Plan, picture: Picture): LineStrip =>
  plan.track.kind === "circuit" ? stripOfCircuit(plan) : ofRun(plan, picture);

export function stripOfCircuit({ track: { distance_m, height_m, place, length_m } }: Plan): LineStrip {
  const run_m = Array.from(distance_m);
  const gradient = (i: number) =>
    i + 1 < run_m.length ? (100 * (height_m[i + 1]! - height_m[i]!)) / (distance_m[i + 1]! - distance_m[i]!) : 0;
  const named = run_m.slice(0, -1).map((at_m, i) => ({ run_m: at_m, name: place[i] ?? "" }));
  return {
    length_m,
    run_m,
    height_m: Array.from(height_m),
    gradient_percent: run_m.map((_, i) => gradient(i)),
    places: named.filter(({ name }) => name !== ""),
  };
}

function ofRun({ track, train }: Plan, { run_m, chainage_m, height_m, gradient_percent }: Picture): LineStrip {
  const places: LineStrip["places"] = [];
  const named = Array.from(track.distance_m, (post_m, post) => ({ post_m, name: track.place[post] ?? "" }));
  const posts = named.filter(({ name }) => name !== "");
  for (let i = 1; i < run_m.length; i++) {
    const [from_m, to_m] = [chainage_m[i - 1]!, chainage_m[i]!];
    // Turning back is a jump of the head from one end of the train to the other, not a passing.
    if (Math.abs(to_m - from_m) > 0.9 * train.length_m) continue;
    for (const { post_m, name } of posts)
      if ((from_m - post_m) * (to_m - post_m) < 0 || post_m === to_m) places.push({ run_m: run_m[i]!, name });
  }
  const length_m = Math.max(run_m.at(-1) ?? 0, 2 * (track.length_m - train.length_m));
  return { length_m, run_m, height_m, gradient_percent, places };
}

/** A line out from its first post and back to it, against the chainage of the head out, and what is left of it back. */
export function stripThereAndBack({ track: { distance_m, height_m, place, length_m } }: Plan): LineStrip {
  const out = Array.from(distance_m, (at_m, i) => ({ at_m, height_m: height_m[i]!, name: place[i] ?? "" }));
  const back = out.slice(0, -1).map((post) => ({ ...post, at_m: 2 * length_m - post.at_m }));
  const posts = [...out, ...back.reverse()];
  const gradient = (i: number) => {
    const [here, next] = [posts[i]!, posts[i + 1]];
    return next ? (100 * (next.height_m - here.height_m)) / (next.at_m - here.at_m) : 0;
  };
  return {
    length_m: 2 * length_m,
    run_m: posts.map(({ at_m }) => at_m),
    height_m: posts.map((post) => post.height_m),
    gradient_percent: posts.map((_, i) => gradient(i)),
    places: posts.filter(({ name }) => name !== "").map(({ at_m, name }) => ({ run_m: at_m, name })),
  };
}

/** `↗1 in 71` along every stretch that has room for it, `↗71` or `↗` where there is less. */
export function gradientWords({ length_m, run_m, gradient_percent }: LineStrip, columns: number): string {
  const line = new Array<string>(columns).fill(" ");
  const column = scale([0, length_m], columns);
  for (let from = 0, to = 1; from < run_m.length; from = to, to++) {
    while (to < run_m.length && Math.abs(gradient_percent[to]! - gradient_percent[from]!) < SAME_percent) to++;
    const start = column(run_m[from]!);
    const end = column(run_m[Math.min(to, run_m.length - 1)]!);
    const label = labelsOf(gradient_percent[from]!).find((each) => each.length < end - start) ?? "";
    const left = start + Math.floor((end - start - label.length) / 2);
    for (let i = 0; i < label.length; i++) line[left + i] = label[i]!;
  }
  return line.join("").trimEnd();
}

const SAME_percent = 1e-6;
const LEVEL_percent = 0.01;

function labelsOf(gradient_percent: number): string[] {
  if (Math.abs(gradient_percent) < LEVEL_percent) return ["level", "→"];
  const arrow = gradient_percent > 0 ? "↗" : "↘";
  const oneIn = figures(Math.round(100 / Math.abs(gradient_percent)));
  return [`${arrow}1 in ${oneIn}`, `${arrow}${oneIn}`, arrow];
}

/** Names under the places they begin at, on two lines; one that finds no room is left out. */
export function placeNames({ length_m, places }: LineStrip, columns: number): string[] {
  const column = scale([0, length_m], columns - 1);
  const lines = ["", ""];
  for (const { run_m, name } of places) {
    const start = column(run_m);
    const label = `↑${plain(name)}`;
    const line = lines.findIndex((each) => each.length === 0 || each.length < start);
    if (line < 0 || start + label.length > columns + MARGIN) continue;
    lines[line] = `${lines[line]!.padEnd(start)}${label}`;
  }
  return lines.filter((line) => line !== "");
}

/** Names may stand out to the right by as much as the picture is kept from the edge. */
const MARGIN = 1;

/** The axis with its ticks, and the distances under them; `stop_m` marks where the train came to grief. */
export function distanceAxis({ length_m }: LineStrip, columns: number, unit: "m" | "ft", stop_m?: number): string[] {
  const size_m = unit === "m" ? 1 : FOOT_m;
  return axis(length_m / size_m, columns, unit, stop_m === undefined ? undefined : stop_m / size_m);
}

/** An axis from 0 with its ticks, and the figures under them; `mark` is crossed out. */
export function axis(most: number, columns: number, unit: string, mark?: number): string[] {
  const step = tickStep((most * TICK_columns) / columns);
  const column = scale([0, most], columns - 1);
  const line = new Array<string>(columns).fill("─");
  let labels = "";
  for (let n = 0; n * step <= most; n++) {
    const at = column(n * step);
    const label = n === 0 ? `0 ${unit}` : figures(n * step);
    line[at] = "┬";
    if (at + label.length <= columns + MARGIN && labels.length < at + (n === 0 ? 1 : 0))
      labels = labels.padEnd(at) + label;
  }
  if (mark !== undefined) line[column(mark)] = "✕";
  return [line.join(""), labels];
}

/** The next of 1, 2, 5, 10, 20 … */
function tickStep(least: number): number {
  const decade = 10 ** Math.floor(Math.log10(least));
  return decade * ([1, 2, 5].find((step) => step * decade >= least) ?? 10);
}

/** Ticks stand at least this far apart. */
const TICK_columns = 10;
