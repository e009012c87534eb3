import { balancingSpeed_mps, restartGradient } from "../../drive/climbing.js";
import { type Conditions, gravity_N, grip_N, pullAt, resistance_N } from "../../drive/pull.js";
import { sound } from "../../record/sound.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import { cold, hot } from "./climb.js";

/** Pull and what is wanted of it at one speed, on straight line in still air. */
export interface EffortRow {
  speed_mps: number;
  /** At the driven rims with the lever full; the rail may not pass it on. */
  pull_cold_N: number;
  pull_hot_N: number;
  /** To keep that speed on the level, up the ruling gradient, and up the steepest on which it restarts. */
  level_N: number;
  ruling_N: number;
  restart_N: number;
}

/** The tractive effort diagram: what the drive gives at each speed beside what the line takes. */
export interface EffortAnswer {
  ruling_gradient_compensated_percent: number;
  restart_gradient_percent: number;
  /** Most that the driven wheels pass on, on the level. */
  grip_N: number;
  /** Where pull and what is wanted meet; 0 where it does not run. */
  level_speed_mps: number;
  ruling_speed_mps: number;
  ruling_speed_hot_mps: number;
  rows: EffortRow[];
}

const ROWS = 120;
/** Shown beyond the speed on the level, to see the pull give out. */
const BEYOND = 1.2;
/** Shown at least, of a train that does not run, m/s. */
const WALK_mps = 1.5;

/** @param ruling steepest uphill felt with curves, sine */
export function tractiveEffort(plan: Plan, ruling: number): EffortAnswer {
  mustBeAsked({ share: ruling });
  const { train } = plan;
  const [cool, warm] = [cold(plan), hot(plan)];
  const restart = restartGradient(train, cool).sine;
  const level_mps = balancingSpeed_mps(train, cool, 0);
  const asked_mps = Number.isNaN(plan.speed_mps) ? WALK_mps : plan.speed_mps;
  const fastest_mps = BEYOND * Math.max(level_mps, asked_mps);
  const pull_N = (conditions: Conditions, speed_mps: number) => Math.max(0, pullAt(train, conditions, speed_mps).rim_N);
  return sound({
    ruling_gradient_compensated_percent: 100 * ruling,
    restart_gradient_percent: 100 * restart,
    grip_N: grip_N(train, 0),
    level_speed_mps: level_mps,
    ruling_speed_mps: balancingSpeed_mps(train, cool, ruling),
    ruling_speed_hot_mps: balancingSpeed_mps(train, warm, ruling),
    rows: Array.from({ length: ROWS + 1 }, (_, i): EffortRow => {
      const speed_mps = (i * fastest_mps) / ROWS;
      const level_N = resistance_N(train, speed_mps);
      return {
        speed_mps,
        pull_cold_N: pull_N(cool, speed_mps),
        pull_hot_N: pull_N(warm, speed_mps),
        level_N,
        ruling_N: level_N + gravity_N(train, ruling),
        restart_N: level_N + gravity_N(train, restart),
      };
    }),
  });
}
