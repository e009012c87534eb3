import { InputError } from "../../errors.js";
import type { Track } from "../../parts/track.js";
import type { LogColumns } from "./log.js";
import { mistakenFor, SCALES } from "./mistaken.js";
import { addedUp, filled, mustRunOneWay, unwound } from "./odometer.js";
import { stretched } from "./stretched.js";

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

/**
 * Places every reading along the line: by the distance it tells, else by its speed added up; between presses of the lap
 * button all is stretched to the line's own length, as wheels slip and phones wander.
 * @param from_m chainage of the head where the log begins, or where the button is pressed
 * @throws InputError
 */
export function placeLog(log: LogColumns, track: Pick<Track, "kind" | "length_m">, from_m: number): Placed {
  const { time_s, laps: marks = [] } = log;
  const n = time_s.length;
  mustRunOneWay(log);
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

function ratioOf(by_speed_m: Float64Array, by_distance_m: Float64Array): number | null {
  const last = by_distance_m.length - 1;
  return by_distance_m[last] > 1 ? by_speed_m[last] / by_distance_m[last] : null;
}
