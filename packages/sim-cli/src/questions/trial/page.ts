import { CAUTION } from "../../ground/caution.js";
import { documentHtml, list, paragraph, safe, section, table } from "../../html/html.js";
import { STYLE } from "../../html/style.js";
import { NOTHING_LEFT } from "./ranked/lines.js";
import { type RankedWords, rankedWords } from "./ranked/ranked.js";
import type { FaultTable } from "./sheet/faults.js";
import { type SheetWords, type StepWords, sheetWords } from "./sheet/sheet.js";
import { TRIAL_STYLE, TWO_PAGES } from "./style.js";
import type { TrialTold } from "./told.js";
import { outingWords, titleWords } from "./words.js";

/** What the page says of itself, besides its answers. */
export interface TrialHeading {
  date: string;
  version: string;
  /** The files' own names, as typed. */
  inputs: readonly string[];
}

/** The sheet for paper: one file that needs no other, no network and no program. */
export function trialPage(told: TrialTold, { date, version, inputs }: TrialHeading): string {
  const words = sheetWords(told);
  const { causes } = told.answer;
  const title = titleWords(told);
  return documentHtml(
    title,
    STYLE + TRIAL_STYLE + (told.answer.long || causes ? "" : TWO_PAGES),
    `<header><h1>${safe(title)}</h1>
${paragraph(outingWords(told))}
${paragraph(`${date} · worked out by rideon ${version} from ${inputs.join(", ")}. ${causes ? "All but what was read is calculated." : "Everything here is calculated; nothing was measured."}`)}<p class="who">Day ____________ Driver ____________________ Second person ____________________ Rail and weather ____________________</p></header>
<main>
<section class="safety" id="safety" aria-labelledby="safety-h"><h2 id="safety-h">Safety first</h2><ol>${words.safety.map((each) => `<li>${safe(each)}</li>`).join("")}</ol></section>
${causes ? rankedHtml(rankedWords(told, causes)) : ""}
${section("reading", "How the sheet is read", ...[words.meters, words.bands, words.afterwards].map(paragraph))}
${words.steps.map((step, i) => stepHtml(step, i) + (step.step === "looks" ? stillHtml(words) : "")).join("\n")}
${words.faults.length === 0 ? "" : section("faults", "What it could be", paragraph("For each sign: what a sound machine reads on this loco, and what each cause would."), ...words.faults.map(faultHtml))}
${section("caution", "Caution", paragraph(CAUTION))}
</main>
<footer>${paragraph(`rideon ${version}, ${date}.`)}</footer>`,
  );
}

const HEAD = ["reading", "what to read", "should be", "between", "read"];

function stepHtml({ title, caution, how, checks, readings }: StepWords, i: number): string {
  const rows = readings.map(({ reading, what, expected, band, yesOrNo, orElse, read }) => [
    reading,
    what,
    expected,
    band,
    read ? `${read.read}${read.outside ? ", OUTSIDE" : ""}` : yesOrNo ? `☐ yes  ☐ no${orElse && `  ☐ ${orElse}`}` : "",
  ]);
  return section(
    `step-${i + 1}`,
    title,
    `<p class="caution">${safe(caution)}</p>`,
    paragraph(how),
    checks.length === 0 ? "" : list(checks).replace("<ul>", '<ul class="checks">'),
    rows.length === 0 ? "" : `<div class="sheet">${table(`Readings: ${title}`, HEAD, rows)}</div>`,
  );
}

function stillHtml({ still }: SheetWords): string {
  if (!still) return "";
  const rows = still.finds.map(({ found, means }) => [found, means]);
  return `\n${section("still", still.title, paragraph(still.how), `<div class="still">${table(still.title, ["what is found", "where to look"], rows)}</div>`)}`;
}

function faultHtml({ title, readings, rows }: FaultTable): string {
  const body = rows.map(({ what, toldBy, values }) => [what, ...values, toldBy]);
  return `<div class="faults"><h3>${safe(title)}</h3>${table(title, ["what is wrong", ...readings, "told best by"], body)}</div>`;
}

function rankedHtml({ headline, causes, runnerUp, notThese, remedy, next, priors }: RankedWords): string {
  const rows = causes.map(({ chance, what, evidence }) => [what, chance, evidence.join("; ")]);
  const [second, ...why] = runnerUp;
  return section(
    "ranked",
    "What was read, and what it means",
    `<p class="caution">${safe(headline)}</p>`,
    paragraph(`${remedy.heading}: ${remedy.text}`),
    `<div class="ranked">${table("Causes, the likeliest first", ["cause", "how likely", "evidence"], rows)}</div>`,
    paragraph(priors),
    second === undefined ? "" : `<h3>The next likeliest</h3>${paragraph(second)}${list(why)}`,
    notThese.length === 0 ? "" : `<h3>Why not the others</h3>${list(notThese)}`,
    `<h3>${safe(next?.heading ?? "Read next")}</h3>${nextHtml(next)}`,
  );
}

function nextHtml(next: RankedWords["next"]): string {
  if (next === undefined) return paragraph(NOTHING_LEFT);
  const rows = next.would.map(({ cause, value }) => [cause, value]);
  return `${paragraph(`${next.reading}. ${next.what}`)}<p class="caution">${safe(next.caution)}</p>${table("What it would read", ["if it is", "it reads"], rows)}`;
}
