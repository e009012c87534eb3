import { InputError } from "../../errors.js";
import type { Track } from "../../parts/track.js";
import type { LogColumns } from "./log.js";

/** Where the train was at each reading, as the line has it. */
export interface Placed {
  /** Metres of the line since the log began; never falls. */
  readonly run_m: Float64Array;
  /** Of the head, where the log begins. */
  readonly begins_m: number;
  /** What tells it. */
  readonly by: "distance" | "speed" | "laps";
  /** Metres of the line to a metre of the log, by its laps; null where none are marked. */
  readonly scale: number | null;
  /** Laps that the log marks whole, from button to button. */
  readonly laps: number;
  /** Speed added up over distance told, where both are there. */
  readonly speed_over_distance: number | null;
  /** How often the distance fell. */
  readonly fell: number;
}

/** A wheel's odometer and a phone are nearer than this; farther off it is another unit. */
const SCALES = [0.8, 1.25] as const;
/** Units that are taken for one another, and what they are apart. */
const MISTAKEN: readonly (readonly [scale: number, words: string])[] = [
  [0.6214, "km/h read as mph, or kilometres as miles"],
  [1.6093, "mph read as km/h, or miles as kilometres"],
  [0.3048, "feet read as metres"],
  [3.2808, "metres read as feet"],
  [0.2778, "km/h read as m/s"],
  [3.6, "m/s read as km/h"],
  [0.447, "mph read as m/s"],
  [2.2369, "m/s read as mph"],
  [0.9144, "yards read as metres"],
];
const NEAR = 0.06;

/** The units that a ratio looks like; empty where none. */
export function mistakenFor(scale: number): string {
  const found = MISTAKEN.find(([each]) => Math.abs(scale / each - 1) < NEAR);
  return found ? `; that looks like ${found[1]}` : "";
}

/**
 * Places every reading along the line: by the distance it tells, else by its speed added up; between presses of the lap
 * button all is stretched to the line's own length, as wheels slip and phones wander.
 * @param from_m chainage of the head where the log begins, or where the button is pressed
 * @throws InputError
 */
export function placeLog(log: LogColumns, track: Pick<Track, "kind" | "length_m">, from_m: number): Placed {
  const { time_s, laps: marks = [] } = log;
  const n = time_s.length;
  const { raw_m, by, fell } = rawRun(log);
  const speed_over_distance = log.distance && log.speed ? ratioOf(addedUp(time_s, log.speed), raw_m) : null;
  if (speed_over_distance !== null && (speed_over_distance < SCALES[0] || speed_over_distance > SCALES[1]))
    throw refusal(
      `its speed added up makes ${speed_over_distance.toPrecision(3)} times its distance${mistakenFor(speed_over_distance)}. Look at the units in the headings, or take one of the two columns out`,
    );
  if (track.kind === "end-to-end") {
    if (marks.length > 0)
      throw refusal(
        "the line has two ends, and laps are marked: cut the log at each end, and compare each way by itself",
      );
    if (from_m + raw_m[n - 1] > track.length_m + 0.02 * track.length_m)
      throw refusal(
        `it runs ${Math.round(raw_m[n - 1])} m from ${Math.round(from_m)} m on, and the line has ${Math.round(track.length_m)} m: cut the log at each end, and compare each way by itself`,
      );
    return { run_m: raw_m, begins_m: from_m, by, scale: null, laps: 0, speed_over_distance, fell };
  }
  if (marks.length < 2) {
    const begins_m = marks.length === 1 ? from_m - raw_m[marks[0]] : from_m;
    return { run_m: raw_m, begins_m, by, scale: null, laps: 0, speed_over_distance, fell };
  }
  return { ...stretched(raw_m, marks, track.length_m, from_m, by !== "laps"), by, speed_over_distance, fell };
}

const refusal = (message: string): InputError => new InputError([{ path: "log.1", message }]);

function rawRun(log: LogColumns): { raw_m: Float64Array; by: Placed["by"]; fell: number } {
  const { time_s, distance, speed, laps = [] } = log;
  if (distance) return { ...unwound(filled(time_s, distance)), by: "distance" };
  if (speed) return { raw_m: addedUp(time_s, speed), by: "speed", fell: 0 };
  // Nothing but the laps: at one speed from press to press, of a length that is then made the line's.
  const raw_m = new Float64Array(time_s.length);
  const pace = (time_s[laps[laps.length - 1]] - time_s[laps[0]]) / (laps.length - 1);
  for (let i = 0; i < raw_m.length; i++) {
    const next = laps.findIndex((mark) => mark > i);
    const [from, to] = next > 0 ? [laps[next - 1], laps[next]] : [-1, -1];
    raw_m[i] =
      next > 0
        ? 100 * (next + (time_s[i] - time_s[from]) / (time_s[to] - time_s[from]))
        : 100 *
          (next === 0
            ? 1 + (time_s[i] - time_s[laps[0]]) / pace
            : laps.length + (time_s[i] - time_s[laps[laps.length - 1]]) / pace);
  }
  const first_m = raw_m[0];
  return { raw_m: raw_m.map((each) => each - first_m), by: "laps", fell: 0 };
}

