import type { RunAnswer } from "@rideon/sim-core";
import { documentHtml, paragraph, programHtml, safe, section } from "../../html/html.js";
import { STYLE } from "../../html/style.js";
import { isCounted, NOT_COUNTED } from "../../words/logged.js";
import { onWorseRail, stoppingHtml, whyBrakesHtml } from "../brakes/section.js";
import { filedStops } from "../brakes/stopping.svg.js";
import { loadHtml, pullHtml } from "../climb/section.js";
import { comparedHtml } from "../compare/section.js";
import { gearsHtml } from "../gears/section.js";
import { dayHtml } from "../laps/section.js";
import { limitsHtml } from "../limits/section.js";
import { energyHtml, lapHtml } from "../run/section.js";
import { answersHtml } from "./answers.js";
import { assumedHtml, cautionsHtml } from "./assumed.js";
import { cardHtml } from "./card.js";
import { controlsHtml } from "./controls.js";
import { mayHtml } from "./may.js";
import { packed } from "./pack.js";
import { sureHtml } from "./sure.js";
import { type QuicklyTold, type Style, settingInWords, type Told } from "./told.js";

/** What the page says of itself, besides its answers. */
export interface Heading {
  date: string;
  version: string;
  /** The files' own names, as typed. */
  inputs: readonly string[];
  /** What the plan's file says of itself at its head; "" where it says nothing. */
  remark: string;
  style: Style;
  /** The live part: a program of one file; "" leaves it out. */
  program: string;
}

interface Live {
  quick: Record<string, (told: QuicklyTold) => string>;
  slow: Record<string, (told: Told) => string>;
}

/** The plan's speed is what is asked; what it comes to stands beside it where that is less. */
function settingHtml(told: QuicklyTold): string {
  const { plan, run, eyes } = told;
  const reaches =
    run.top_speed_mps < CREEP_mps ? "it does not get under way" : `it reaches ${eyes.speed(run.top_speed_mps)}`;
  const slower = run.top_speed_mps < REACHED * plan.speed_mps ? `; ${reaches}` : "";
  return `${safe(settingInWords(told) + slower)}.`;
}

/** Of the speed asked for. */
const REACHED = 0.95;
const CREEP_mps = 0.1;

/** Over what is drawn of sums that a log has shown to be of another train. */
const warned =
  <T>(draw: (told: T) => string) =>
  (told: T & Pick<Told, "files">): string =>
    (isCounted(told.files.logged) ? "" : `<p class="warn">${safe(NOT_COUNTED)}.</p>`) + draw(told);

/** Parts that are worked out anew when the reader moves a control: at once, or when the worker is done. */
export const LIVE: Live = {
  quick: { setting: settingHtml, "lap-body": warned(lapHtml), "energy-body": warned(energyHtml) },
  slow: {
    "may-body": mayHtml,
    "why-body": warned(whyBrakesHtml),
    "answers-body": answersHtml,
    "stopping-body": warned((told) => limitsHtml(told) + stoppingHtml(told)),
    "day-body": warned(dayHtml),
    "pull-body": warned(pullHtml),
    "load-body": warned(loadHtml),
    "sure-body": warned(sureHtml),
    "card-body": cardHtml,
  },
};

const live = (id: string, told: Told): string => {
  const draw = LIVE.quick[id] ?? LIVE.slow[id];
  return `<div id="${id}">${draw?.(told) ?? ""}</div>`;
};

/** Shown by the program: a place along the lap, and what the instruments read there. */
const CURSOR = `<p id="cursor-line" class="screen" hidden><label for="cursor">Read the lap at</label><input id="cursor" type="range" min="0" max="1000" value="0"><output id="cursor-reads" for="cursor"></output></p>`;

/** The whole page: one file that needs no other and no network, whole without its program. */
export function pageHtml(told: Told, heading: Heading): string {
  const { plan, files } = told;
  const title = plan.name === files.loco.name ? plan.name : `${plan.name}: ${files.loco.name}`;
  const sections = [
    section("stopping", "Stopping and standing", live("stopping-body", told)),
    section("lap", "Along the lap", live("lap-body", told), heading.program === "" ? "" : CURSOR),
    section("pull", "Pull", live("pull-body", told)),
    section("load", "Load table and sprockets", live("load-body", told), gearsHtml(told)),
    section("day", "Laps as the charge falls", live("day-body", told)),
    section("energy", "Where the charge goes", live("energy-body", told)),
    section("sure", "How sure this is, and what to measure first", live("sure-body", told)),
    ...(told.compared ? [section("compared", "The sums against the railway", comparedHtml(told, told.compared))] : []),
    section("assumed", "What we assumed", assumedHtml(plan)),
    section("cautions", "Cautions", cautionsHtml(plan)),
    section("card", "The driver's card", live("card-body", told)),
  ];
  return documentHtml(
    title,
    STYLE,
    `<header><h1>${safe(title)}</h1>
<p id="setting">${settingHtml(told)}</p>
<p>${safe(heading.date)} · worked out by rideon ${safe(heading.version)} from ${safe(heading.inputs.join(", "))}. Everything on this page is calculated; nothing was measured by it${told.compared ? ", but for the log under “The sums against the railway”" : ""}.${heading.remark === "" ? "" : ` The plan says of itself: <q>${safe(heading.remark)}</q>`}</p></header>
<main>
${live("may-body", told)}
<div class="first"><section id="why" aria-labelledby="why-h"><h2 id="why-h">Why brakes</h2>${live("why-body", told)}</section>
${live("answers-body", told)}</div>
<p class="warn">A simulation with assumed figures: prove it with nobody aboard first; the club's rules and a competent person decide. <a href="#cautions">In full</a></p>
${heading.program === "" ? "" : controlsHtml(told)}
${sections.join("\n")}
</main>
<footer>${paragraph(`rideon ${heading.version}, ${heading.date}.`)}</footer>
<script type="application/json" id="answers">${packed(figuresBehind(told))}</script>
${heading.program === "" ? "" : `<script type="application/json" id="files">${packed({ files, style: heading.style, filed: filedStops(plan, onWorseRail(told.brakes)) })}</script>\n${programHtml(heading.program)}`}`,
    heading.program,
  );
}

/** The driver's card with nothing else. */
export const cardPage = (told: Told, { date, version }: Heading): string =>
  documentHtml(
    `Driver's card: ${told.files.loco.name}`,
    STYLE,
    `<main><h1 class="unseen">Driver's card</h1><h2 class="unseen">${safe(told.plan.name)}</h2>${cardHtml(told)}<p class="screen">rideon ${safe(version)}, ${safe(date)}</p></main>`,
  );

/** The figures behind the words, unrounded: for those who check the page against the command line. */
export function figuresBehind({ run, brakes, climb, stops, limits, sureness }: Told) {
  return {
    ...(sureness && { sureness }),
    limits,
    run: kept(run),
    brakes: {
      worst: brakes.worst,
      brake_wanted: brakes.brake_wanted,
      parking: brakes.parking.map(({ places_it_will_not_hold: _, ...others }) => others),
    },
    climb: { rows: climb.rows, other_rail: { rail: climb.other_rail.rail, rows: climb.other_rail.rows } },
    stops,
  };
}

function kept(run: RunAnswer) {
  const { events: _, energy_balance: __, protection: ___, least_margins: ____, ...others } = run;
  return others;
}
