import { type StopRow, type StopToCountOn, stopToCountOn } from "@rideon/sim-core";
import { bandEnd_m } from "../../words/sureness.js";
import { metres } from "../brakes/rows.js";
import { ROLLING_NOT_TOLD, WHO } from "../limits/tables.js";
import type { Answer } from "./answer.kind.js";
import type { Told } from "./told.js";

/** Judged by whoever may be counted on, on the worse rail, as `limits` does. */
export function stopping({ limits, eyes, sureness }: Told): Answer {
  const asked = { id: "brakes", question: "Does it stop in time?", link: "why" };
  const none = limits.stops.find(({ who }) => who === "nobody");
  if (!none || none.speed_mps === null)
    return {
      ...asked,
      good: false,
      word: "Nothing to judge",
      text: "The train does not get under way where it could be judged.",
    };
  const stop = stopToCountOn(limits, sureness);
  const bare = `With no brake it ${goes(none, eyes)}.`;
  if (!stop) {
    const wanted = limits.aboard.find(({ limit }) => limit === "stopping")?.brake_N ?? null;
    const fit =
      wanted === null
        ? ""
        : ` A brake that pulls ${eyes.of(Math.ceil(wanted), "force")} at the rail would stop it within the ${eyes.length(limits.sight_m)} that the driver sees.`;
    return { ...asked, good: false, word: "No: it has no brake", text: `${bare}${fit}` };
  }
  const { row, by_band, within_sight } = stop;
  const { rolling_told: told, rolling_by_log: byLog } = limits.counted;
  const within = `within ${stopTold(stop).told}`;
  const word = !within_sight ? "No" : told ? `Yes: ${within}` : `Not told: by the sums alone ${within}`;
  const freer = byLog ? `${FREER}. ` : told ? "" : `${ROLLING_NOT_TOLD}. `;
  const doubt = row.distance_m === null ? "" : ` ${sureOf(stop, limits, sureness)}`;
  return {
    ...asked,
    good: within_sight && told,
    word: by_band && !within_sight ? `No: ${bandTold(stop)}` : word,
    text: `${freer}With ${WHO[row.who]} acting, on ${row.rail} rail, it ${goes(row, eyes)}; the driver sees ${eyes.length(limits.sight_m)}.${doubt} ${bare}`,
  };
}

const bandTold = (stop: StopToCountOn): string =>
  stop.distance_m === null ? "it does not stop in nineteen of twenty" : `${stopTold(stop).told} in nineteen of twenty`;

/** What that stop counts, and what it does not. */
function sureOf(stop: StopToCountOn, { counted }: Told["limits"], sureness: Told["sureness"]): string {
  const own = `That counts bearings, gradients${counted.drag_of_motor ? "" : ", drag"} and rail at their bad ends, and brakes and driver as the files have them.`;
  if (!sureness) return `${own} How sure the brakes are was not looked at.`;
  const rolling = counted.rolling_by_log ? ", and rolling about what the log has," : "";
  return stop.distance_m === null || stopTold(stop).byBand
    ? `${own} With every figure in doubt${rolling} it is ${bandTold(stop)}.`
    : own;
}

/** What the logged run does to stops. */
const FREER =
  "The logged run drew less than the sums, so this counts bearings as free as it leaves them, and they hold the train less";

/** How far a stop to count on goes: the judgement's, or the end of its band as that is told, never the shorter. */
export function stopTold({ distance_m, band }: StopToCountOn): { told: string; byBand: boolean } {
  const end_m = band ? bandEnd_m(band) : Number.NEGATIVE_INFINITY;
  const byBand = distance_m !== null && end_m > distance_m;
  return { told: byBand ? `${end_m} m` : metres(distance_m), byBand };
}

/** `stops within 14.2 m from 270 m, past Coppice`. */
function goes({ outcome, distance_m, from_m, top_speed_mps, speed_mps, who }: StopRow, eyes: Told["eyes"]): string {
  const from = from_m === null ? "" : ` from ${eyes.place(from_m)}`;
  if (outcome === "rolls_back") return `comes to a stand and rolls back${from}`;
  if (distance_m === null) return `runs away${from} and reaches ${eyes.speed(top_speed_mps ?? 0)}`;
  const gathers =
    (top_speed_mps ?? 0) > 1.1 * (speed_mps ?? 0) ? `, and reaches ${eyes.speed(top_speed_mps ?? 0)}` : "";
  return who === "nobody"
    ? `runs ${eyes.length(distance_m)}${from}${gathers}`
    : `stops within ${eyes.length(distance_m)}${from}${gathers}`;
}
