import {
  type ClimbRow,
  COUNTED_ON,
  formatGradient,
  isTrouble,
  type StopRow,
  type StopToCountOn,
  stopToCountOn,
} from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { countedHow, dayInWords } from "../../words/day.js";
import { isCounted, NOT_COUNTED } from "../../words/logged.js";
import { DOUBTFUL_IN_SHORT, doubtfulProfile } from "../../words/profile.js";
import { several } from "../../words/setting.js";
import { badEnd, bandEnd_m, bandInWords, chanceLines, figureCalled } from "../../words/sureness.js";
import { metres } from "../brakes/rows.js";
import { ROLLING_NOT_TOLD, WHO } from "../limits/tables.js";
import type { Told } from "./told.js";

/** One of the three answers: how it stands in a word, and in a sentence. The questions are put so that yes is good. */
export interface Answer {
  id: string;
  question: string;
  good: boolean;
  word: string;
  text: string;
  /** Section with its picture. */
  link: string;
}

export const answersOf = (told: Told): Answer[] =>
  [charge(told), gradient(told), stopping(told)].map((answer) => counted(answer, told));

/** No yes stands beside a log that does not agree, nor on a profile that is not good enough to act on. */
function counted(answer: Answer, { plan, limits }: Told): Answer {
  if (!isCounted(limits.logged) && (answer.good || answer.id === "laps"))
    return { ...answer, good: false, word: NOT_COUNTED, text: FIND_OUT };
  if (!answer.good) return answer;
  if (doubtfulProfile(plan.notes).length === 0) return answer;
  return { ...answer, good: false, word: "Not told", text: `${DOUBTFUL_IN_SHORT}. By these heights: ${answer.text}` };
}

/** Whatever the sums say then: they are of another train. */
const FIND_OUT = "Find out first why they differ; until then there is no figure to drive by.";

/** As `limits` judges it; a day that trouble ends is not one that a charge lasts. */
function charge({ limits, eyes, plan }: Told): Answer {
  const { laps_to_plan_for: count, charge_lasts: good, day_ended_by: by } = limits;
  const laps = several(count, "lap");
  const asks = good || !Number.isFinite(plan.laps) ? "" : ` The plan asks for ${several(plan.laps, "lap")}.`;
  return {
    id: "laps",
    question: "Does a charge last the day?",
    link: "day",
    good,
    word: by !== null && isTrouble(by) ? "No: something else ends it" : `${good ? "Yes" : "No"}: ${laps}`,
    text: `${dayInWords(limits, plan, eyes).said}${asks} ${countedHow(limits)}`,
  };
}

/** Getting round and getting away again are two questions. */
function gradient({ climb: load, plan, run, eyes }: Told): Answer {
  const asked = {
    id: "gradient",
    question: "Does it get up the gradient, and away again from a stand there?",
    link: "pull",
  };
  const other = load.other_rail;
  const ruling = load.ruling_gradient_compensated_percent;
  const round = run.outcome === "completed";
  // More aboard than the table goes to start on no more than its last row.
  const rowOf = (rows: readonly ClimbRow[]) =>
    rows.find(({ passengers }) => passengers === plan.passengers) ?? rows.at(-1);
  const [own, wet] = [rowOf(load.rows)?.restarts_here ?? false, rowOf(other.rows)?.restarts_here ?? false];
  const steepest = ruling > 0.01 ? `the steepest bit, ${formatGradient(ruling / 100)}` : "the line, which is level";
  const most = (count: number | null, rail: string) =>
    count === null ? `on ${rail} rail not even empty` : `on ${rail} rail with up to ${count}`;
  const away =
    plan.train.vehicles.length === 1
      ? ""
      : ` From a stand on ${steepest}, it starts again ${most(load.passengers_it_can_restart, load.rail)}, ${most(other.passengers_it_can_restart, other.rail)} (bearings as stiff as they may be).`;
  const ended = round
    ? ""
    : ` it ${ENDED_BY_OUTCOME[run.outcome] ?? "does not get round"} at ${eyes.place(run.events.at(-1)?.chainage_m ?? 0)}.`;
  const gets = round
    ? `${aboard(plan.passengers)} it gets round on ${load.rail} rail.`
    : `${aboard(plan.passengers)}${ended}`;
  const word = !round
    ? "No"
    : own && wet
      ? "Yes"
      : own
        ? `On ${other.rail} rail not away again`
        : "It gets up, but not away again";
  return { ...asked, good: round && own && wet, word, text: `${gets}${away}` };
}

const ENDED_BY_OUTCOME: Partial<Record<Told["run"]["outcome"], string>> = {
  stalled: "stalls",
  slipping: "stands with its wheels spinning",
  flat: "runs out of charge",
  tripped: "trips its breaker",
  overran: "runs past where it should stand",
  ran_away: "runs away backwards",
  burnt_out: "burns out its motor",
};

/** Judged by whoever may be counted on, on the worse rail, as `limits` does. */
function stopping({ limits, eyes, sureness }: Told): Answer {
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

const aboard = (count: number): string => (count === 0 ? "With nobody but the driver" : `With ${count} aboard`);

/** The figure of the bands that each answer turns on. */
const TURNS_ON: Readonly<Record<string, readonly string[]>> = {
  laps: ["laps_to_reserve"],
  gradient: ["passengers_it_can_restart"],
  brakes: ["stop_m", "run_on_m"],
};

/** How sure an answer is: its band and its bad end, one of which is shown. */
function sureHtml({ sureness, eyes, limits: { logged } }: Told, id: string): string {
  // The bands are of the sums alone, but for stops.
  if (logged && (logged.agrees === false || (id === "laps" && (logged.draws ?? 1) > 1))) return "";
  const name = TURNS_ON[id]?.find((each) => sureness?.bands[each]);
  const band = name && sureness?.bands[name];
  if (!name || !band) return "";
  // What some draws do not have at all has no band to be sure of.
  if ((sureness.told_in[name] ?? 1) < COUNTED_ON) return `<p class="sure">${safe(chanceLines(sureness).join(" "))}</p>`;
  const whole = `Nine in ten: ${figureCalled(name)} ${bandInWords(name, band, eyes)}.`;
  const bad = `Nineteen in twenty: ${badEnd(name, band, eyes)}.`;
  return `<p class="sure"><span class="sure-band">${safe(whole)}</span><span class="sure-bad">${safe(bad)}</span></p>`;
}

/** Told apart by sign, word and the shape of their edge, not by colour alone. */
export const answersHtml = (told: Told): string =>
  `<div class="answers">${answersOf(told)
    .map(
      ({ id, question, good, word, text, link }) =>
        `<article id="answer-${id}" class="${good ? "good" : "bad"}"><h2>${safe(question)}</h2><p class="word"><span aria-hidden="true">${good ? "✓" : "✗"}</span> ${safe(word)}</p><p>${safe(text)} <a href="#${link}">See the picture</a></p>${sureHtml(told, id)}</article>`,
    )
    .join("")}</div>`;
