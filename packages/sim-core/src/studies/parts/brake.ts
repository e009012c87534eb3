import type { Plan } from "../../train/plan.js";
import { brakes } from "../brakes/brakes.js";
import { stoppingOf, worseRail } from "../brakes/stopping.js";
import { countedOn, failsAt } from "../limits/stops.js";
import { forStopping } from "../safe.js";
import type { PartLine } from "./answer.js";

/** A brake that is fitted is judged by `brakes` and `limits`; one that is not is wanted. */
export function brakeLines(plan: Plan): PartLine[] {
  const line = (have: boolean, force_N: number | null): PartLine => ({
    part: "brake",
    place: null,
    count: 1,
    have,
    figures: force_N === null ? {} : { force_N },
    wanted: force_N === null ? {} : { force_N },
    margin: null,
    enough: null,
    rule: "stops_in_sight",
  });
  const fitted = plan.train.brakes.filter(({ service }) => service);
  if (fitted.length > 0) return fitted.map(({ rim_N, axle_N }) => ({ ...line(true, rim_N + axle_N), wanted: {} }));
  return [line(false, wanted_N(plan))];
}

/** The brake that would stop the train within sight on the worse rail, N; null where none would. */
const wanted_N = (plan: Plan): number | null =>
  brakes(plan, { greatest: false, rails: "worse" }).brake_wanted?.rail_force_N ?? null;

/** As far as any driver sees on a club line, m: as `brakes` and `limits` take it. */
const SIGHT_m = 20;

/** The lines with each brake that is fitted judged as `limits` judges them, all together: none stops a train by itself. */
export function brakesJudged({ plan, lines }: { plan: Plan; lines: readonly PartLine[] }): PartLine[] {
  const fitted = lines.some(({ part, have }) => part === "brake" && have);
  if (!fitted) return [...lines];
  const stopping = stoppingOf(forStopping(plan), SIGHT_m);
  const enough = failsAt(stopping, countedOn(plan.train), worseRail(stopping.plan)) === undefined;
  const bare = { ...plan, train: { ...plan.train, brakes: plan.train.brakes.filter(({ service }) => !service) } };
  const force_N = enough ? null : wanted_N(bare);
  return lines.map((line) =>
    line.part === "brake" ? { ...line, enough, wanted: force_N === null ? {} : { force_N } } : line,
  );
}
