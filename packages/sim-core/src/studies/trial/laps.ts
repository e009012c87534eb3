import { run } from "../../run.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import type { Working } from "../../working.js";
import { askedOnce, isSameBut } from "./asked.js";
import type { Machine, Outing } from "./machine.js";

/** Laps after which the machine is looked at again. */
const LAPS = 10;

/** The machine after its laps. */
export interface AfterLaps {
  charge: number;
  winding_degC: number;
  case_degC: number;
}

/** What one lap takes: of the charge, and of the motor, whose heat goes by the mean square of its current. */
export interface LapTaken {
  used: number;
  square_A2: number;
}

/** Null where the laps are not finished. */
export type LapOf = (m: Machine) => LapTaken | null;

/** Laps of the plan with its driver alone; null where they are not finished. */
export function afterLaps(m: Machine, outing: Outing, step_s: number): AfterLaps | null {
  const w = goesRound(m) ? lapsOf(m, outing, LAPS, step_s) : undefined;
  if (!w) return null;
  return {
    charge: m.charge - w.y[at.DRAWN_CHARGE] / m.train.battery.label_C,
    winding_degC: w.y[at.WINDING],
    case_degC: w.y[at.CASE],
  };
}

/** All that a lap goes by. */
interface LapAsked {
  readonly train: Train;
  readonly charge: number;
  readonly wind_mps: number;
}

/** A single lap of an outing's train, sound or not; each is run once. */
export function lapOf(outing: Outing, step_s: number): LapOf {
  const isSame = (a: LapAsked, b: LapAsked) => isSameBut(a, b, "train") && isSameBut(a.train, b.train);
  const taken = askedOnce(isSame, (asked: LapAsked): LapTaken | null => {
    const w = lapsOf(asked, outing, 1, step_s);
    if (!w) return null;
    const used = w.y[at.DRAWN_CHARGE] / asked.train.battery.label_C;
    return { used, square_A2: w.y[at.MOTOR_SQUARE] / w.time_s };
  });
  return (m) => (goesRound(m) ? taken({ train: m.train, charge: m.charge, wind_mps: m.wind_mps }) : null);
}

const goesRound = (m: Machine): boolean => !m.blocked && !m.open && !m.cutsOut && m.leftAt === undefined;

function lapsOf(asked: LapAsked, { train: plan }: Outing, laps: number, step_s: number): Working | undefined {
  const { train, charge, wind_mps } = asked;
  const trains = new Map([[0, train]]);
  const working: Plan = { ...plan, train, trains, charge, wind_mps, laps, duration_s: Infinity };
  const w = run(working, { step_s });
  return w.outcome === "completed" ? w : undefined;
}
