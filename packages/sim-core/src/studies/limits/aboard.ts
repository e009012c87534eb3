import { type EndedBy, isTrouble } from "../../event.js";
import type { Unfit } from "../../parts/track.columns.js";
import type { LimitedBy } from "../../state.js";
import type { Plan } from "../../train/plan.js";
import { isFit, surveyedFor } from "../../train/surveyed.js";
import { holdingSine, PARKING_SETS, type ParkingSet, parked } from "../brakes/parking.js";
import { gradientAt_percent, steeperOn, steepestPlace_m } from "../brakes/places.js";
import type { Rail } from "../brakes/sets.js";
import { brakeForLine_N, type Stopping } from "../brakes/stopping.js";
import { type ClimbAnswer, climb } from "../climb/climb.js";
import type { Day } from "../day.js";
import { forStopping } from "../safe.js";
import { waysOf } from "../ways.js";
import type { AboardRow, LiftedBy } from "./answer.js";
import { countedOn, failsAt } from "./stops.js";

/** What is asked about a number aboard. */
export interface Asked {
  /** The plan with a number of passengers, on a rail: its own where none is told. */
  planFor(passengers: number, rail?: "dry" | "wet"): Plan;
  stoppingWith(passengers: number): Stopping;
  seats: number;
}

const row = (given: Partial<AboardRow> & Pick<AboardRow, "limit" | "lifted_by">): AboardRow => ({
  rail: null,
  most: null,
  or_more: false,
  counts: true,
  at_m: null,
  brake_N: null,
  brake_with: null,
  ...given,
});

export const bySeats = (seats: number, cars: boolean): AboardRow =>
  row({ limit: "seats", most: seats, lifted_by: cars ? "more_seats" : "a_car" });

const LIFTS: Record<LimitedBy, LiftedBy> = {
  adhesion: "grip",
  motor_current: "gearing_or_motor",
  battery_current: "battery_current",
  duty: "gearing_or_motor",
  battery: "battery",
  lever: "lever",
  no_load_speed: "gearing_or_motor",
  plugging: "gearing_or_motor",
};

/** The load table, as `climb` has it. */
export function loadTable(asked: Asked, rail?: "dry" | "wet"): ClimbAnswer {
  const planFor = (passengers: number) => asked.planFor(passengers, rail);
  return climb(planFor(asked.planFor(0).passengers), planFor, asked.seats);
}

/** Restarting at the worst place, by the load table. */
export function byRestart(answer: ClimbAnswer, counts: boolean): AboardRow {
  const most = answer.passengers_it_can_restart;
  const beyond = answer.rows.find(({ passengers }) => passengers === (most ?? -1) + 1);
  return row({
    limit: "restart",
    rail: answer.rail,
    most,
    or_more: beyond === undefined,
    counts,
    at_m: answer.ruling_gradient_at_m,
    lifted_by: LIFTS[beyond?.limited_by ?? "adhesion"],
  });
}

