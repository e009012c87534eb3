import { drive, leverSettled } from "./driver/driver.js";
import { standReady } from "./driver/hands.js";
import { DRIVER_s } from "./driver/lever.js";
import { lookAhead } from "./driver/marks.js";
import { RunError } from "./errors.js";
import { stallOf } from "./loop/stall.js";
import { chooseStep_s } from "./loop/step.js";
import { createStepper, type Observer, type Stepper } from "./loop/stepper.js";
import { mustBeNumbers, mustClose } from "./record/sound.js";
import type { Plan } from "./train/plan.js";
import { end, log, type Start, startWorking, type Working } from "./working.js";

export interface RunOptions {
  /** Longest step of the integration; chosen by the program where absent. The time between two looks is cut into equal ones. */
  step_s?: number;
  /** Laps to run whatever the plan says; Infinity until something ends the day. */
  laps?: number;
  /** Where and how fast it begins, in place of standing ready. */
  start?: Start;
  /** Who looks up every tenth of a second, unless `looksIn` says later, and moves the lever or ends the working; in place of the plan's driver. */
  driver?: (w: Working) => void;
  /** Nobody looks out for a mark to stop at, nor for the end of the line: the last slope goes on. */
  runsOn?: boolean;
  /** Done once at this time, on which a step ends: the reaction time is over. */
  act?: { time_s: number; does: (w: Working) => void };
  observers?: readonly Observer[];
}

/** The books are looked at every minute, so that a run that is lost ends, s. */
const LOOKS_AT_BOOKS_s = 60;
const LOOKS_A_SECOND = Math.round(1 / DRIVER_s);
/** Of a count that is to be whole. */
const ROUNDING = 1e-6;
/** The longest day there is, s. */
const ONE_DAY_s = 86400;

/**
 * One working, from standing ready (or the start it is given) to its end. The driver looks up every tenth of a second,
 * rolling along every half; between his moves the train obeys its physics, and every event is landed on. Trouble on the line is an outcome, never
 * an exception.
 * @throws RunError where the run cannot be finished, or its books cannot be closed
 */
export function run(plan: Plan, options: RunOptions = {}): Working {
  const w = startWorking(options.laps === undefined ? plan : { ...plan, laps: options.laps }, options.start);
  const look = options.driver ?? drive;
  const step_s = options.step_s ?? chooseStep_s(w);
  let books_s = 0;
  mustEnd(w, step_s);
  if (!options.runsOn) lookAhead(w);
  if (w.mode.train === 0) standReady(w);
  if (w.mode.full) log(w, { kind: "battery_full" });
  if (options.act) {
    w.due_s.act = options.act.time_s;
    w.act = options.act.does;
  }
  const observer = tell(options.observers ?? []);
  const stepper = createStepper(w, observer);
  if (!options.start?.held) stepper.settle();
  for (let tenth = 0; w.outcome === undefined; ) {
    mustBeNumbers(w);
    if (w.time_s >= books_s) {
      mustClose(w, false);
      books_s += LOOKS_AT_BOOKS_s;
    }
    w.looksIn = 1;
    look(w);
    stepper.settle();
    lookForTheEnd(w);
    // Ended before it has moved on at all: whoever looks on has seen nothing yet.
    if (w.outcome !== undefined && w.time_s === 0) {
      observer.change?.(w, stepper.margins);
      observer.event(w);
    }
    tenth = goOn(w, stepper, tenth, step_s);
  }
  mustBeNumbers(w);
  mustClose(w);
  return w;
}

/**
 * Carries it on until the driver looks up again, in equal steps; after anything that happens that is on the next tenth,
 * however long the steps are.
 * @returns the tenth of a second at which that is
 */
function goOn(w: Working, stepper: Stepper, from: number, step_s: number): number {
  const seen = w.events.length;
  const inTenth = Math.max(1, Math.ceil(DRIVER_s / step_s - ROUNDING));
  const parts = inTenth > 1 ? w.looksIn * inTenth : Math.ceil((w.looksIn * DRIVER_s) / step_s - ROUNDING);
  for (let n = 1; n <= parts && w.events.length === seen; n++)
    stepper.advance((from * parts + n * w.looksIn) / (LOOKS_A_SECOND * parts));
  if (w.events.length === seen) return from + w.looksIn;
  const next = Math.max(from + 1, Math.ceil(w.time_s * LOOKS_A_SECOND - ROUNDING));
  for (let n = 1; n <= inTenth; n++) {
    const until_s = ((next - 1) * inTenth + n) / (LOOKS_A_SECOND * inTenth);
    while (w.time_s < until_s && w.outcome === undefined) stepper.advance(until_s);
  }
  return next;
}

/** What `createPlan` makes comes to an end; a plan that was changed by hand since might not. */
function mustEnd({ train, track }: Working, step_s: number): void {
  if (!(step_s > 0)) throw new RunError("no step follows this train: some figure of it is no number");
  const whole = track.distance_m[track.distance_m.length - 1] === track.length_m;
  if (!whole || !(train.length_m < track.length_m)) throw new RunError("this train does not stand on this line");
}

/** Stalled: at rest, the lever where it is wanted, and not leaving. Spinning under a standing train: slipping. */
function lookForTheEnd(w: Working): void {
  const { mode } = w;
  if (w.time_s >= ONE_DAY_s) end(w, { kind: "completed", by: "one_day" });
  if (mode.train !== 0 || !leverSettled(w)) return;
  const spinning = mode.wheels !== 0;
  // A driver to a speed eases off until the wheels grip again; a lever held keeps them spinning.
  if (spinning && !Number.isNaN(w.plan.speed_mps)) return;
  w.stall = stallOf(w);
  if (spinning) end(w, { kind: "slipping", by: "slipping", ...w.stall });
  else end(w, { kind: "stalled", by: "stalled", rolled_back: false, ...w.stall });
}

function tell(observers: readonly Observer[]): Observer {
  return {
    step(w, from_s, from, margins) {
      for (const observer of observers) observer.step(w, from_s, from, margins);
    },
    change(w, margins) {
      for (const observer of observers) observer.change?.(w, margins);
    },
    event(w) {
      for (const observer of observers) observer.event(w);
    },
  };
}
