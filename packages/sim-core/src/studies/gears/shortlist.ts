import { balancingSpeed_mps } from "../../drive/climbing.js";
import { type Conditions, resistance_N } from "../../drive/pull.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { cold } from "../climb/climb.js";
import { chainsOf, type Duty } from "./chains.js";
import { alike, type Choice, fitted, type Pair, rather, regeared } from "./choices.js";
import { currentFault, type Fault, restartFault } from "./faults.js";
import {
  continuousCurrent_A,
  hardestPull_N,
  hardestRestart,
  type Restart,
  type Road,
  roadOf,
  steadyRms_A,
} from "./steady.js";

/** Ratios this near are one ratio; and, where there are too many to try them all, this near are alike. */
const EQUAL = 1e-9;
const ALIKE = 0.02;
/** Geared for more than this many times the wanted speed, or less than one part in it, a choice is out of the question. */
const WAY_OFF = 3;

/** What every choice is judged by. */
export interface Job {
  readonly plan: Plan;
  readonly conditions: Conditions;
  readonly road: Road;
  readonly wanted_mps: number;
  readonly continuous_A: number;
}

export function jobOf(plan: Plan): Job {
  const { train, speed_mps } = plan;
  const conditions = cold(plan);
  return {
    plan,
    conditions,
    road: roadOf(plan),
    wanted_mps: Number.isNaN(speed_mps) ? balancingSpeed_mps(train, conditions, 0) : speed_mps,
    continuous_A: continuousCurrent_A(train),
  };
}

/** A choice worth simulating. */
export interface Shortlisted {
  readonly pairs: readonly Pair[];
  readonly train: Train;
  readonly speed_mps: number;
  /** The wanted speed, or its own where that is less. */
  readonly running_mps: number;
  readonly restart: Restart;
  /** Of its chains, and so far as steady sums can tell. */
  readonly faults: readonly Fault[];
}

/** Fewest faults first; nearest the wanted speed first among equals. */
export const ranking =
  (wanted_mps: number) =>
  (a: { faults: readonly Fault[]; speed_mps: number }, b: { faults: readonly Fault[]; speed_mps: number }): number =>
    a.faults.length - b.faults.length || Math.abs(a.speed_mps - wanted_mps) - Math.abs(b.speed_mps - wanted_mps);

/** The most promising of all choices by steady sums, best first; of like ratios only the best. */
export function shortlist(job: Job, all: readonly Choice[], most: number): Shortlisted[] {
  const { motor, radius_m, gears: own } = job.plan.train;
  const boxes = own.stages.reduce((product, stage) => (stage.teeth ? product : product * stage.ratio), 1);
  const fits = (motor.rated.speed_radps * radius_m) / (job.wanted_mps * boxes);
  const near = all.filter(({ ratio }) => ratio < fits * WAY_OFF && ratio > fits / WAY_OFF);
  const worthwhile = near.length < most ? all : near;
  const equal = alike(worthwhile, EQUAL);
  const groups = equal.length > most ? alike(worthwhile, ALIKE) : equal;
  return groups
    .map((group) => looked(job, bestOf(job, group)))
    .sort(ranking(job.wanted_mps))
    .slice(0, most);
}

/** A choice with its train, and the faults of its chains. */
interface Fitted {
  readonly pairs: readonly Pair[];
  readonly train: Train;
  readonly faults: readonly Fault[];
}

/** The first without fault, in the order a builder would rather have them; or else the first with fewest. */
function bestOf(job: Job, group: readonly Choice[]): Fitted {
  let best: Fitted | undefined;
  for (const { pairs } of group.toSorted(rather)) {
    const train = regeared(job.plan.train, fitted(job.plan.train.gears, pairs));
    const { faults } = chainsOf(train.gears, dutyOf(job, train, job.wanted_mps));
    if (!best || faults.length < best.faults.length) best = { pairs, train, faults };
    if (faults.length === 0) break;
  }
  if (!best) throw new RangeError("a group of no choices");
  return best;
}

/** The gearing that the plan has, looked at as any choice is. */
export function ownGearing(job: Job): Shortlisted {
  const { train } = job.plan;
  const pairs = train.gears.stages.flatMap(({ teeth }) => (teeth ? [teeth] : []));
  return looked(job, { pairs, train, faults: chainsOf(train.gears, dutyOf(job, train, job.wanted_mps)).faults });
}

/** What the chains of a drive have to carry. */
export function dutyOf({ plan, conditions }: Job, train: Train, running_mps: number): Duty {
  return {
    running_N: resistance_N(train, running_mps, plan.wind_mps),
    running_mps,
    hardest_N: hardestPull_N(plan, train, conditions),
    rated_W: train.motor.rated.power_W,
    rated_radps: train.motor.rated.speed_radps,
    radius_m: train.radius_m,
  };
}

/** With the speed it reaches, and the faults that steady sums show. */
function looked(job: Job, { pairs, train, faults: ofChains }: Fitted): Shortlisted {
  const { plan, conditions, road, wanted_mps } = job;
  const speed_mps = balancingSpeed_mps(train, conditions, 0);
  const running_mps = Math.min(speed_mps, wanted_mps);
  const restart = hardestRestart(plan, road, train, conditions);
  const rms_A = steadyRms_A(train, conditions, road, running_mps, plan.wind_mps);
  const lasting_A = continuousCurrent_A(train, (running_mps * train.gears.ratio) / train.radius_m);
  const faults = [...ofChains, ...restartFault(restart), ...currentFault(rms_A, lasting_A)];
  return { pairs, train, speed_mps, running_mps, restart, faults };
}
