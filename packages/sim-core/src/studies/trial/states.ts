import { grip_N } from "../../drive/pull.js";
import { holdingSine, parked } from "../brakes/parking.js";
import type { BrakeSet } from "../brakes/sets.js";
import { type AfterLaps, afterLaps } from "./laps.js";
import type { Machine } from "./machine.js";
import type { Setting } from "./setting.js";
import { gripping, neededToStart_N, onStands, running, type Settled, ungripped_N } from "./settled.js";

/** One machine in every state of the outing, each worked out when it is first asked for and kept. */
export interface States {
  readonly m: Machine;
  stands(lever: number): Settled;
  /** Against a spring balance, gently and as hard as it pulls before anything slips. */
  held(): Settled;
  heldHardest(): Settled;
  /** On the level with the lever at its two notches. */
  walk(): Settled;
  run(): Settled;
  /** Standing on the level and at the steepest place, the lever opened until it is full or something slips. */
  hardestOnLevel(): Settled;
  hardest(): Settled;
  /**
   * There, by how much the pull passed on is more than what holds the train, the grip more than that pull, and the pull
   * more than the sprockets pass on.
   */
  spare(): { start_N: number; grip_N: number; slip_N: number };
  stop_m(set: BrakeSet, speed_mps: number): number | null;
  /** By how much the gradient held by parking brakes is more than the steepest place. */
  holds(set: "loco" | "all"): number;
  after(): AfterLaps | null;
  /** On the level after the laps, as warm and as far down as it then is. */
  warm(): Settled | null;
}

/** @param laps how it is after its laps, where that is known otherwise than by running them */
export function statesOf(setting: Setting, m: Machine, laps?: () => AfterLaps | null): States {
  const known = new Map<string, unknown>();
  const once = <T>(key: string, work: () => T): T => {
    if (!known.has(key)) known.set(key, work());
    return known.get(key) as T;
  };
  const { levers, outing, step_s, stopOf } = setting;
  const off = m.leverOff;
  // A train that does not move is left standing with the lever anywhere, but not so that its wheels spin.
  const onTheLevel = (lever: number): Settled => {
    const settled = running(m, m.train, m.level, lever);
    return settled.speed_mps > 0 || m.leftAt === undefined ? settled : gripping(m, m.train, m.level, m.leftAt);
  };
  const states: States = {
    m,
    stands: (lever) => once(`stands ${lever}`, () => onStands(m, lever < 1 ? lever * (1 + off.stands) : 1)),
    held: () => once("held", () => gripping(m, m.light, 0, levers.held * (1 + off.held))),
    walk: () => once("walk", () => onTheLevel(levers.walk * (1 + off.run))),
    run: () => once("run", () => onTheLevel(levers.run < 1 ? levers.run * (1 + off.run) : 1)),
    hardestOnLevel: () => once("hardest on level", () => gripping(m, m.train, m.level, 1)),
    hardest: () => once("hardest", () => gripping(m, m.train, m.steep, 1)),
    heldHardest: () => once("held hardest", () => gripping(m, m.light, 0, 1)),
    spare: () =>
      once("spare", () => {
        const { train } = m;
        // Whatever slips, its own limit counts: sliding is only what is left of it.
        const pull_N = ungripped_N(m, train, 1);
        const gripped_N = grip_N(train, m.steep);
        const passed_N = Math.min(pull_N, gripped_N, m.sprockets_N);
        return {
          start_N: passed_N - neededToStart_N(m, train, m.steep),
          grip_N: gripped_N - Math.min(pull_N, m.sprockets_N),
          slip_N: Math.min(pull_N, gripped_N) - m.sprockets_N,
        };
      }),
    stop_m(set, speed_mps) {
      const { train, level, wind_mps } = m;
      return m.blocked || !(speed_mps > 0) ? null : stopOf({ train, level, wind_mps, set, speed_mps, step_s });
    },
    holds: (set) => once(`holds ${set}`, () => holdingSine(parked(m.train, set)) - Math.abs(m.steep)),
    after: () => once("after", () => (laps ? laps() : afterLaps(m, outing, step_s))),
    warm: () =>
      once("warm", () => {
        const after = states.after();
        return after ? running({ ...m, charge: after.charge }, m.train, m.level, levers.run) : null;
      }),
  };
  return states;
}