/** The most, from `cap` down, with whom something holds; each number asked at most once. */
export function mostUpTo(cap: number, holds: (passengers: number) => boolean): number | null {
  if (holds(cap)) return cap;
  if (cap === 0 || !holds(0)) return null;
  let [low, high] = [0, cap];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Stopping within sight from everywhere, on the worst of the rails, with the brakes that may be counted on. */
export function byStopping(asked: Asked, rail: Rail, cap: number): AboardRow {
  const fails = (passengers: number) => {
    const stopping = asked.stoppingWith(passengers);
    return failsAt(stopping, countedOn(stopping.ways[0].train), rail);
  };
  const most = mostUpTo(cap, (passengers) => fails(passengers) === undefined);
  const at = most === cap ? undefined : fails(most === null ? 0 : most + 1);
  const brake_N = most === cap ? null : brakeForLine_N(asked.stoppingWith(cap), rail);
  const braked = countedOn(asked.stoppingWith(0).ways[0].train) !== "nobody";
  return row({
    limit: "stopping",
    rail: rail.rail,
    most,
    or_more: most === cap,
    at_m: at?.chainage_m ?? null,
    lifted_by: braked ? "brake_or_less_speed" : "brake",
    brake_N,
    brake_with: brake_N === null ? null : cap,
  });
}

/** Staying where it is left on the steepest of the line, with the best of what may be left on. */
export function byParking(asked: Asked, rail: Rail, cap: number): AboardRow {
  const [way] = waysOf(asked.planFor(0));
  const at_m = steepestPlace_m(way);
  const holds = (passengers: number) => {
    const plan = forStopping(asked.planFor(passengers));
    const [own] = waysOf(plan);
    const train = { ...parked(own.train, bestParking(plan)), adhesion: rail.adhesion };
    return 100 * holdingSine(train) + LEVEL_percent >= Math.abs(gradientAt_percent(steeperOn(own)(at_m), at_m));
  };
  const most = mostUpTo(cap, holds);
  return row({
    limit: "parking",
    rail: rail.rail,
    most,
    or_more: most === cap,
    at_m: most === cap ? null : at_m,
    lifted_by: "parking_brake_or_chocks",
  });
}

/** As `brakes` has it: no club levels its rails better. */
const LEVEL_percent = 0.01;

export const bestParking = (plan: Plan): ParkingSet =>
  PARKING_SETS.findLast((set) => parked(plan.train, set).brakes.length > 0) ?? "none";

/** On a profile that is not good enough to judge by, the train runs empty; no row where it is. */
export function bySurvey({ train, track }: Plan): AboardRow[] {
  const surveyed = surveyedFor(train, track);
  if (!surveyed || isFit(surveyed)) return [];
  return [row({ limit: "survey", most: 0, lifted_by: MENDED_BY[surveyed.levelling ?? "by receiver"] })];
}

/** A receiver's heights are in doubt like those of a profile that says so itself. */
const MENDED_BY: Record<Unfit, LiftedBy> = {
  "not accepted": "survey_accepted",
  "not closed": "survey_closed",
  "by receiver": "survey",
};

/** What ended a day before the reserve, were it not the plan's hours. */
export const troubleOf = ({ ended_by }: Day): EndedBy | null => (ended_by && isTrouble(ended_by) ? ended_by : null);

/** Does the charge last for what the plan asks, the reserve kept: its laps, or all its hours? */
export const chargeLasts = (day: Day, { laps }: Plan): boolean =>
  troubleOf(day) === null && (day.ended_by !== null || day.laps_to_reserve >= laps);

/** Sums that a logged run has shown to be wrong promise nothing. */
export const byLog = (agrees: boolean, cap: number): AboardRow =>
  row({ limit: "log", most: agrees ? cap : null, or_more: agrees, lifted_by: "sums_that_agree" });

/** Motor, breaker and controller over a day to the reserve; and the charge, for what the plan asks. */
export function byWorking(cap: number, plan: Plan, dayOf: (passengers: number) => Day): AboardRow[] {
  const { limit_degC } = plan.train.heat;
  const tooHot = (day: Day) => day.winding_degC > limit_degC;
  const works = (passengers: number) => troubleOf(dayOf(passengers)) === null && !tooHot(dayOf(passengers));
  // What else ends a day is told by its own row.
  const lasts = (passengers: number) => troubleOf(dayOf(passengers)) !== null || chargeLasts(dayOf(passengers), plan);
  const working = mostUpTo(cap, works);
  const charge = mostUpTo(cap, lasts);
  const bad = working === cap ? undefined : dayOf(working === null ? 0 : working + 1);
  const lifted: LiftedBy =
    bad?.ended_by === "breaker" ? "breaker" : bad && tooHot(bad) ? "cooling_or_gearing" : "less_load_or_speed";
  return [
    row({
      limit: "working",
      most: working,
      or_more: working === cap,
      at_m: bad && troubleOf(bad) ? bad.ended_at_m : null,
      lifted_by: lifted,
    }),
    row({ limit: "charge", most: charge, or_more: charge === cap, lifted_by: "charge_or_battery" }),
  ];
}
