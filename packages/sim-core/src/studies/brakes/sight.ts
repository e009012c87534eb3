import { brakeKeys } from "../../parts/brakes.keys.js";
import { G_mps2 } from "../../parts/constants.js";
import type { Train } from "../../train/train.js";
import type { Case } from "./cases.js";
import type { Place } from "./places.js";
import type { Rail } from "./sets.js";
import { stopFrom, type ToStop } from "./stop.js";

/** A brake that a train without one wants, and whether the wheels can pass it on. */
export interface BrakeWanted {
  /** Steady force at the rail. */
  rail_force_N: number;
  /** Of the hand on the lever that makes it, by the three figures below. */
  hand_force_N: number;
  linkage_ratio: number;
  linkage_efficiency: number;
  block_friction: number;
  delay_s: number;
  build_up_s: number;
  /** With every wheel of the loco braked, and with every wheel of the train. */
  grip: { braked: "loco" | "all"; rail: string; grip_N: number; enough: boolean }[];
}

/** No faster than a plan may ask for, m/s; and a train that cannot be stopped from this cannot be stopped. */
const FASTEST_mps = 20;
const SLOWEST_mps = 0.05;
/** Speeds are found to this, m/s, and forces to this share. */
const SPEED_WITHIN_mps = 0.01;
const FORCE_WITHIN = 1e-3;
/** Of the weight, the first force that is tried. */
const FIRST_SHARE = 0.01;
/** Common practice, no source: hand to blocks, what friction in the linkage leaves, block on wheel. */
const LINKAGE = 8;
const LINKAGE_EFFICIENCY = 0.8;
const BLOCK_FRICTION = 0.25;

/**
 * The greatest speed from which it stops within sight from every place, m/s; null where it does not from even a creep.
 * The hardest place is asked first and usually decides.
 */
export function greatestSpeed_mps({ ready, hardest }: Case, sight_m: number): number | null {
  const passes = (place: Place, speed_mps: number): boolean => {
    const own = ready(place);
    const plan = Number.isNaN(own.plan.speed_mps) ? own.plan : { ...own.plan, speed_mps };
    return stopFrom({ ...own, plan }, place.along_m, Math.min(speed_mps, place.limit_mps), sight_m).stops;
  };
  let speed_mps = FASTEST_mps;
  for (const { place } of hardest) {
    if (passes(place, speed_mps)) continue;
    if (!passes(place, SLOWEST_mps)) return null;
    let low = SLOWEST_mps;
    for (let high = speed_mps; high - low > SPEED_WITHIN_mps; ) {
      const middle = (low + high) / 2;
      if (passes(place, middle)) low = middle;
      else high = middle;
    }
    speed_mps = low;
  }
  return speed_mps;
}

/**
 * The brake that stops a train without one within sight from every place; null where the reaction time takes it past.
 * @param bare the train stopped by nothing
 */
export function brakeWanted(
  { ready, hardest }: Case,
  speed_mps: number,
  sight_m: number,
  rails: readonly Rail[],
): BrakeWanted | null {
  const places = hardest.map(({ place }) => place);
  const force_N = forceWanted_N(ready, places, speed_mps, sight_m);
  const train = places[0]?.way.train;
  return train && force_N ? inHand(train, force_N, rails) : null;
}

/** The steady force at the rail that does it, N; null where none would, 0 where it stops without. */
export function forceWanted_N(
  ready: (place: Place) => ToStop,
  places: readonly Place[],
  speed_mps: number,
  sight_m: number,
): number | null {
  const passes = (place: Place, force_N: number): boolean => {
    const own = ready(place);
    const braked: ToStop = { ...own, set: "all", plan: { ...own.plan, train: braking(own.plan.train, force_N) } };
    return stopFrom(braked, place.along_m, Math.min(speed_mps, place.limit_mps), sight_m).stops;
  };
  let force_N = 0;
  for (const place of places) {
    if (passes(place, force_N)) continue;
    const weight_N = place.way.train.mass_kg * G_mps2;
    let low = force_N;
    let high = Math.max(2 * force_N, FIRST_SHARE * weight_N);
    while (!passes(place, high)) {
      if (high > 2 * weight_N) return null;
      low = high;
      high *= 2;
    }
    while (high - low > FORCE_WITHIN * high) {
      const middle = (low + high) / 2;
      if (passes(place, middle)) high = middle;
      else low = middle;
    }
    force_N = high;
  }
  return force_N;
}

/** The train with one brake that no rail limits. */
const braking = (train: Train, force_N: number): Train => ({
  ...train,
  brakes: [
    {
      vehicle: 0,
      rim_N: 0,
      shaft_N: 0,
      axle_N: force_N,
      axleWeight_N: Number.POSITIVE_INFINITY,
      delay_s: brakeKeys.delay.default.value,
      buildUp_s: brakeKeys.build_up.default.value,
      service: true,
      parking: true,
      by: "driver",
      onDeadMan: false,
    },
  ],
  brakedAxles_N: train.brakedAxles_N.map((_, i) => (i === 0 ? Number.POSITIVE_INFINITY : 0)),
});

function inHand(train: Train, rail_force_N: number, rails: readonly Rail[]): BrakeWanted {
  const weights_N = { loco: train.locoBody_kg * G_mps2, all: train.mass_kg * G_mps2 };
  return {
    rail_force_N,
    hand_force_N: rail_force_N / (LINKAGE * LINKAGE_EFFICIENCY * BLOCK_FRICTION),
    linkage_ratio: LINKAGE,
    linkage_efficiency: LINKAGE_EFFICIENCY,
    block_friction: BLOCK_FRICTION,
    delay_s: brakeKeys.delay.default.value,
    build_up_s: brakeKeys.build_up.default.value,
    grip: (["loco", "all"] as const).flatMap((braked) =>
      rails.map(({ rail, adhesion }) => {
        const grip_N = adhesion.static * weights_N[braked];
        return { braked, rail, grip_N, enough: grip_N >= rail_force_N };
      }),
    ),
  };
}
