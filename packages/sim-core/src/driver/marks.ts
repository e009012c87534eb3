import { mirrored } from "../parts/track.js";
import { potential_J } from "../record/balance.js";
import * as at from "../state.js";
import { turnedBack } from "../train/rolling.js";
import { end, log, type NextStop, type Working } from "../working.js";
import { approachTo, STOP_WITHIN_m } from "./approach.js";
import type { Approach } from "./curve.js";
import { hasServiceBrake } from "./hands.js";

/** Approach curves are drawn up to this: nothing on a club line runs faster, even where no brake holds it, m/s. */
const FASTEST_mps = 15;

/** The head has reached the end of a lap. */
export function reachMark(w: Working): void {
  lapDone(w);
  w.mark_m = (w.lapsDone + 1) * w.track.length_m;
}

/** The head has passed the mark of a stop by more than a stop may. */
export function overrun(w: Working): void {
  const { stop, stopping: shut_off } = w;
  end(w, { kind: "overran", by: "overran", place: placeOf(stop), speed_mps: w.y[at.SPEED], shut_off });
}

/** Null for the end of the line. */
const placeOf = (stop: NextStop | undefined): string | null => stop?.stop?.place ?? null;

/** Finds the next stop ahead and works out how to come to rest at it. */
export function lookAhead(w: Working): void {
  w.stop = nextStop(w);
  w.stopping = false;
  w.drawingUp = false;
  w.approach = undefined;
  if (!w.stop) return;
  w.approach = approachFor(w, w.stop);
  const { stopsFrom_m } = w.approach;
  if (w.stop.at_m - w.y[at.POSITION] <= stopsFrom_m) return;
  const within_m = stopsFrom_m < STOP_WITHIN_m ? null : stopsFrom_m;
  log(w, { kind: "cannot_stop", place: placeOf(w.stop), within_m });
}

/** The curve to a stop, worked out once for each stop, way and load. */
function approachFor(w: Working, { at_m, stop }: NextStop): Approach {
  const key = `${stop?.place ?? "end"} ${w.returning} ${w.aboard}`;
  const known = w.approaches.get(key);
  if (known) return known;
  const braking = !Number.isNaN(w.plan.speed_mps) && hasServiceBrake(w);
  const room = atEnd(w) && !hasServiceBrake(w);
  const found = approachTo(w, at_m, { braking, limit_mps: 0, top_mps: FASTEST_mps, room });
  w.approaches.set(key, found);
  return found;
}

/** The nearest mark ahead at which the train must stand; on a circuit none if the plan names no stop. */
function nextStop(w: Working): NextStop | undefined {
  const { track, plan } = w;
  const head_m = w.y[at.POSITION] + STOP_WITHIN_m;
  const circuit = track.kind === "circuit";
  let next: NextStop | undefined = circuit ? undefined : { at_m: track.length_m, stop: undefined };
  for (const stop of plan.stops) {
    if (!circuit && stop.direction === (w.returning ? "out" : "back")) continue;
    const along_m = w.returning ? track.length_m - stop.chainage_m : stop.chainage_m;
    const laps = circuit ? Math.ceil((head_m - along_m) / track.length_m) : 0;
    const at_m = along_m + laps * track.length_m;
    if (at_m > head_m && (next === undefined || at_m <= next.at_m)) next = { at_m, stop };
  }
  return next;
}

/** The train has come to rest after shutting off: at the mark it stands its time, short of it the driver draws up. */
export function arrive(w: Working): void {
  const { stop } = w;
  if (!stop) return;
  w.stopping = false;
  const short_m = stop.at_m - w.y[at.POSITION];
  w.drawingUp = short_m > STOP_WITHIN_m;
  if (w.drawingUp) {
    log(w, { kind: "draws_up", short_m });
    return;
  }
  log(w, { kind: "stop", place: placeOf(stop) });
  const lap = w.track.kind === "circuit" && Math.abs(stop.at_m - w.mark_m) < STOP_WITHIN_m;
  if (lap) reachMark(w);
  if (w.outcome !== undefined) return;
  board(w);
  w.due_s.dwell = w.time_s + (stop.stop?.dwell_s ?? 0);
}

/** Passengers on and off, at rest: the train's mass changes. */
function board(w: Working): void {
  const aboard = w.stop?.stop?.passengers;
  if (aboard === undefined) return;
  w.carried += aboard;
  w.aboard = aboard;
  lift(w, () => makeUp(w));
  log(w, { kind: "boarding", passengers: aboard });
}

/** The train as those aboard and its way along the line make it. */
function makeUp(w: Working): void {
  const loaded = w.plan.trains.get(w.aboard) ?? w.plan.train;
  w.train = w.returning ? turnedBack(loaded, w.plan.atEnds) : loaded;
}

/** What a change of the train at rest lifts is lifted by hand, and booked as that. */
function lift(w: Working, change: () => void): void {
  const before_J = potential_J(w);
  change();
  w.shifted_J += potential_J(w) - before_J;
}

/** Is the next stop the end of the line? */
const atEnd = ({ track, stop }: Working): boolean =>
  track.kind === "end-to-end" && stop !== undefined && stop.at_m > track.length_m - STOP_WITHIN_m;

/** The time at the stop is over: off again, the other way at the end of a line. */
export function leaveStop(w: Working): void {
  w.due_s.dwell = Number.POSITIVE_INFINITY;
  if (atEnd(w)) turnBack(w);
  if (w.outcome === undefined) lookAhead(w);
}

function turnBack(w: Working): void {
  lift(w, () => {
    w.returning = !w.returning;
    makeUp(w);
    w.track = mirrored(w.track);
    w.y[at.POSITION] = w.train.length_m + (w.track.length_m - w.y[at.POSITION]);
  });
  w.hints.fill(0);
  w.easing = undefined;
  w.wind_mps = -w.wind_mps;
  log(w, { kind: "turns" });
  if (!w.returning) lapDone(w);
}

function lapDone(w: Working): void {
  w.lapsDone++;
  const { y, lapsDone: laps_done } = w;
  log(w, { kind: "lap", laps_done, energy_Wh: (y[at.DRAWN] - y[at.RETURNED]) / 3600 });
  if (laps_done >= w.plan.laps) end(w, { kind: "completed", by: "laps", laps_done });
}