/** Blank readings straight between their neighbours in time, at the ends like the nearest. */
export function filled(time_s: ArrayLike<number>, column: ArrayLike<number>): Float64Array {
  const out = Float64Array.from(column);
  let before = -1;
  for (let i = 0; i <= out.length; i++) {
    if (i < out.length && Number.isNaN(out[i])) continue;
    for (let j = before + 1; j < i; j++) {
      if (before < 0) out[j] = i < out.length ? out[i] : 0;
      else if (i === out.length) out[j] = out[before];
      else
        out[j] = out[before] + ((out[i] - out[before]) * (time_s[j] - time_s[before])) / (time_s[i] - time_s[before]);
    }
    before = i;
  }
  return out;
}

/** An odometer that begins anew is one that goes on; what falls besides stands still instead. */
function unwound(told_m: Float64Array): { raw_m: Float64Array; fell: number } {
  const raw_m = new Float64Array(told_m.length);
  let [before_m, most_m, fell] = [0, told_m[0], 0];
  for (let i = 1; i < told_m.length; i++) {
    const step_m = told_m[i] - told_m[i - 1];
    if (step_m < 0 && told_m[i] < 0.2 * most_m && -step_m > 0.5 * most_m) {
      before_m += most_m - told_m[i];
      most_m = told_m[i];
    } else if (step_m < 0) fell++;
    most_m = Math.max(most_m, told_m[i]);
    raw_m[i] = Math.max(raw_m[i - 1], before_m + told_m[i] - told_m[0]);
  }
  return { raw_m, fell };
}

/** Speed added up by trapezoids, never back. */
function addedUp(time_s: ArrayLike<number>, speed: ArrayLike<number>): Float64Array {
  const told = filled(time_s, speed);
  const run_m = new Float64Array(told.length);
  for (let i = 1; i < told.length; i++)
    run_m[i] = run_m[i - 1] + Math.max(0, ((told[i] + told[i - 1]) / 2) * (time_s[i] - time_s[i - 1]));
  return run_m;
}

function ratioOf(by_speed_m: Float64Array, by_distance_m: Float64Array): number | null {
  const last = by_distance_m.length - 1;
  return by_distance_m[last] > 1 ? by_speed_m[last] / by_distance_m[last] : null;
}

/** Every lap made as long as the line is; before the first press and after the last, as the laps are in the median. */
function stretched(raw_m: Float64Array, marks: readonly number[], lap_m: number, from_m: number, told: boolean) {
  const spans = marks.slice(1).map((mark, i) => raw_m[mark] - raw_m[marks[i]]);
  const usual_m = [...spans].sort((a, b) => a - b)[spans.length >> 1];
  const still = spans.findIndex((span) => !(span > 0.3 * usual_m));
  if (!(usual_m > 0) || still >= 0)
    throw new InputError([
      {
        path: `log.${marks[Math.max(0, still) + 1] + 1}`,
        message: "the lap button was pressed again before the train had gone round; take one of the presses out",
      },
    ]);
  // A press that was forgotten makes two laps of one.
  const rounds = spans.map((span) => Math.max(1, Math.round(span / usual_m)));
  const laps = rounds.reduce((a, b) => a + b, 0);
  const scale = lap_m / usual_m;
  if (told && (scale < SCALES[0] || scale > SCALES[1]))
    throw refusal(
      `from one lap mark to the next it runs ${Math.round(usual_m)} m, and the line has ${Math.round(lap_m)} m${mistakenFor(scale)}. Look at the unit in the heading, and whether a mark stands for each lap`,
    );
  const run_m = new Float64Array(raw_m.length);
  const at: number[] = [raw_m[marks[0]] * scale];
  for (const [i, each] of rounds.entries()) at.push(at[i] + each * lap_m);
  for (let i = 0, k = 0; i < raw_m.length; i++) {
    while (k < marks.length && marks[k] <= i) k++;
    if (k === 0) run_m[i] = raw_m[i] * scale;
    else if (k === marks.length) run_m[i] = at[k - 1] + (raw_m[i] - raw_m[marks[k - 1]]) * scale;
    else run_m[i] = at[k - 1] + ((raw_m[i] - raw_m[marks[k - 1]]) * rounds[k - 1] * lap_m) / spans[k - 1];
  }
  return { run_m, begins_m: from_m - at[0], scale, laps };
}
