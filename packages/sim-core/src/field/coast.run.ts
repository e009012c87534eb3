import { G_mps2 } from "../parts/constants.js";

/** A reading of a train that rolls freely: its speed, or where it is, at a time of its run. */
export interface CoastRow {
  run: string;
  /** One way or the other along the same line: two words, whatever they are. */
  direction: string;
  time_s: number;
  speed_mps: number | null;
  /** From where its clock was started. */
  distance_m: number | null;
  /** Of the head where its clock was started, along the line; where the line's profile is to be counted. */
  from_m?: number | null;
}

/** Rise over distance under the train, its head at a chainage, in the direction that chainages grow. */
export type GradientUnder = (head_m: number, forwards: boolean) => number;

/** Runs of one way or the other, in order of time. */
export interface Run {
  readonly way: 1 | -1;
  readonly rows: readonly CoastRow[];
  /** What gravity takes of its speed where it has come to, m/s². */
  readonly gravity_mps2: (run_m: number) => number;
}

const STEP_s = 0.05;

/** Run by run; the direction of the first is that in which chainages grow. */
export function runsOf(rows: readonly CoastRow[], rotating: number, gradient: GradientUnder | undefined): Run[] {
  const [first] = [...new Set(rows.map(({ direction }) => direction))];
  return [...new Set(rows.map(({ run }) => run))].map((name) => {
    const own = rows.filter(({ run }) => run === name);
    const way = own[0].direction === first ? 1 : -1;
    const from_m = own[0].from_m ?? 0;
    // Gravity pulls at what weighs, and what turns has to be slowed too.
    const gravity_mps2 = (run_m: number) =>
      gradient ? (way * G_mps2 * gradient(from_m + way * run_m, way > 0)) / rotating : 0;
    return { way, rows: own, gravity_mps2 };
  });
}

/** What slows a train at a speed, m/s²: standing still in the limit, and with the square of its speed, 1/m. */
interface Slowing {
  readonly a0: number;
  readonly a2: number;
}

/** Computed less read along a run, by the classical Runge-Kutta method. @returns the place after the last */
export function coast(
  { rows, gravity_mps2 }: Run,
  v0: number,
  { a0, a2 }: Slowing,
  out: Float64Array,
  from: number,
): number {
  const begins_m = rows[0].distance_m ?? 0;
  const slows = (v: number, x: number) => (v > 0 ? -(a0 + a2 * v * v) - gravity_mps2(x - begins_m) : 0);
  let [t, v, x, at] = [rows[0].time_s, v0, begins_m, from];
  for (const { time_s, speed_mps, distance_m } of rows) {
    const steps = Math.max(1, Math.ceil((time_s - t) / STEP_s));
    const h = (time_s - t) / steps;
    for (let i = 0; i < steps && h > 0; i++) {
      const k1 = slows(v, x);
      const k2 = slows(v + (h / 2) * k1, x + (h / 2) * v);
      const k3 = slows(v + (h / 2) * k2, x + (h / 2) * (v + (h / 2) * k1));
      const k4 = slows(v + h * k3, x + h * (v + (h / 2) * k2));
      x += h * v + ((h * h) / 6) * (k1 + k2 + k3);
      v += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    t = time_s;
    out[at++] = speed_mps === null ? x - (distance_m as number) : v - speed_mps;
  }
  return at;
}

export function firstSpeed_mps({ rows }: Run): number {
  const [first, second] = rows;
  if (first.speed_mps !== null) return first.speed_mps;
  return ((second.distance_m as number) - (first.distance_m as number)) / (second.time_s - first.time_s);
}

/** The mean square of a run's speed, m²/s²; past marks, of its mean speed. */
export function meanSquare_m2ps2({ rows }: Run): number {
  const [first, last] = [rows[0], rows[rows.length - 1]];
  if (first.speed_mps === null)
    return (((last.distance_m as number) - (first.distance_m as number)) / (last.time_s - first.time_s)) ** 2;
  return rows.reduce((sum, { speed_mps }) => sum + (speed_mps as number) ** 2, 0) / rows.length;
}
