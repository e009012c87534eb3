import { pullAt } from "../../drive/pull.js";
import type { Plan } from "../../train/plan.js";
import { electricBrake } from "../check/electric-brake.js";
import { cold } from "../climb/climb.js";
import { bestGrip, mostGrip_N } from "../gears/steady.js";
import type { RimLoads } from "./answer.js";

/** What can come to the driven rims at the most, driving or braking through the chains. */
export function rimLoads(plan: Plan): RimLoads {
  const { train } = plan;
  const current_limit_N = Math.max(0, pullAt(train, cold(plan), 0).rim_N);
  const braking_N = brakingThrough_N(plan);
  const slipping_N = mostGrip_N(plan, train);
  const unslipped_N = Math.max(current_limit_N, braking_N ?? 0);
  return {
    current_limit_N,
    braking_N,
    slipping_N,
    slipping_grip: bestGrip(train),
    worst_N: Math.min(unslipped_N, slipping_N),
    governed_by:
      unslipped_N > slipping_N ? "slipping" : (braking_N ?? 0) > current_limit_N ? "braking" : "current_limit",
  };
}

/** The motor as a brake, or brakes on its shaft fully on, as the rims feel them, N; whichever is more, null with neither. */
function brakingThrough_N(plan: Plan): number | null {
  const electric = electricBrake(plan);
  const motor_N = electric ? Math.max(electric.force_N, electric.force_at_start_N) : 0;
  const onShaft_N = plan.train.brakes.reduce((sum, { shaft_N, rim_N }) => sum + (shaft_N > 0 ? rim_N : 0), 0);
  const most_N = Math.max(motor_N, onShaft_N);
  return most_N > 0 ? most_N : null;
}
