import { type ClimbRow, COUNTED_ON, formatGradient, isTrouble } from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { countedHow, dayInWords } from "../../words/day.js";
import { isCounted, NOT_COUNTED } from "../../words/logged.js";
import { DOUBTFUL_IN_SHORT, doubtfulProfile } from "../../words/profile.js";
import { several } from "../../words/setting.js";
import { badEnd, bandInWords, chanceLines, figureCalled } from "../../words/sureness.js";
import { PULLING_NOT_TOLD } from "../limits/tables.js";
import type { Answer } from "./answer.kind.js";
import { stopping } from "./stopping.js";
import type { Told } from "./told.js";

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
function gradient({ climb: load, plan, run, eyes, limits: { counted: on } }: Told): Answer {
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
      : ` From a stand on ${steepest}, it starts again ${most(load.passengers_it_can_restart, load.rail)}, ${most(other.passengers_it_can_restart, other.rail)} (bearings as stiff as ${on.pulling_by_log ? "the logged run leaves them" : "they may be"}).${on.pulling_told ? "" : ` ${PULLING_NOT_TOLD}.`}`;
  const ended = round
    ? ""
    : ` it ${ENDED_BY_OUTCOME[run.outcome] ?? "does not get round"} at ${eyes.place(run.events.at(-1)?.chainage_m ?? 0)}.`;
  const gets = round
    ? `${aboard(plan.passengers)} it gets round on ${load.rail} rail.`
    : `${aboard(plan.passengers)}${ended}`;
  const word = !round
    ? "No"
    : own && wet
      ? on.pulling_told
        ? "Yes"
        : "Not told: yes by the sums alone"
      : own
        ? `On ${other.rail} rail not away again`
        : "It gets up, but not away again";
  return { ...asked, good: round && own && wet && on.pulling_told, word, text: `${gets}${away}` };
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

const aboard = (count: number): string => (count === 0 ? "With nobody but the driver" : `With ${count} aboard`);

/** The figure of the bands that each answer turns on. */
const TURNS_ON: Readonly<Record<string, readonly string[]>> = {
  laps: ["laps_to_reserve"],
  gradient: ["passengers_it_can_restart"],
  brakes: ["stop_m", "run_on_m"],
};

/** How sure an answer is: its band and its bad end, one of which is shown. */
function sureHtml({ sureness, eyes, limits: { logged, counted: on } }: Told, id: string): string {
  // The bands are of the sums alone, but for stops.
  if (logged && (logged.agrees === false || (id === "laps" && (logged.draws ?? 1) > 1))) return "";
  if (id === "gradient" && (on.pulling_by_log || !on.pulling_told)) return "";
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
