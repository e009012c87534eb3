import type { Approach, LimitAhead } from "./driver/curve.js";
import { RunError, shown } from "./errors.js";
import type { EndedBy, Ending, Event, Happening, Outcome, Stall } from "./event.js";
import { ROOM_FILL } from "./parts/battery.data.js";
import { startingWells_C } from "./parts/battery.js";
import { type Application, released } from "./parts/brakes.application.js";
import type { Stop } from "./parts/stops.js";
import type { Track } from "./parts/track.js";
import * as at from "./state.js";
import type { Plan } from "./train/plan.js";
import type { Train } from "./train/train.js";

/** One working of one train as it stands at `time_s`: what `run` carries from step to step. */
export interface Working {
  readonly plan: Plan;
  /** As the train sees it: mirrored on the way back of an end-to-end line. */
  track: Track;
  /** In running order: reversed while it propels back. */
  train: Train;
  readonly mode: at.Mode;
  readonly now: at.Instant;
  /** State vector; places as in state.ts. */
  readonly y: Float64Array;
  /** The state it began in. */
  readonly start: Float64Array;
  time_s: number;
  /** Lever of the controller, 0 to 1; below 0, to -1, it asks for the electric brake. */
  lever: number;
  /** Where the driver would have the lever if the ramp let him. */
  leverWanted: number;
  /** The driver looks up again in so many tenths of a second; sooner if anything happens. */
  looksIn: number;
  /** Is the driver holding the lever back for grip? */
  minding: boolean;
  /** Against the train, m/s: all the way round on a circuit, turned about on the way back of a line. */
  wind_mps: number;
  readonly air_degC: number;
  /** How far each brake is on. */
  readonly application: Application;
  /** Scratch: brake on the axles that are not driven, by vehicle, N. */
  readonly axleBrake_N: Float64Array;
  /** Chainage of the next mark: the end of the lap or of the line. */
  mark_m: number;
  /** The next place to stand, if any. */
  stop: NextStop | undefined;
  /** Passengers aboard, and how many have been carried so far. */
  aboard: number;
  carried: number;
  /** How fast it may run to coast to rest at the mark; undefined on a circuit, where no stop stands. */
  approach: Approach | undefined;
  /** Such curves as have been worked out. */
  readonly approaches: Map<string, Approach>;
  /** Has it shut off to stop at the mark? */
  stopping: boolean;
  /** The lower limit ahead that the driver slows for. */
  easing: LimitAhead | undefined;
  /** Is it drawing up to a mark it came to rest short of? */
  drawingUp: boolean;
  lapsDone: number;
  /** Is it on the way back of an end-to-end line? */
  returning: boolean;
  /** What is done once at a given time, such as putting on every brake when the reaction time is over. */
  act: ((w: Working) => void) | undefined;
  /** Times at which something acts unless it is called off before; Infinity while nothing is due. */
  readonly due_s: Record<Due, number>;
  /** Energy of vehicles lifted by hand when they change places, J. */
  shifted_J: number;
  tooHot: boolean;
  /** Of `train.breaking`, so many have been told to carry more than they can break. */
  switchesPassed: number;
  /** Rolled back to here, a train has run away: a lap behind, or off the end of the line. */
  runawayMark_m: number;
  /** Times it has rolled back, and whether the last time leaves no hope of getting further. */
  rollbacks: number;
  beaten: boolean;
  /** Since when it runs faster than the driver wants; NaN while it does not, Infinity once that is told. */
  fastSince_s: number;
  /** Why it stands, where it stalled, spins its wheels or was pulled back. */
  stall: Stall | undefined;
  outcome: Outcome | undefined;
  /** What ended it; undefined until then, and where a study broke it off. */
  endedBy: EndedBy | undefined;
  readonly events: Event[];
  /** Scratch: height and angle turned under each coupling, and the stretch each was last found in. */
  heights_m: Float64Array;
  turns_rad: Float64Array;
  hints: Int32Array;
}

/** A mark ahead at which the train must stand: a stop of the plan, or the end of the line. */
export interface NextStop {
  at_m: number;
  stop: Stop | undefined;
}

/** What runs on a timer. */
export type Due = "cutout" | "overcurrent" | "lowVoltage" | "dwell" | "act" | "duration";
const NEVER = Number.POSITIVE_INFINITY;

/** Where and how fast a working begins; whatever is absent is as for a train standing ready. */
export interface Start {
  /** Of the head: from 0 to less than the lap, or from the train's length to less than the line's. */
  chainage_m?: number;
  /** Negative: already rolling back. */
  speed_mps?: number;
  /** Of the motor, winding and case alike, where it is not as cold as the air. */
  motor_degC?: number;
  /** Held on a brake or by hand until the driver has first moved the lever. */
  held?: boolean;
}

