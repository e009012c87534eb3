import { type BallastAnswer, type BallastCost, formatGradient, type PartsAnswer } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { several } from "../../words/setting.js";

/** How much, where, and what it costs; or that none is wanted, or none helps. */
export function ballastTold({ ballast }: PartsAnswer, eyes: Eyes): string[] {
  const { passengers, rail, gradient_percent, gradient_at_m, restarts_without, places, with_ballast } = ballast;
  const where = `the steepest bit, ${formatGradient(gradient_percent / 100)} at ${eyes.place(gradient_at_m)}`;
  const whom = passengers === 0 ? "with nobody but the driver" : `with ${several(passengers, "passenger")}`;
  if (restarts_without) return [`None is wanted: ${whom} it starts again on ${where}, on ${rail} rail.`];
  const [best] = places;
  if (!best || best.ballast_kg === null || !with_ballast)
    return [
      `None helps: ${whom} it does not start again on ${where} on ${rail} rail, and more weight on the loco would not change that.`,
    ];
  const mass = (kg: number) => eyes.of(kg, "mass");
  const others = places
    .slice(1)
    .flatMap(({ ballast_kg, front_share }) =>
      ballast_kg === null ? [] : [`${mass(ballast_kg)} ${placeTold(front_share)}`],
    );
  return [
    `${mass(best.ballast_kg)} ${ballast.all_driven ? "anywhere on the loco" : placeTold(best.front_share)} would let it start again ${whom} on ${where}, on ${rail} rail.${others.length > 0 && !ballast.all_driven ? ` Elsewhere it takes more: ${others.join(", ")}.` : ""}`,
    costTold(ballast, with_ballast, eyes),
  ];
}

const PLACES: Readonly<Record<string, string>> = {
  1: "over the front axle",
  0.75: "between the front axle and the middle",
  0.5: "in the middle",
  0.25: "between the middle and the rear axle",
  0: "over the rear axle",
};

const placeTold = (front_share: number): string =>
  PLACES[front_share] ?? `with ${Math.round(100 * front_share)} % of it on the front axle`;

function costTold({ without }: BallastAnswer, with_ballast: BallastCost, eyes: Eyes): string {
  const laps =
    without.laps_to_reserve > 0
      ? `${several(with_ballast.laps_to_reserve, "lap")} to the reserve where there were ${without.laps_to_reserve}`
      : `${several(with_ballast.laps_to_reserve, "lap")} to the reserve`;
  const stop =
    with_ballast.stop_by === "nobody"
      ? "and a brake that is still to be fitted must stop it too"
      : with_ballast.stop_distance_m === null
        ? "and it does not stop from the steepest fall"
        : `a stop of ${eyes.length(with_ballast.stop_distance_m)} from the steepest fall${without.stop_distance_m === null ? "" : `, where there were ${eyes.length(without.stop_distance_m)}`}`;
  return `It costs: ${laps}, a winding at ${eyes.of(with_ballast.peak_winding_temperature_C, "temperature")} at most, ${eyes.of(with_ballast.heaviest_end_kg, "mass")} on the heavier end of the loco, ${stop}. Look at wheels, axles, frame and track before it is put on.`;
}
