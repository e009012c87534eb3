import type { Assumed, Plan } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { list, paragraph, safe } from "../../html/html.js";

/** Folded, every default with its source. */
export const assumedHtml = (plan: Plan): string =>
  paragraph(`${plan.notes.assumed.length} figures are not in the files and were taken as those of the usual loco.`) +
  `<details><summary>All that is assumed, by its sources</summary><ul class="assumed">${bySource(plan.notes.assumed)
    .map(([source, values]) => `<li>${safe(source)}: <b>${safe(values.join("; "))}</b></li>`)
    .join("")}</ul></details>`;

/** Most share a source, the weakest of them first: "common practice" is how sure nobody is. */
function bySource(assumed: readonly Assumed[]): [source: string, values: string[]][] {
  const sources = new Map<string, string[]>();
  for (const { key, value, source } of assumed)
    sources.set(source, [...(sources.get(source) ?? []), `${inWords(key)} ${value}`]);
  return [...sources].sort(([, a], [, b]) => b.length - a.length);
}

/** `loco, motor, brush drop` of `loco.motor.brush_drop`: people read it. */
const inWords = (key: string): string =>
  key
    .replace(/^plan\./, "")
    .replaceAll("_", " ")
    .replaceAll(".", ", ");

export const cautionsHtml = ({ notes }: Plan): string =>
  paragraph(CAUTION) +
  (notes.warnings.length === 0
    ? ""
    : paragraph("What the files themselves give cause to look at:") +
      list(notes.warnings.map(({ message }) => message)));
