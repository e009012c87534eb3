import { resistance_N } from "../../drive/pull.js";
import type { Outcome } from "../../event.js";
import { stockedTeeth, USUAL_CHAIN } from "../../parts/chain.data.js";
import { sound } from "../../record/sound.js";
import type { LimitedBy } from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { acrossAxle_m } from "../../train/warnings.absurd.js";
import { mustBeAsked, mustBeList } from "../asked.js";
import { workedOnce } from "../once.js";
import type { ChainRow } from "./chain.row.js";
import { chainsOf } from "./chains.js";
import { type Choice, choicesOf, fitted, isSprocket, type Pair, sizesOf } from "./choices.js";
import { currentFault, type Fault, heatFault, restartFault, workingFault } from "./faults.js";
import { type GearsRemark, remarksOn } from "./remarks.js";
import { dutyOf, type Job, jobOf, ownGearing, ranking, type Shortlisted, shortlist } from "./shortlist.js";
import { continuousCurrent_A, currentFor_A } from "./steady.js";

/** A choice of sprockets, tried in the plan's working. */
export interface GearsRow {
  teeth: Pair[];
  /** Turns of the motor for one of the axle, closed gearboxes included. */
  ratio: number;
  /** On the level with the lever full, at the plan's charge. */
  speed_mps: number;
  /** Steepest straight gradient it starts on, motor cold, and what limits it. */
  restart_gradient_percent: number;
  restart_limited_by: LimitedBy;
  /** On the level at the wanted speed, or its own where that is less. */
  motor_current_A: number;
  /** Over the working. */
  rms_motor_current_A: number;
  peak_winding_temperature_C: number;
  outcome: Outcome;
  /** Least margin of its chains: breaking load over the highest tension; null where nothing pulls at them. */
  chain_margin: number | null;
  chains: ChainRow[];
  faults: Fault[];
}

/** The answer of `gears`. */
export interface GearsAnswer {
  /** The plan's speed; where it holds a lever, what the loco as it is reaches on the level. */
  wanted_speed_mps: number;
  /** Steepest uphill as the whole train feels it, curves added: what a restart is judged by. */
  ruling_gradient_compensated_percent: number;
  /** What the motor stands for ever. */
  continuous_current_A: number;
  teeth_to_hand: number[];
  /** Ways to gear down with these teeth, and how many of them were simulated: the rows. */
  choices: number;
  simulated: number;
  /** Best first: those without fault, nearest the wanted speed; then by the number of faults. */
  rows: GearsRow[];
  /** The gearing that the plan has, closed gearboxes without teeth, tried as the rows are. */
  own: GearsRow;
  remarks: GearsRemark[];
}

export interface GearsOptions {
  step_s?: number;
  /** Choices to simulate at most. */
  most?: number;
  /** Told how many of them are simulated, after each. */
  onTried?: (tried: number, of: number) => void;
}

const MOST = 12;
/** Of a whole stock, driving sprockets are tried up to this many teeth: chain makers' advice for high speed. */
const MOST_DRIVING = 25;

/**
 * Sprocket choices in one and two stages, ranked. All are looked at by steady sums; of those whose ratios are alike the
 * best stays, and the most promising are then simulated in the plan's working.
 * @param teeth to hand; where absent, those that shops keep for the chain the loco file names
 * @throws InputError where a number is not one of teeth, or an option is wrong
 */
export function gears(plan: Plan, teeth?: readonly number[], options: GearsOptions = {}): GearsAnswer {
  mustBeAsked(options);
  mustBeList("teeth", teeth, isSprocket, "whole numbers of teeth, from 5 to 200,");
  const named = plan.train.gears.stages.flatMap(({ chain }) => chain ?? []);
  const sizes = sizesOf(teeth ?? stockedTeeth(named[0] ?? USUAL_CHAIN));
  const job = jobOf(plan);
  const every = choicesOf(sizes, teeth ? Number.POSITIVE_INFINITY : MOST_DRIVING);
  const fitting = teeth ? every : every.filter((choice) => fits(plan.train, choice));
  // Under wheels so small that nothing fits, what is wrong is told of each.
  const all = fitting.length > 0 ? fitting : every;
  const promising = shortlist(job, all, options.most ?? MOST);
  const rows = promising
    .map((choice, i) => {
      const row = tried(job, choice, options.step_s);
      options.onTried?.(i + 1, promising.length);
      return row;
    })
    .sort(ranking(job.wanted_mps));
  return sound({
    wanted_speed_mps: job.wanted_mps,
    ruling_gradient_compensated_percent: 100 * Math.max(...job.road.ruling),
    continuous_current_A: job.continuous_A,
    teeth_to_hand: sizes,
    choices: all.length,
    simulated: rows.length,
    rows,
    own: tried(job, ownGearing(job), options.step_s),
    remarks: remarksOn(plan.train.gears, {
      stocked: teeth === undefined,
      choices: all.length,
      simulated: rows.length,
      chains: rows.flatMap(({ chains }) => chains),
      gripless:
        rows.length > 0 &&
        rows.every(({ faults }) => faults.some((each) => each.code === "no_restart" && each.limited_by === "adhesion")),
    }),
  });
}

/** Does the sprocket on the axle stay above the rail? */
function fits({ gears: own, radius_m }: Train, { pairs }: Choice): boolean {
  const last = fitted(own, pairs).stages.at(-1);
  return last === undefined || acrossAxle_m(last) < 2 * radius_m;
}

/** The choice in the plan's working. */
function tried(job: Job, choice: Shortlisted, step_s: number | undefined): GearsRow {
  const { plan, conditions } = job;
  const { train, restart, running_mps } = choice;
  const { chains, faults } = chainsOf(train.gears, dutyOf(job, train, running_mps));
  const running_N = resistance_N(train, running_mps, plan.wind_mps);
  const lasting_A = continuousCurrent_A(train, (running_mps * train.gears.ratio) / train.radius_m);
  const ran = workedOnce({ ...plan, train }, step_s === undefined ? {} : { step_s });
  return {
    teeth: [...choice.pairs],
    ratio: train.gears.ratio,
    speed_mps: choice.speed_mps,
    restart_gradient_percent: 100 * restart.sine,
    restart_limited_by: restart.limited_by,
    motor_current_A: currentFor_A(train, conditions, running_N, running_mps),
    rms_motor_current_A: ran.rms_motor_current_A,
    peak_winding_temperature_C: ran.peak_winding_temperature_C,
    outcome: ran.outcome,
    chain_margin: chains.reduce<number | null>(
      (least, { margin }) => (margin === null || (least !== null && least < margin) ? least : margin),
      null,
    ),
    chains,
    faults: [
      ...faults,
      ...restartFault(restart),
      ...workingFault(ran.outcome, ran.events[ran.events.length - 1]),
      ...currentFault(ran.rms_motor_current_A, lasting_A),
      ...heatFault(ran.peak_winding_temperature_C, train.heat.limit_degC),
    ],
  };
}