/** A train standing ready, unless told: head at chainage 0 of a circuit, tail at the first post of a line. */
export function startWorking(plan: Plan, start: Start = {}): Working {
  const { train, track } = plan;
  const speed_mps = start.speed_mps ?? 0;
  const way = speed_mps > 0 ? 1 : speed_mps < 0 ? -1 : 0;
  const y = new Float64Array(at.SIZE);
  y[at.POSITION] = start.chainage_m ?? (track.kind === "circuit" ? 0 : train.length_m);
  y[at.SPEED] = speed_mps;
  y[at.RIM_SPEED] = speed_mps;
  [y[at.AVAILABLE], y[at.BOUND]] = startingWells_C(train.battery, plan.charge);
  y[at.WINDING] = start.motor_degC ?? plan.air_degC;
  y[at.CASE] = y[at.WINDING];
  const ends = train.ends_m.length;
  return {
    plan,
    track,
    train,
    mode: { ...at.atRest(train.vehicles.length), train: way, rim: way, full: startsFull(plan) },
    now: at.newInstant(),
    y,
    start: y.slice(),
    time_s: 0,
    lever: 0,
    leverWanted: 0,
    looksIn: 1,
    minding: false,
    wind_mps: plan.wind_mps,
    air_degC: plan.air_degC,
    mark_m: track.length_m,
    application: released(train.brakes),
    axleBrake_N: new Float64Array(train.vehicles.length),
    approach: undefined,
    approaches: new Map(),
    stop: undefined,
    aboard: plan.passengers,
    carried: plan.passengers,
    stopping: false,
    easing: undefined,
    drawingUp: false,
    lapsDone: 0,
    returning: false,
    due_s: {
      cutout: NEVER,
      overcurrent: NEVER,
      lowVoltage: NEVER,
      dwell: NEVER,
      act: NEVER,
      duration: plan.duration_s,
    },
    shifted_J: 0,
    act: undefined,
    tooHot: false,
    switchesPassed: 0,
    runawayMark_m: Number.NEGATIVE_INFINITY,
    rollbacks: way < 0 ? 1 : 0,
    beaten: false,
    fastSince_s: Number.NaN,
    stall: undefined,
    outcome: undefined,
    endedBy: undefined,
    events: [],
    heights_m: new Float64Array(ends),
    turns_rad: new Float64Array(ends),
    hints: new Int32Array(ends),
  };
}

/** Is a battery that is braked into as full as a charger leaves it? What little is drawn first makes no room in it. */
export const startsFull = ({ train: { battery, controller, availableFull_C }, charge }: Plan): boolean =>
  controller.electricBrake === "regenerative" && startingWells_C(battery, charge)[0] > ROOM_FILL * availableFull_C;

/** Chainage on the line as people count it: from the first post, out and back alike. */
export function chainage_m(w: Working, y: Float64Array = w.y): number {
  const along = y[at.POSITION];
  if (w.track.kind === "circuit") return along - Math.floor(along / w.track.length_m) * w.track.length_m;
  return w.returning ? w.track.length_m - along : along;
}

/** So many events fill a book: a day of laps of half a minute has a quarter of it. */
const MOST_EVENTS = 100_000;

/**
 * Writes an event into the log.
 * @throws RunError where there are too many of them to be read
 */
export function log(w: Working, what: Happening): void {
  if (w.events.length >= MOST_EVENTS)
    throw new RunError(
      `${MOST_EVENTS} events in ${shown(w.time_s, "s")}, the last "${what.kind}": nobody reads more of them`,
    );
  w.events.push({ time_s: w.time_s, lap: w.lapsDone + 1, chainage_m: chainage_m(w), ...what });
}

/**
 * Moves the lever towards where it is wanted, as far as the ramp lets it go in the time; shutting it is at once when it is
 * to go to the other side. Shut, it opens the circuit; below 0 it brakes with the motor.
 */
export function moveLever(w: Working, wanted: number, time_s: number): void {
  const { ramp_s } = w.train.controller;
  const reach = ramp_s > 0 ? time_s / ramp_s : 1;
  const from = wanted * w.lever < 0 ? 0 : w.lever;
  w.leverWanted = wanted;
  w.lever = Math.min(Math.max(wanted, from - reach), from + reach);
  if (w.lever === 0) shutLever(w);
  w.mode.powered = w.lever !== 0 && w.mode.connected;
  w.mode.braking = w.lever < 0 && w.mode.connected;
}

/** Shuts the lever: the motor circuit is open. A cut-out that was waiting is called off. */
export function shutLever(w: Working): void {
  w.lever = 0;
  w.leverWanted = 0;
  w.mode.powered = false;
  w.mode.braking = false;
  w.mode.excited = false;
  w.due_s.cutout = NEVER;
}

/** Ends the working: an outcome, never an exception. */
export function end(w: Working, ending: Ending): void {
  if (w.outcome !== undefined) return;
  w.outcome = ending.kind;
  w.endedBy = ending.by;
  log(w, ending);
}

/** Ends it for a study that has seen what it wanted; nothing of that is logged. */
export function breakOff(w: Working, outcome: Outcome): void {
  w.outcome ??= outcome;
}
