import type { Assumed, Plan } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { list, paragraph, safe } from "../../html/html.js";

/** What moves the answers most and can be had with a spring balance, a meter and a tape: from memory. */
const MEASURE_FIRST = [
  "the pull that just keeps one car, and the loco, rolling on the level: a spring balance",
  "grip: the pull at which the driven wheels slip on your rail, dry and wet",
  "amps on the level at running speed, and volts with them",
  "rail heights at every change of gradient",
  "how far it runs on from walking pace with the power off, and with the brake on",
];

/** Every default with its source, and what to measure first. */
export const assumedHtml = ({ notes }: Plan): string =>
  paragraph(
    `${notes.assumed.length} figures are not in the files and were taken as below. A source "from memory" or "common practice" is no measurement. What to measure first:`,
  ) +
  list(MEASURE_FIRST) +
  `<h3>All of them, by their sources</h3><ul class="assumed">${bySource(notes.assumed)
    .map(([source, values]) => `<li>${safe(source)}: <b>${safe(values.join("; "))}</b></li>`)
    .join("")}</ul>`;

/** Most share a source, the weakest of them first: "common practice" is how sure nobody is. */
function bySource(assumed: readonly Assumed[]): [source: string, values: string[]][] {
  const sources = new Map<string, string[]>();
  for (const { key, value, source } of assumed)
    sources.set(source, [...(sources.get(source) ?? []), `${key} ${value}`]);
  return [...sources].sort(([, a], [, b]) => b.length - a.length);
}

export const cautionsHtml = ({ notes }: Plan): string =>
  paragraph(CAUTION) +
  (notes.warnings.length === 0
    ? ""
    : paragraph("What the files themselves give cause to look at:") +
      list(notes.warnings.map(({ message }) => message)));
