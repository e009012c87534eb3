import { throughMeshes_N, turn } from "../../drive/meshes.js";
import { pullAt } from "../../drive/pull.js";
import { SLIDING_SHARE } from "../../parts/adhesion.js";
import type { Plan } from "../../train/plan.js";
import { electricBrake } from "../check/electric-brake.js";
import { cold } from "../climb/climb.js";
import { bestGrip, mostGrip_N } from "../gears/steady.js";
import type { RimLoads } from "./answer.js";

/** The same, and what each shaft passes on while the wheels spin, as seen at the tread, from the motor to the axle. */
export interface Loads extends RimLoads {
  readonly spinning: Float64Array;
}

/** What can come to the driven rims at the most, driving or braking through the chains. */
export function rimLoads(plan: Plan): Loads {
  const { train } = plan;
  const current_limit_N = Math.max(0, pullAt(train, cold(plan), 0).rim_N);
  const braking_N = brakingThrough_N(plan);
  const grip_N = mostGrip_N(plan, train);
  const spinning = spinningAt(plan, current_limit_N, SLIDING_SHARE * grip_N);
  const spinning_N = current_limit_N > grip_N ? spinning[spinning.length - 1] : null;
  const slipping_N = Math.max(grip_N, spinning_N ?? 0);
  const unslipped_N = Math.max(current_limit_N, braking_N ?? 0);
  return {
    current_limit_N,
    braking_N,
    grip_N,
    grip: bestGrip(train),
    spinning_N,
    slipping_N,
    worst_N: Math.min(unslipped_N, slipping_N),
    governed_by: governedBy(unslipped_N, braking_N, current_limit_N, slipping_N),
    spinning,
  };
}

/** Which of the loads at the limits it is. */
export function governedBy(
  unslipped: number,
  braking: number | null,
  current_limit: number,
  slipping: number,
): RimLoads["governed_by"] {
  if (unslipped > slipping) return "slipping";
  return (braking ?? 0) > current_limit ? "braking" : "current_limit";
}

/**
 * With the wheels spinning the motor speeds up all that turns: what comes after a shaft is sped up through it, beside what
 * the rail takes sliding. Heavy wheels behind a light rotor can make that more than the grip that was lost.
 */
function spinningAt({ train }: Plan, limit_N: number, sliding_N: number): Float64Array {
  const { meshes, gears } = train;
  const shaft_N = limit_N / gears.efficiency;
  const found = { rimAcceleration_mps2: 0, rim_N: 0 };
  turn(meshes, shaft_N, sliding_N, 0, 1, found);
  const carried_N = new Float64Array(gears.stages.length + 1);
  throughMeshes_N(meshes, shaft_N, found.rimAcceleration_mps2, 1, carried_N);
  return carried_N;
}

/** The motor as a brake, or brakes on its shaft fully on, as the rims feel them, N; whichever is more, null with neither. */
function brakingThrough_N(plan: Plan): number | null {
  const electric = electricBrake(plan);
  const motor_N = electric ? Math.max(electric.force_N, electric.force_at_start_N) : 0;
  const onShaft_N = plan.train.brakes.reduce((sum, { shaft_N, rim_N }) => sum + (shaft_N > 0 ? rim_N : 0), 0);
  const most_N = Math.max(motor_N, onShaft_N);
  return most_N > 0 ? most_N : null;
}
