import type { WiringAnswer } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { version } from "../../ground/version.js";
import { documentHtml, paragraph, picture, safe, section, table } from "../../html/html.js";
import { STYLE } from "../../html/style.js";
import type { Told } from "../../words/ready.js";
import { trainInWords } from "../../words/setting.js";
import { firstWords } from "./first.js";
import { schematicFigure } from "./schematic.svg.js";
import { METER_HEAD, meterRows, standingTold, stepsOf } from "./steps.js";
import { CABLE_HEAD, cableRows, headline, notRound, pathRows } from "./told.js";

const OWN_STYLE =
  "ol.steps>li{margin:.4em 0}ol.steps>li::before{content:'☐ '}@media print{section{break-inside:avoid}}";

/** The sheet to work from: one file that needs no other, no network and no program. */
export function wiringPage(told: Told<WiringAnswer>): string {
  const { answer, eyes, plan } = told;
  const title = `Wiring: ${told.reading.loco.name}`;
  const date = new Date().toISOString().slice(0, 10);
  const items = (texts: readonly string[]) => texts.map((text) => `<li>${safe(text)}</li>`).join("");
  return documentHtml(
    title,
    STYLE + OWN_STYLE,
    `<header><h1>${safe(title)}</h1>
${paragraph(`${trainInWords(told, plan.train)}.`)}
${paragraph(`${date} · worked out by rideon ${version()}. Everything here is calculated; nothing was measured.`)}</header>
<main>
<p class="warn">${safe([headline(answer), ...notRound(answer)].join(" "))}</p>
${section(
  "path",
  "How the power goes",
  picture(() => schematicFigure(answer)),
  table("What each must bear", ["", "asked of it"], pathRows(answer)),
)}
${section("cables", "Cables", table("Cables", CABLE_HEAD, cableRows(answer)), paragraph(standingTold(answer)))}
${section("first", "Before anything is joined", `<ul>${items(firstWords(answer, eyes))}</ul>`)}
${section("steps", "The order of connecting", `<ol class="steps">${items(stepsOf(answer, eyes))}</ol>`)}
${section("meter", "What a voltmeter shows", table("From the battery's −", METER_HEAD, meterRows(answer, eyes)))}
${section("caution", "Caution", paragraph(CAUTION))}
</main>
<footer>${paragraph(`rideon ${version()}, ${date}.`)}</footer>`,
  );
}
