import { restartGradient } from "../../drive/climbing.js";
import { InputError } from "../../errors.js";
import { RAIL } from "../../parts/adhesion.js";
import { G_mps2 } from "../../parts/constants.js";
import type { LocoDefinition, PlanDefinition } from "../../parts/files.keys.js";
import { wheelsKeys } from "../../parts/vehicle.keys.js";
import { sound } from "../../record/sound.js";
import type { LimitedBy } from "../../state.js";
import { createPlan, madePlan, type Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import { railsOf } from "../brakes/sets.js";
import { stoppingOf } from "../brakes/stopping.js";
import { cold, restartsHere } from "../climb/climb.js";
import { dayOf } from "../day.js";
import type { PlanFiles } from "../limits/limits.js";
import { countedOn, stopBy } from "../limits/stops.js";
import { forPulling, forStopping } from "../safe.js";
import { steepest, waysOf } from "../ways.js";
import type { BallastAnswer, BallastCost, BallastPlace } from "./answer.js";
import { endLoads, frontShareOf, levellingShare, movedStarting_N } from "./loads.js";

export interface BallastOptions {
  passengers: number;
  /** Rail to restart on; wet unless told. */
  rail?: keyof typeof RAIL;
}

/** More than so many times its own mass is no ballast but another loco. */
const MOST_TIMES = 3;
/** Looked for from so small a share of the loco's mass up, each time so many times more. */
const FIRST_SHARE = 0.02;
const GROWS = 1.5;
/** Found to this. */
const WITHIN_kg = 0.5;
/** Stops are counted within any distance. */
const SIGHT_m = 20;

/**
 * How much ballast, and where between the axles, restarts a train with so many aboard on the steepest of the line, and what
 * that costs in laps, heat, braking and axle load. Pulling is counted with bearings as stiff as they may be, stopping as free.
 * Ballast is taken to lie as high as the loco's centre of gravity: lower, it moves a little less weight.
 * @throws InputError where files or options cannot be used
 */
export function ballast(files: PlanFiles, { passengers, rail = "wet" }: BallastOptions): BallastAnswer {
  mustBeAsked({ passengers });
  if (!Object.hasOwn(RAIL, rail)) {
    const message = `"${String(rail)}" stands where one of ${Object.keys(RAIL).join(", ")} is wanted`;
    throw new InputError([{ path: "options.rail", message }]);
  }
  const { plan, loco, track, tables, doubts } = files;
  const besides = { ...tables, ...(doubts && { doubts }) };
  createPlan({ ...plan, passengers }, loco, track, besides);
  // The rail that is asked for stands in the place of a grip that the plan gives.
  const { adhesion: _, ...line } = plan.track;
  const made = (own: LocoDefinition, on: PlanDefinition["track"]) =>
    madePlan({ ...plan, passengers, track: on }, own, track, besides);
  const bare = forPulling(made(loco, { ...line, rail }));
  const body_kg = bare.train.locoBody_kg;
  const pulling = (ballast_kg: number, front: number) =>
    forPulling(made(ballasted(loco, body_kg, ballast_kg, front), { ...line, rail }));
  const worst = steepest(waysOf(bare), "compensated");
  const leading = worst.way.back && bare.atEnds !== "turn" ? "rear" : "front";
  const { share: frontShare, assumed } = frontShareOf(loco);
  const allDriven = loco.wheels.driven_axles >= (loco.wheels.axles ?? wheelsKeys.axles.default.value);
  const restarts_without = restartsHere(bare);

  const placed = (front_share: number, found: Found): BallastPlace => {
    const ballast_kg = found.ballast_kg ?? 0;
    const moved_N = movedStarting_N(
      ballasted(loco, body_kg, ballast_kg, front_share),
      pulling(ballast_kg, front_share).train,
      worst.share,
    );
    const toRear_N = moved_N === null ? null : leading === "front" ? moved_N : -moved_N;
    return {
      front_share,
      ...found,
      standing: endLoads(body_kg, frontShare, ballast_kg, front_share),
      starting: toRear_N === null ? null : endLoads(body_kg, frontShare, ballast_kg, front_share, toRear_N),
    };
  };
  const places = placesFor(loco, allDriven).map((front_share) =>
    placed(
      front_share,
      least(loco.mass_kg, (ballast_kg) => pulling(ballast_kg, front_share)),
    ),
  );
  // All driven, the place is free for the axles' sake: where both ends carry alike as it starts.
  const [first] = places;
  if (allDriven && first.ballast_kg !== null && first.ballast_kg > 0 && first.starting) {
    const toRear_N = (first.standing.front_kg - first.starting.front_kg) * G_mps2;
    const level = levellingShare(body_kg, frontShare, first.ballast_kg, toRear_N);
    places.unshift(placed(level, { ballast_kg: first.ballast_kg, limited_by: null }));
  }
  places.sort((a, b) => (a.ballast_kg ?? Number.POSITIVE_INFINITY) - (b.ballast_kg ?? Number.POSITIVE_INFINITY));
  const [best] = places;
  const cost = (ballast_kg: number, front_share: number) => {
    const own = made(ballasted(loco, body_kg, ballast_kg, front_share), plan.track);
    const { front_kg, rear_kg } = endLoads(body_kg, frontShare, ballast_kg, front_share);
    return costOf(own, ballast_kg, Math.max(front_kg, rear_kg));
  };
  return sound({
    passengers,
    rail,
    gradient_percent: 100 * worst.share,
    gradient_at_m: worst.chainage_m,
    limited_by: restartGradient(worst.way.train, cold(bare)).limited_by,
    restarts_without,
    leading_end: leading,
    all_driven: allDriven,
    front_share_assumed: assumed,
    places,
    without: cost(0, 0.5),
    with_ballast: best.ballast_kg !== null && best.ballast_kg > 0 ? cost(best.ballast_kg, best.front_share) : null,
  });
}

/** The loco with ballast on it, a share of that on its front end. @param body_kg loco and driver, whom the driven axles carry too */
function ballasted(loco: LocoDefinition, body_kg: number, ballast_kg: number, front_share: number): LocoDefinition {
  const { wheels } = loco;
  const axles = wheels.axles ?? wheelsKeys.axles.default.value;
  const mass_kg = loco.mass_kg + ballast_kg;
  if (ballast_kg === 0 || wheels.driven_axles >= axles) return { ...loco, mass_kg };
  const end = wheels.driven_end ?? wheelsKeys.driven_end.default.value;
  const onDriven = end === "front" ? front_share : 1 - front_share;
  const driven_share =
    ((wheels.driven_share ?? wheels.driven_axles / axles) * body_kg + onDriven * ballast_kg) / (body_kg + ballast_kg);
  return { ...loco, mass_kg, wheels: { ...wheels, driven_share } };
}

/** Over the driven end, half of the way there from the middle, and midway; where all axles are driven, midway. */
function placesFor({ wheels }: LocoDefinition, allDriven: boolean): number[] {
  if (allDriven) return [0.5];
  const front = (wheels.driven_end ?? wheelsKeys.driven_end.default.value) === "front";
  return front ? [1, 0.75, 0.5] : [0, 0.25, 0.5];
}

interface Found {
  ballast_kg: number | null;
  limited_by: LimitedBy | null;
}

/**
 * The least ballast that restarts the train. More grip is all that ballast gives: where something else limits the restart,
 * more of it only makes the train heavier.
 */
function least(loco_kg: number, planWith: (ballast_kg: number) => Plan): Found {
  /** What is short with so much: grip, which more ballast helps; something else; or nothing, null. */
  const short = (ballast_kg: number): LimitedBy | null => {
    const plan = planWith(ballast_kg);
    if (restartsHere(plan)) return null;
    return restartGradient(steepest(waysOf(plan), "compensated").way.train, cold(plan)).limited_by;
  };
  const nothing: Found = { ballast_kg: 0, limited_by: null };
  if (short(0) === null) return nothing;
  let [low, high] = [0, FIRST_SHARE * loco_kg];
  let limited = short(high);
  while (limited === "adhesion") {
    if (high > MOST_TIMES * loco_kg) return { ballast_kg: null, limited_by: limited };
    [low, high] = [high, GROWS * high];
    limited = short(high);
  }
  let found = limited === null;
  // Beyond `high` it restarts, or something else than the grip has become short: then what lies between may still do.
  while (high - low > WITHIN_kg) {
    const middle = (low + high) / 2;
    const is = short(middle);
    if (is === "adhesion") low = middle;
    else {
      high = middle;
      found ||= is === null;
      if (is !== null && !found) limited = is;
    }
  }
  if (!found) return { ballast_kg: null, limited_by: limited };
  const whole_kg = Math.ceil(high);
  return { ballast_kg: short(whole_kg) === null ? whole_kg : high, limited_by: null };
}

function costOf(plan: Plan, ballast_kg: number, heaviest_end_kg: number): BallastCost {
  const day = dayOf(forPulling(plan));
  const { train } = plan;
  const stopping = stoppingOf(forStopping(plan), SIGHT_m);
  const rails = railsOf(plan);
  const worse = rails[rails.length - 1];
  const stop_by = countedOn(stopping.ways[0].train);
  const [place] = stopping.places;
  const stopped = place && stopBy(stopping, stop_by, worse)(place, stopping.speed_mps);
  return {
    ballast_kg,
    loco_mass_kg: train.vehicles[train.loco].mass_kg,
    train_mass_kg: train.mass_kg,
    laps_to_reserve: day.laps_to_reserve,
    ended_by: day.ended_by,
    energy_per_lap_Wh: day.laps > 0 ? day.energy_J / day.laps / 3600 : null,
    peak_winding_temperature_C: day.winding_degC,
    winding_limit_C: train.heat.limit_degC,
    stop_by,
    stop_rail: worse.rail,
    stop_outcome: stopped?.outcome ?? null,
    stop_distance_m: stopped?.distance_m ?? null,
    heaviest_end_kg,
  };
}
