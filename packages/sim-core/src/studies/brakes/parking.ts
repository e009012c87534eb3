import { root } from "../../numeric/roots.js";
import { G_mps2 } from "../../parts/constants.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { breakOff, type Working } from "../../working.js";
import { finerUntilClosed } from "../finer.js";
import type { Way } from "../ways.js";
import type { InCommon } from "./cases.js";
import { gradientAt_percent, steeperOn, steepestPlace_m } from "./places.js";
import { type Rail, trainToStop } from "./sets.js";

/** What may be left on: nothing, the loco's parking brakes, every one of the train. */
export const PARKING_SETS = ["none", "loco", "all"] as const;
export type ParkingSet = (typeof PARKING_SETS)[number];

/** A place where the train does not stay, and how it goes off from there with nobody minding it. */
export interface GoesOff {
  chainage_m: number;
  /** As the whole train feels it. */
  gradient_percent: number;
  way: "forwards" | "backwards";
  /** Does it roll with bearings as free as they may be? If not, stiff bearings may hold it; nobody should count on that. */
  rolls: boolean;
  /** Null once it has left the line. */
  after: { time_s: number; speed_mps: number | null }[];
}

/** What a set of brakes holds of a train left standing, on the worse of the rails. */
export interface Parking {
  brakes: ParkingSet;
  rail: string;
  /** Steepest it holds on: gravity against the brakes alone, each at most its own wheels' grip. */
  holding_gradient_percent: number;
  places_it_will_not_hold: GoesOff[];
  chocks_wanted: boolean;
  /** Of these places the one from which it gets fastest. */
  worst: GoesOff | null;
}

const TOLD_AT_s = [10, 30, 60];
/** Less than this is level, percent: no club levels its rails better than to a millimetre in ten metres. */
const LEVEL_percent = 0.01;

/** Left standing anywhere on the way out; the place where it is pulled hardest is looked at besides. */
export function parkingWith({ plan, ways, places, step_s }: InCommon, rail: Rail): Parking[] {
  const [way] = ways;
  const steeper = steeperOn(way);
  const hardest_m = steepestPlace_m(way);
  const heads_m = [
    ...new Set([...places.filter((place) => place.way === way).map(({ along_m }) => along_m), hardest_m]),
  ];
  const answers: Parking[] = [];
  let before: Train | undefined;
  for (const set of PARKING_SETS) {
    const train = { ...parked(way.train, set), adhesion: rail.adhesion };
    const same = before?.brakes.length === train.brakes.length;
    const goes = (head_m: number) => goesOff(plan, train, steeper(head_m), head_m, step_s);
    answers.push(
      same ? { ...answers[answers.length - 1], brakes: set } : parking(set, rail, train, steeper, heads_m, goes),
    );
    before = train;
  }
  return answers;
}

function parking(
  set: ParkingSet,
  { rail }: Rail,
  train: Train,
  steeper: (head_m: number) => Way<Train>,
  heads_m: readonly number[],
  goes: (head_m: number) => GoesOff,
): Parking {
  const holding_percent = 100 * holdingSine(train);
  const failing = heads_m
    .filter((head_m) => Math.abs(gradientAt_percent(steeper(head_m), head_m)) > holding_percent + LEVEL_percent)
    .sort((a, b) => a - b)
    .map(goes);
  const fastest = ({ after }: GoesOff) => Math.max(...after.map(({ speed_mps }) => speed_mps ?? 0));
  return {
    brakes: set,
    rail,
    holding_gradient_percent: holding_percent,
    places_it_will_not_hold: failing,
    chocks_wanted: failing.length > 0,
    worst: failing.reduce<GoesOff | null>((most, each) => (most && fastest(most) >= fastest(each) ? most : each), null),
  };
}

/** The train with those brakes alone that may be left on. */
export function parked(train: Train, set: ParkingSet): Train {
  const left = train.brakes.filter(
    (brake) => brake.parking && (set === "all" || (set === "loco" && brake.vehicle === 0)),
  );
  const weights_N = train.brakedAxles_N.map((_, v) =>
    Math.max(0, ...left.filter(({ vehicle }) => vehicle === v).map(({ axleWeight_N }) => axleWeight_N)),
  );
  return { ...train, brakes: left, brakedAxles_N: weights_N };
}

/** The steepest that the train's brakes hold it on, all of them on; rolling resistance is given no credit. */
export function holdingSine(train: Train): number {
  const { brakes, brakedAxles_N, driven_N, adhesion } = train;
  const axles_N = new Float64Array(brakedAxles_N.length);
  let rims_N = 0;
  for (const brake of brakes) {
    axles_N[brake.vehicle] += brake.axle_N;
    rims_N += brake.rim_N;
  }
  const spare_N = (sine: number) => {
    const grip = adhesion.static * Math.sqrt(1 - sine * sine);
    const held_N = axles_N.reduce((sum, axle_N, v) => sum + Math.min(axle_N, grip * brakedAxles_N[v]), 0);
    return held_N + Math.min(rims_N, grip * driven_N) - train.mass_kg * G_mps2 * sine;
  };
  return spare_N(0) <= 0 ? 0 : spare_N(1) >= 0 ? 1 : root(spare_N, 0, 1);
}

/** Let go with its brakes on, in still air, on bearings as the train has them. Breakaway and the motor's drag may hold it or not: they are not counted on. */
const goesOff = (plan: Plan, held: Train, way: Way<Train>, head_m: number, coarse_s: number): GoesOff =>
  finerUntilClosed(coarse_s, (step_s) => goesOffOnce(plan, held, way, head_m, step_s));

function goesOffOnce(plan: Plan, held: Train, way: Way<Train>, head_m: number, step_s: number): GoesOff {
  const ready = trainToStop(held, "none", held.adhesion);
  const train = { ...ready, breakaway_N: ready.rolling_N };
  const after: GoesOff["after"] = TOLD_AT_s.map((time_s) => ({ time_s, speed_mps: null }));
  const driver = (w: Working) => {
    w.application.from.fill(1);
    w.application.wanted.fill(1);
    const left = w.track.kind === "end-to-end" && w.y[at.POSITION] > w.track.length_m;
    const rests = w.mode.train === 0 && w.time_s > 0;
    for (const told of after) {
      if (told.speed_mps !== null || (!rests && w.time_s < told.time_s - 1e-6)) continue;
      told.speed_mps = Math.abs(w.y[at.SPEED]);
    }
    if (rests || left || after[after.length - 1].speed_mps !== null) breakOff(w, "completed");
  };
  const working = { ...plan, train, track: way.track, wind_mps: 0, stops: [], duration_s: Number.POSITIVE_INFINITY };
  const w = run(working, {
    laps: Number.POSITIVE_INFINITY,
    runsOn: true,
    start: { chainage_m: head_m, held: true },
    driver,
    step_s,
  });
  const gradient_percent = gradientAt_percent(way, head_m);
  return {
    chainage_m: head_m,
    gradient_percent,
    way: gradient_percent < 0 ? "forwards" : "backwards",
    rolls: w.y[at.POSITION] !== head_m,
    after,
  };
}
