import { InputError } from "../errors.js";
import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import { locoKeys, planKeys } from "../parts/files.keys.js";
import type { TrackColumns } from "../parts/track.columns.js";
import type { PlanFiles } from "../studies/limits/limits.js";
import type { Own } from "../train/own.js";
import { GRADIENT_sd, PERSON_sd_kg, STAFF_sd_m } from "./book.js";
import { type Doubtful, groupOf, withNumbers } from "./doubts.js";
import { cutNormal, evenDraws } from "./random.js";

/** A plan with its figures drawn: what `createPlan` takes, defaults drawn besides. */
export interface Drawn extends PlanFiles {
  tables: Own;
}

/**
 * The plan with every figure in doubt as far off as told.
 * @param z standard deviations, one for each of `doubts`
 * @param seed of the survey's own errors: every post has been read by itself
 */
export function draw(files: PlanFiles, doubts: readonly Doubtful[], z: ArrayLike<number>, seed: number): Drawn {
  const by = new Map(doubts.map(({ path, at, by: basis }, i) => [path, { at, basis, z: z[i] }]));
  const given = (path: string, _: unknown, value: number) => {
    const doubt = by.get(groupOf(path));
    return doubt && doubt.basis !== "default" ? doubt.at(value, doubt.z) : value;
  };
  const drawn = (path: string, value: number) => {
    const doubt = by.get(groupOf(path));
    const own = doubt && doubt.basis === "default" ? doubt.at(value, doubt.z) : value;
    return path === "plan.passenger_mass" ? own + persons_kg : own;
  };
  const aboard = files.plan.passengers ?? 0;
  const persons_kg = aboard > 0 ? ((by.get("plan.passengers")?.z ?? 0) * PERSON_sd_kg) / Math.sqrt(aboard) : 0;
  const plan = withNumbers(planKeys, files.plan, "plan", given);
  if (plan.passenger_mass_kg !== undefined)
    Object.assign(plan, { passenger_mass_kg: Math.max(1, plan.passenger_mass_kg + persons_kg) });
  return {
    plan,
    loco: withNumbers(locoKeys, files.loco, "loco", given),
    track: surveyed(files.track, files.plan.track.kind !== "end-to-end", seed),
    tables: { ...files.tables, drawn },
  };
}

/** Posts nearer than this hang on one reading of the staff, m. */
const READING_m = 5;

/**
 * The line as another survey would have it: every reading off by itself, heights between readings off as straight lines
 * have it. Where the first and the last post are one, they stay one.
 */
function surveyed({ sineDoubt, ...track }: TrackColumns, round: boolean, seed: number): TrackColumns {
  // What is drawn is taken for true: its doubt is not counted once more.
  if (sineDoubt) return offByDoubt(track, sineDoubt, round, seed);
  const even = evenDraws(seed);
  const { distance_m, height_m, sine } = track;
  const last = distance_m.length - 1;
  const read: [at_m: number, off: number][] = [[distance_m[0], 0]];
  for (const at_m of distance_m)
    if (at_m - read[read.length - 1][0] >= READING_m && distance_m[last] - at_m >= READING_m)
      read.push([at_m, cutNormal(even())]);
  read.push([distance_m[last], 0]);
  let next = 1;
  const off = Array.from(distance_m, (at_m) => {
    while (next < read.length - 1 && at_m > read[next][0]) next++;
    const [[from_m, before], [to_m, after]] = [read[next - 1], read[next]];
    return before + ((after - before) * (at_m - from_m)) / (to_m - from_m);
  });
  const moved = (of: readonly number[], sd: number) => Array.from(of, (value, i) => value + sd * off[i]);
  return {
    ...track,
    ...(height_m && { height_m: moved(height_m, STAFF_sd_m) }),
    ...(sine && { sine: moved(sine, GRADIENT_sd) }),
  };
}

/**
 * The same where the survey tells its own doubt: the gradient of every stretch is off by itself. A circuit comes round to its
 * own height: what the rises miss is given back to each as far as it is in doubt.
 */
function offByDoubt(track: TrackColumns, sineDoubt: readonly number[], round: boolean, seed: number): TrackColumns {
  const even = evenDraws(seed);
  const { distance_m, height_m, sine } = track;
  const apart_m = Array.from(distance_m, (at_m, i) => (distance_m[i + 1] ?? at_m) - at_m);
  const sd_m = apart_m.map((each_m, i) => (sineDoubt[i] * each_m) / NINETEEN_IN_TWENTY);
  const off_m = sd_m.map((sd) => sd * cutNormal(even()));
  const missed_m = round ? off_m.reduce((sum, each) => sum + each, 0) : 0;
  const variance_m2 = sd_m.reduce((sum, sd) => sum + sd ** 2, 0);
  const rise_m = off_m.map((each, i) => (variance_m2 > 0 ? each - (missed_m * sd_m[i] ** 2) / variance_m2 : each));
  const risen_m = [0];
  for (const each_m of rise_m) risen_m.push(risen_m[risen_m.length - 1] + each_m);
  return {
    ...track,
    ...(height_m && { height_m: Array.from(height_m, (height, i) => height + risen_m[i]) }),
    ...(sine && { sine: Array.from(sine, (each, i) => (apart_m[i] > 0 ? each + rise_m[i] / apart_m[i] : each)) }),
  };
}

/** Of figures that make no train together, as little nearer to the middle as will do. */
const NEARER = 0.75;
const TRIES = 8;

/**
 * What `ask` makes of the plan drawn; null where nothing near makes a train.
 * @throws RunError
 */
export function askDrawn<T>(
  files: PlanFiles,
  doubts: readonly Doubtful[],
  z: Float64Array,
  seed: number,
  ask: (drawn: Drawn) => T,
): T | null {
  let tried = z;
  for (let i = 0; i < TRIES; i++) {
    try {
      return ask(draw(files, doubts, tried, seed));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      tried = tried.map((each) => NEARER * each);
    }
  }
  return null;
}
