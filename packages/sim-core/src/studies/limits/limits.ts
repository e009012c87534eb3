import type { TypedDoubts } from "../../doubt/typed.js";
import { G_mps2 } from "../../parts/constants.js";
import type { LocoDefinition, PlanDefinition } from "../../parts/files.keys.js";
import type { MotorTables } from "../../parts/motor.tables.js";
import type { TrackColumns } from "../../parts/track.columns.js";
import { seatsIn } from "../../parts/vehicles.js";
import { sound } from "../../record/sound.js";
import { gravityAt_N } from "../../train/line.js";
import { createPlan, madePlan, type Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { mustBeAsked } from "../asked.js";
import { holdingSine, parked } from "../brakes/parking.js";
import { GUARD_AFTER_s, railsOf } from "../brakes/sets.js";
import { stoppingOf } from "../brakes/stopping.js";
import type { ClimbAnswer } from "../climb/climb.js";
import { forPulling, forStopping } from "../safe.js";
import { leaningTo, type Way, waysOf } from "../ways.js";
import {
  type Asked,
  bestParking,
  byLog,
  byParking,
  byRestart,
  bySeats,
  byStopping,
  bySurvey,
  byWorking,
  chargeLasts,
  loadTable,
  troubleOf,
} from "./aboard.js";
import type { AboardRow, LimitsAnswer, Standing } from "./answer.js";
import { dayToPlanFor, type LogSays, rollingBy, tellsPulling, tellsRolling } from "./by-log.js";
import { partedOn } from "./parted.js";
import { speedRows } from "./speeds.js";
import { stopRows } from "./stops.js";

/** All that a plan is made of: another number of people aboard is another plan. */
export interface PlanFiles {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables?: MotorTables;
  /** Doubt that was typed beside figures. */
  doubts?: TypedDoubts;
  /** What a logged run says of these sums: `compare` tells it. */
  logged?: LogSays;
}

export interface LimitsOptions {
  /** Sight distance to judge by, m; 20 m unless told. */
  sight_m?: number;
  /** The load table of this very plan, where it has been worked out already. */
  climbed?: ClimbAnswer;
  /** Told what is looked at next. */
  onPart?: (what: "restart" | "stopping" | "working" | "speeds" | "parted") => void;
}

const SIGHT_m = 20;
/** As many as any club train takes. */
const MOST_ABOARD = 60;

/**
 * What this train may do on this line, by these sums: how many aboard and what bounds that, how fast on which stretch,
 * how it stops by who acts, what a parted coupling does, where it may be left, and how many laps to plan for. Everything
 * is counted on the safe side: little resistance when stopping, much when pulling, the worse rail.
 * @throws InputError, RunError
 */
export function limits(
  { plan, loco, track, tables, doubts, logged }: PlanFiles,
  options: LimitsOptions = {},
): LimitsAnswer {
  mustBeAsked(options);
  const { sight_m = SIGHT_m, onPart = () => {} } = options;
  const besides = { ...tables, ...(doubts && { doubts }), ...rollingBy(logged) };
  const planFor = remembered((passengers: number, rail?: "dry" | "wet") =>
    madePlan({ ...plan, passengers, ...(rail && { track: { ...plan.track, rail } }) }, loco, track, besides),
  );
  const own = createPlan(plan, loco, track, besides);
  const seats = Math.min(MOST_ABOARD, seatsIn(plan.cars));
  const stoppingWith = remembered((passengers: number) => stoppingOf(forStopping(planFor(passengers)), sight_m));
  const asked: Asked = { planFor, stoppingWith, seats };
  const rails = railsOf(own);
  const worst = rails[rails.length - 1];

  const rows: AboardRow[] = [bySeats(seats, own.train.vehicles.length > 1)];
  onPart("restart");
  const said = plan.track.rail !== undefined || plan.track.adhesion !== undefined;
  rows.push(byRestart(options.climbed ?? loadTable(asked), true));
  const other = own.rail === "wet" || own.rail === "greasy" ? undefined : "wet";
  if (other) rows.push(byRestart(loadTable(asked, other), !said));
  onPart("stopping");
  rows.push(byStopping(asked, worst, least(rows)));
  rows.push(byParking(asked, worst, least(rows)));
  onPart("working");
  const dayWith = remembered((passengers: number) => dayToPlanFor(planFor(passengers), logged));
  rows.push(...byWorking(least(rows), own, dayWith));
  if (logged && logged.agrees !== null) rows.push(byLog(logged.agrees, least(rows)));
  // Last, so that the others are looked at all the same.
  rows.push(...bySurvey(own));

  const binding = rows.filter(({ counts }) => counts).reduce((a, b) => (bound(b) < bound(a) ? b : a));
  const most_aboard = Math.max(0, bound(binding));
  // A plan with more aboard than may ride is told as it is: nothing of it may look better than that.
  const loaded = Math.max(most_aboard, own.passengers);
  const stopping = stoppingWith(loaded);
  onPart("speeds");
  const speeds = speedRows(stopping, worst);
  const stops = stopRows(stopping, rails);
  onPart("parted");
  const day = dayWith(loaded);
  const trouble = troubleOf(day);
  return sound({
    may_carry: most_aboard > 0,
    most_aboard,
    most_aboard_by: binding.limit,
    most_aboard_rail: binding.rail,
    ...(logged && { logged }),
    seats,
    passengers: own.passengers,
    loaded,
    sight_m,
    aboard: rows,
    speeds,
    stops,
    parted: partedOn(bothLeanings(stopping.ways), () => stopping.speed_mps),
    standing: standingOf(stopping.plan, worst),
    laps_to_plan_for: trouble === null ? day.laps_to_reserve : Math.min(day.laps_to_reserve, Math.max(0, day.laps - 1)),
    charge_lasts: chargeLasts(day, own),
    day_ended_by: day.ended_by,
    day_outcome: trouble === null ? "completed" : day.outcome,
    day_ended_at_m: day.ended_by === null ? null : day.ended_at_m,
    day: day.rows,
    counted: {
      rolling_stopping: rollingOf(forStopping(own).train),
      rolling_pulling: rollingOf(forPulling(own).train),
      rolling_by_log: leftFreer(own.train, logged?.rolls ?? null),
      rolling_told: !logged || tellsRolling(logged),
      pulling_by_log: leftStiffer(own.train, logged?.stiffens ?? null),
      pulling_told: !logged || tellsPulling(logged),
      drag_of_motor: own.train.motor.dragMeasured,
      reaction_time_s: own.reaction_s,
      guard_after_s: GUARD_AFTER_s,
      rail_stopping: worst.rail,
    },
  });
}

const rollingOf = ({ rolling_N, mass_kg }: Train): number => rolling_N / (mass_kg * G_mps2);

/** Is what a log leaves of rolling less than the files leave? */
const leftFreer = ({ vehicles }: Train, rolls: number | null): boolean =>
  rolls !== null &&
  rolls < 1 &&
  vehicles.some(({ resistance: { least, rolling } }) => rolling > 0 && least === rolls * rolling);

/** And is it more than they leave? */
const leftStiffer = ({ vehicles }: Train, stiffens: number | null): boolean =>
  stiffens !== null &&
  stiffens > 1 &&
  vehicles.some(({ resistance: { most, rolling } }) => rolling > 0 && most === stiffens * rolling);

/** A limit that does not hold even with nobody aboard bounds below none. */
const bound = ({ most }: AboardRow): number => most ?? -1;

/** Nothing is looked at beyond the least that stands already. */
const least = (rows: readonly AboardRow[]): number =>
  Math.max(0, ...[Math.min(MOST_ABOARD, ...rows.filter(({ counts }) => counts).map(bound))]);

/** Each question once. */
function remembered<A extends readonly unknown[], T>(work: (...args: A) => T): (...args: A) => T {
  const known = new Map<string, T>();
  return (...args) => {
    const key = args.join();
    if (!known.has(key)) known.set(key, work(...args));
    return known.get(key) as T;
  };
}

/** Where its brakes do not hold it, up or down, however stiff its bearings are. */
function standingOf(plan: Plan, { rail, adhesion }: ReturnType<typeof railsOf>[number]): Standing {
  const brakes = bestParking(plan);
  const [way] = waysOf(plan);
  const holds = holdingSine({ ...parked(way.train, brakes), adhesion });
  return { brakes, rail, holding_gradient_percent: 100 * holds, chocks: steepFor(way, Math.max(holds, LEVEL)) };
}

/** What is left behind rolls on downhill or back from uphill: each with the doubt against it. */
const bothLeanings = (ways: readonly Way<Train>[]): Way<Train>[] => [
  ...new Set(ways.flatMap((way) => [way, leaningTo(way, 1)])),
];

/** As level as any club lays its rails. */
const LEVEL = 1e-4;
/** Looked at this far apart, m: nearer than anybody leaves a train by. */
const APART_m = 1;

/** Stretches where gravity pulls harder than a share of the weight, either way; by the head, in order. */
function steepFor(way: Way<Train>, share: number): Standing["chocks"] {
  const { train, track } = way;
  const first_m = track.kind === "circuit" ? 0 : train.length_m;
  const leanings = [...new Set([leaningTo(way, -1).track, leaningTo(way, 1).track])];
  const hints = new Int32Array(train.ends_m.length);
  const stretches: Standing["chocks"] = [];
  let open = false;
  for (let head_m = first_m; head_m <= track.length_m; head_m += APART_m) {
    const steep = leanings.some(
      (each) => Math.abs(gravityAt_N(train, each, head_m, hints)) > share * train.mass_kg * G_mps2,
    );
    if (steep && open) stretches[stretches.length - 1].to_m = head_m;
    else if (steep) stretches.push({ from_m: head_m, to_m: head_m });
    open = steep;
  }
  return stretches;
}
