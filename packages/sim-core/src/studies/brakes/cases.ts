import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import type { Way } from "../ways.js";
import type { Place } from "./places.js";
import type { BrakeSet, Rail } from "./sets.js";
import { type Stopped, stopFrom, type ToStop, toStop } from "./stop.js";

/** One stop. Distance and time count from the moment the driver should act. */
export interface BrakesRow extends Omit<Stopped, "battery_full" | "grip_used"> {
  /** Of the head, from the first post. */
  chainage_m: number;
  /** Back only on an end-to-end line. */
  direction: "out" | "back";
  speed_mps: number;
  /** As the whole train feels it; uphill +, the way it runs. */
  gradient_percent: number;
  brakes: BrakeSet;
  rail: string;
}

/** One set of brakes on one rail: its stops from every place. */
export interface Case {
  readonly set: BrakeSet;
  readonly rail: Rail;
  /** The train ready to be stopped on the way that a place is on. */
  readonly ready: (place: Place) => ToStop;
  readonly rows: readonly BrakesRow[];
  /** Places from which the end of the line is out of sight, the hardest to stop from first, with their rows. */
  readonly hardest: readonly { place: Place; row: BrakesRow }[];
  readonly batteryFull: boolean;
  /** Most that any stop asked of the driven wheels' grip, as a share of the load on them. */
  readonly gripUsed: number;
}

/** What all cases have in common. */
export interface InCommon {
  readonly plan: Plan;
  readonly ways: readonly Way<Train>[];
  readonly places: readonly Place[];
  readonly speed_mps: number;
  readonly sight_m: number;
  readonly step_s: number;
}

export function caseOf({ plan, ways, places, speed_mps, sight_m, step_s }: InCommon, set: BrakeSet, rail: Rail): Case {
  const byWay = new Map(ways.map((way) => [way, toStop(plan, way, set, rail, step_s)]));
  const ready = ({ way }: Place) => byWay.get(way) as ToStop;
  let batteryFull = false;
  let gripUsed = 0;
  const stops = places.map((place) => {
    const from_mps = Math.min(speed_mps, place.limit_mps);
    const { battery_full, grip_used, ...stopped } = stopFrom(ready(place), place.along_m, from_mps);
    batteryFull ||= battery_full;
    gripUsed = Math.max(gripUsed, grip_used);
    const row: BrakesRow = {
      chainage_m: place.chainage_m,
      direction: place.way.back ? "back" : "out",
      speed_mps: from_mps,
      gradient_percent: place.gradient_percent,
      brakes: set,
      rail: rail.rail,
      ...stopped,
    };
    return { place, row };
  });
  const bad = (row: BrakesRow) => howBad(row, row.speed_mps, sight_m);
  const hardest = stops.filter(({ place }) => place.ahead_m >= sight_m).sort((a, b) => bad(b.row) - bad(a.row));
  return { set, rail, ready, rows: stops.map(({ row }) => row), hardest, batteryFull, gripUsed };
}

/** The driver minds the grip of the wheels at this share of it, and drives otherwise where they come so far. */
const MINDS = 0.75;

/**
 * A case that is the same as one already worked out: every brake where all are the loco's; and no brake on wheels, on a
 * rail that grips for all that was asked of the other.
 */
export function alike(known: readonly Case[], set: BrakeSet, rail: Rail, { brakes }: Train): Case | undefined {
  const as = (from: Case | undefined): Case | undefined => {
    if (!from) return undefined;
    const named = (row: BrakesRow): BrakesRow => ({ ...row, brakes: set, rail: rail.rail });
    const hardest = from.hardest.map(({ place, row }) => ({ place, row: named(row) }));
    return { ...from, set, rail, rows: from.rows.map(named), hardest };
  };
  if (set === "all" && brakes.every(({ service, vehicle }) => !service || vehicle === 0))
    return as(known.find((each) => each.set === "loco" && each.rail === rail));
  if (set !== "none" && set !== "drag") return undefined;
  return as(known.find((each) => each.set === set && each.gripUsed < MINDS * rail.adhesion.static));
}

/** What gathers this much speed on the way, and does not stop within sight, runs away. */
const GATHERS = 1.1;

/**
 * To order stops by, the worst the greatest: what runs on past all reason; then what runs away before it stops, the
 * faster it gets; then what rolls back; then by distance.
 */
export function howBad(
  { outcome, distance_m, top_speed_mps }: Pick<Stopped, "outcome" | "distance_m" | "top_speed_mps">,
  speed_mps: number,
  sight_m: number,
): number {
  const faster = 1 + top_speed_mps / 1000;
  if (outcome === "runs_on") return 3e9 * faster;
  if (outcome === "rolls_back" || distance_m === null) return 1e9 * faster;
  return distance_m > sight_m && top_speed_mps > GATHERS * speed_mps ? 2e9 * faster : distance_m;
}

/** The hardest retardation of each set of brakes. */
export function peaksOf(cases: readonly Case[]): Map<BrakeSet, number> {
  const peaks = new Map<BrakeSet, number>();
  for (const { set, rows } of cases) {
    for (const { peak_deceleration_mps2 } of rows) {
      peaks.set(set, Math.max(peaks.get(set) ?? 0, peak_deceleration_mps2));
    }
  }
  return peaks;
}
