import { InputError } from "../errors.js";
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
    track: surveyed(files.track, seed),
    tables: { ...files.tables, drawn },
  };
}

/** The line as another survey would have it; where the first and the last post are one, they stay one. */
function surveyed(track: TrackColumns, seed: number): TrackColumns {
  const even = evenDraws(seed);
  const off = (of: ArrayLike<number>, sd: number) => {
    const last = of.length - 1;
    return Array.from(of, (value, i) => (i === 0 || i === last ? value : value + sd * cutNormal(even())));
  };
  const { height_m, sine } = track;
  return {
    ...track,
    ...(height_m && { height_m: off(height_m, STAFF_sd_m) }),
    ...(sine && { sine: off(sine, GRADIENT_sd) }),
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
