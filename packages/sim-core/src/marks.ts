import { coastingIn, STOP_WITHIN_m } from "./approach.js";
import { potential_J } from "./balance.js";
import { shown } from "./errors.js";
import { mirrored } from "./parts/track.js";
import * as at from "./state.js";
import { reordered } from "./train.js";
import { end, log, type Working } from "./working.js";

/** Approach curves are drawn up to this multiple of the plan's speed. */
const CURVE_TO = 1.5;
/** Where the lever is held there is no speed of the plan; nothing on a club line runs faster, m/s. */
const FASTEST_mps = 15;

/** The head has reached a mark: a lap of a circuit is done, or the train has overrun the end of its line. */
export function reachMark(w: Working): void {
  if (w.track.kind === "circuit") {
    lapDone(w);
    w.mark_m = (w.lapsDone + 1) * w.track.length_m;
    return;
  }
  const why = w.stopping ? "" : "; it cannot be stopped here without a brake";
  end(w, "overran", "overran", `passed the end of the line at ${shown(w.y[at.SPEED], "m/s")}${why}`);
}

/** Works out how to coast in to the end of the line. */
export function lookAhead(w: Working): void {
  if (w.track.kind === "circuit") return;
  const fastest_mps = Number.isNaN(w.plan.speed_mps) ? FASTEST_mps : CURVE_TO * w.plan.speed_mps;
  w.approach = coastingIn(w, w.mark_m, fastest_mps);
}

/** The train has come to rest after shutting off: at the mark it turns back, short of it the driver draws up. */
export function arrive(w: Working): void {
  w.stopping = false;
  const short_m = w.mark_m - w.y[at.POSITION];
  w.drawingUp = short_m > STOP_WITHIN_m;
  if (w.drawingUp) {
    log(w, "draws_up", `rests ${shown(short_m, "m")} short and draws up`);
    return;
  }
  turnBack(w);
}

function turnBack(w: Working): void {
  const { plan, train, track } = w;
  const last = train.vehicles.length - 1;
  const order = train.vehicles.map((_, i) => i);
  if (plan.atEnds === "propel") order.reverse();
  if (plan.atEnds === "run-round")
    order.splice(0, last + 1, train.loco, ...order.filter((i) => i !== train.loco).reverse());
  const before_J = potential_J(w);
  w.train = reordered(train, order, plan.atEnds === "turn");
  w.track = mirrored(track);
  w.y[at.POSITION] = train.length_m + (track.length_m - w.y[at.POSITION]);
  w.shifted_J += potential_J(w) - before_J;
  w.hints.fill(0);
  w.wind_mps = -w.wind_mps;
  w.returning = !w.returning;
  log(w, "turns", "stands at the end of the line and turns back");
  if (w.returning) lookAhead(w);
  else lapDone(w);
}

function lapDone(w: Working): void {
  w.lapsDone++;
  const Wh = (w.y[at.DRAWN] - w.y[at.RETURNED]) / 3600;
  log(w, "lap", `lap ${w.lapsDone} done, ${shown(Wh, "Wh")} from the battery so far`);
  if (w.lapsDone >= w.plan.laps) end(w, "completed", "laps", `${w.lapsDone} ${w.lapsDone === 1 ? "lap" : "laps"} done`);
  else if (w.track.kind === "end-to-end") lookAhead(w);
}
