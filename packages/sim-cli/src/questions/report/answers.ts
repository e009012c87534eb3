import { type BrakesRow, formatGradient, formatPercent } from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { ENDED_BY } from "../../words/endings.js";
import { several } from "../../words/setting.js";
import { acrossRails, metres } from "../brakes/rows.js";
import { SET_NAMES } from "../brakes/stopping.svg.js";
import type { Told } from "./told.js";

/** One of the three answers: how it stands in a word, and in a sentence. */
export interface Answer {
  id: string;
  question: string;
  /** Is it no hindrance to running? */
  good: boolean;
  word: string;
  text: string;
  /** Section with its picture. */
  link: string;
}

export const answersOf = (told: Told): Answer[] => [charge(told), gradient(told), stopping(told)];

function charge({ laps, eyes, plan }: Told): Answer {
  const { laps_to_end, laps_to_reserve, time_s } = laps;
  const question = "How long does a charge last?";
  const link = "day";
  if (laps_to_end === 0)
    return {
      id: "laps",
      question,
      good: false,
      word: "No lap at all",
      link,
      text: `It does not get round once: it ${ENDED_BY[laps.ended_by].it} at ${eyes.place(laps.ended_at_m)}.`,
    };
  const before =
    laps_to_reserve < laps_to_end
      ? `, ${laps_to_reserve} of them before the battery is down to its reserve of ${formatPercent(plan.train.battery.reserve)}`
      : "";
  return {
    id: "laps",
    question,
    good: true,
    word: several(laps_to_end, "lap"),
    link,
    text: `A charge lasts ${several(laps_to_end, "lap")} (about ${eyes.of(time_s, "time")})${before}.`,
  };
}

function gradient(told: Told): Answer {
  const { climb: load, plan } = told;
  const other = load.other_rail;
  const ruling = load.ruling_gradient_compensated_percent;
  const row = load.rows.find(({ passengers }) => passengers === plan.passengers);
  const wet = other.rows.find(({ passengers }) => passengers === plan.passengers);
  const restart = (percent: number | undefined) =>
    percent === undefined ? "untold" : percent <= 0 ? "no gradient at all" : formatGradient(percent / 100);
  const good = row?.restarts_here ?? false;
  const most = load.passengers_it_can_restart;
  const here = ruling > 0.01 ? `the steepest here is ${formatGradient(ruling / 100)}` : "the line is level";
  const more =
    plan.train.vehicles.length === 1
      ? "There is no car behind it."
      : most === null
        ? "It does not start again there even empty."
        : good
          ? `It does so with up to ${most} aboard${other.passengers_it_can_restart === null ? `; on ${other.rail} rail with none, not even empty` : `, on ${other.rail} rail with ${other.passengers_it_can_restart}`}.`
          : `It would with ${most} aboard.`;
  return {
    id: "gradient",
    question: "Does the gradient stall it?",
    good: good && (wet?.restarts_here ?? true),
    word: good
      ? wet && !wet.restarts_here
        ? `${capital(load.rail)}: no. ${capital(other.rail)}: yes`
        : "No"
      : "Yes, it does",
    link: "pull",
    text: `${aboard(plan.passengers)} on ${load.rail} rail it starts again on ${restart(row?.restart_gradient_percent)}; ${here} (${other.rail} rail: ${restart(wet?.restart_gradient_percent)}). ${more}`,
  };
}

/** Judged on the worse rail: a train is not stopped by a brake that stops it in fine weather. */
function stopping(told: Told): Answer {
  const { brakes } = told;
  const asked = { id: "brakes", question: "Why brakes?", link: "stopping" };
  const none = brakes.worst.find((row) => row.brakes === "none");
  if (!none) return { ...asked, good: false, word: "Nothing to stop", text: "The train does not get under way." };
  const noBrake = `With no brake ${runsOn(none, told)}.`;
  const set = brakes.worst.filter((row) => row.brakes === "loco" || row.brakes === "all").at(-1)?.brakes;
  const judged = brakes.worst.filter((row) => row.brakes === (set ?? "none"));
  const good = judged.every(({ distance_m }) => distance_m !== null && distance_m <= brakes.sight_m);
  const longest = judged.reduce((a, b) =>
    (b.distance_m ?? Number.POSITIVE_INFINITY) > (a.distance_m ?? Number.POSITIVE_INFINITY) ? b : a,
  );
  const word = good ? `It stops within ${metres(longest.distance_m)}` : "It does not stop in time";
  if (!set) return { ...asked, good, word, text: `${noBrake} ${noneDescribed(told)}` };
  const rails = acrossRails(judged).map((row) => `on ${row.rails} rail ${stopsIn(row, told)}`);
  return { ...asked, good, word, text: `${noBrake} With ${SET_NAMES[set]}, ${rails.join("; ")}.` };
}

function noneDescribed({ brakes: { brake_wanted: wanted, sight_m }, eyes }: Told): string {
  if (!wanted) return "No brake on wheels is described.";
  return `No brake is described. One that pulls ${eyes.of(wanted.rail_force_N, "force")} at the rail would stop it within ${eyes.length(sight_m)} from everywhere.`;
}

const stopsIn = (row: BrakesRow, { eyes }: Told): string =>
  row.stops
    ? `it stops in ${metres(row.distance_m)} at most`
    : `it cannot be stopped from ${eyes.place(row.chainage_m)} and reaches ${eyes.speed(row.top_speed_mps)}`;

function runsOn(row: BrakesRow, { eyes }: Told): string {
  const from = `from ${eyes.speed(row.speed_mps)} at ${eyes.place(row.chainage_m)}`;
  return row.stops
    ? `it runs on for ${eyes.length(row.distance_m ?? 0)} ${from}`
    : `it cannot be stopped ${from}: it reaches ${eyes.speed(row.top_speed_mps)}`;
}

const aboard = (count: number): string => (count === 0 ? "With nobody but the driver" : `With ${count} aboard`);
const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

/** Told apart by sign, word and the shape of their edge, not by colour alone. */
export const answersHtml = (told: Told): string =>
  `<div class="answers">${answersOf(told)
    .map(
      ({ id, question, good, word, text, link }) =>
        `<article id="answer-${id}" class="${good ? "good" : "bad"}"><h2>${safe(question)}</h2><p class="word"><span aria-hidden="true">${good ? "✓" : "✗"}</span> ${safe(word)}</p><p>${safe(text)} <a href="#${link}">See the picture</a></p></article>`,
    )
    .join("")}</div>`;
