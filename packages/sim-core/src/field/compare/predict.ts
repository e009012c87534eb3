import type { EndedBy, Outcome } from "../../event.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Working } from "../../working.js";
import { type ByCell, type Cells, type Compared, cellAt, cellSums, poweredDuty } from "./cells.js";
import { following } from "./follow.js";
import { type Journey, STANDS_mps } from "./journey.js";

/** What the sums say of a journey, by pieces of the line. */
export interface Predicted {
  readonly cells: ByCell;
  /** What the load makes of each: the volts' sag from rest, currents, the duty beyond what turning unloaded takes. */
  readonly load: ByLoad;
  /** Completed where it came to the end of the log. */
  readonly outcome: Outcome;
  readonly by: EndedBy | null;
  /** Since the log began, to where it came. */
  readonly run_m: number;
}

/** What a load moves at the place itself. */
export const TOLD_BY_LOAD = [
  "motor_current",
  "battery_current",
  "battery_voltage",
  "duty",
] as const satisfies readonly Compared[];
export type ByLoad = Readonly<Record<(typeof TOLD_BY_LOAD)[number], Float64Array>>;

/** The plan's train driven along the line as the log tells that the real one was. @throws RunError */
export function predict(plan: Plan, journey: Journey, cells: Cells, motor_degC: number | undefined): Predicted {
  const { train, track } = plan;
  const fastest_mps = journey.speed_mps.reduce((most, each) => Math.max(most, each), 0);
  const driven: Plan = {
    ...plan,
    speed_mps: 1.5 * fastest_mps,
    lever: Number.NaN,
    stops: [],
    laps: Number.POSITIVE_INFINITY,
    duration_s: Number.POSITIVE_INFINITY,
  };
  const begins_m =
    track.kind === "circuit" ? journey.begins_m : Math.min(Math.max(journey.begins_m, train.length_m), track.length_m);
  const drive = following(journey);
  const { add, means } = cellSums(cells.count);
  const load = cellSums(cells.count);
  const taken = (w: Working) => {
    const speed_mps = w.y[at.SPEED];
    if (speed_mps >= STANDS_mps && w.time_s > 0) {
      const cell = cellAt(cells, w.y[at.POSITION] - begins_m);
      const { now } = w;
      add("speed", cell, speed_mps, 1);
      add("motor_current", cell, now.motor_A, 1);
      add("battery_current", cell, now.battery_A, 1);
      add("battery_voltage", cell, now.terminal_V, 1);
      add("temperature", cell, w.y[at.CASE], 1);
      add("duty", cell, poweredDuty(now.duty), 1);
      load.add("motor_current", cell, now.motor_A, 1);
      load.add("battery_current", cell, now.battery_A, 1);
      load.add("battery_voltage", cell, now.rested_V - now.terminal_V, 1);
      const turning_V = now.motor_V - now.winding_ohm * now.motor_A - now.brush_V;
      load.add("duty", cell, poweredDuty(now.duty) - turning_V / now.rested_V, 1);
    }
    drive(w);
  };
  const w = run(driven, {
    driver: taken,
    runsOn: true,
    start: {
      chainage_m: begins_m,
      speed_mps: journey.speed_mps[0] > STANDS_mps ? journey.speed_mps[0] : 0,
      ...(motor_degC !== undefined && { motor_degC }),
    },
  });
  return {
    cells: means(),
    load: load.means(),
    outcome: w.outcome ?? "completed",
    by: w.endedBy ?? null,
    run_m: w.y[at.POSITION] - begins_m,
  };
}
