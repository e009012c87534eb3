import { CAUTION } from "../../ground/caution.js";
import { version } from "../../ground/version.js";
import { documentHtml, list, paragraph, picture, safe, section, table } from "../../html/html.js";
import { STYLE } from "../../html/style.js";
import { listed } from "../../words/lists.js";
import type { Beside } from "./beside.js";
import type { Found } from "./found.js";
import { endedTold, headline } from "./headline.js";
import { shortTold } from "./lacks.js";
import { bandLines, failedIn, failedRows, LACKS_HEAD, lackRows } from "./lists.js";
import { sweepFigure } from "./map.svg.js";
import type { SweptRow } from "./rows.js";
import { fallsShort, wentWell } from "./rows.js";
import { valueTold } from "./values.js";
import { warnedRows } from "./warned.js";
import { notAsked } from "./words.js";

/** The sweep as a page that prints: the best, the map, and designs side by side with what each would take. */
export function sweepPage(found: Found, complete: number, designs: readonly Beside[]): string {
  const { wanted, best, columns } = found;
  const title = `What if: ${found.rows} cases by ${wanted.best.name}`;
  const date = new Date().toISOString().slice(0, 10);
  const drawn = sweepFigure(found);
  const head = ["case", ...columns.varied, "falls short", ...columns.figures.map(({ name }) => name)];
  const rows = best.map((row) => [
    String(row.number),
    ...row.settings,
    shortTold(row),
    ...columns.figures.map(({ name }) => valueTold(row.figures[name])),
  ]);
  return documentHtml(
    title,
    // What it falls short of is a sentence among figures.
    `${STYLE}#best td:nth-child(${2 + columns.varied.length}){min-width:14rem}`,
    `<header><h1>${safe(title)}</h1>
${paragraph(endedTold(found, complete))}
${paragraph(`${date} · worked out by rideon ${version()}. Everything here is calculated; nothing was measured.`)}</header>
<main>
<p class="warn">${safe([headline(found), notAsked(found)].filter((each) => each !== "").join(" "))}</p>
${designs.length > 0 ? sideBySide(found, designs) : ""}
${
  drawn
    ? section(
        "map",
        `${wanted.best.name} of every case`,
        picture((sheet) => sweepFigure(found, sheet) ?? drawn),
      )
    : ""
}
${rows.length > 0 ? section("best", "The best", table(`By ${wanted.best.name}, ${wanted.best.better === "more" ? "the most" : "the least"} first`, head, rows)) : ""}
${told("lacks", "What they fall short of", "Each lack, and the cases that have it", LACKS_HEAD, lackRows(found))}
${told("failed", "Cases that came to nothing", "As they are set, and why", ["case", ...columns.varied, "why"], failedRows(failedIn(found), columns, CSV))}
${told("warned", "Warnings of the plan", "Each warning, and the cases it belongs to", ["cases", "warning"], warnedRows(found.warned, MOST_WARNED, CSV))}
${bandLines(found).map(paragraph).join("\n")}
${section("caution", "Caution", paragraph(CAUTION))}
</main>
<footer>${paragraph(`rideon ${version()}, ${date}.`)}</footer>`,
  );
}

const MOST_WARNED = 20;
/** Beside the page. */
const CSV = "sweep.csv";

const told = (id: string, heading: string, caption: string, head: readonly string[], rows: string[][]): string =>
  rows.length === 0 ? "" : section(id, heading, table(caption, head, rows));

/** A column a design, a row a figure: over all that is varied besides, from least to most. */
function sideBySide(found: Found, designs: readonly Beside[]): string {
  const { columns, kept } = found;
  const at = columns.varied.indexOf("loco");
  const names = [...new Set(kept.map(({ settings }) => settings[at] ?? ""))];
  const of = (name: string) => kept.filter(({ settings }) => settings[at] === name);
  const rows = [
    ...columns.figures.map(({ name }) => [name, ...names.map((design) => rangeTold(of(design), name))]),
    ["came to their end", ...names.map((design) => shareTold(of(design), wentWell))],
    ["fall short of something", ...names.map((design) => shareTold(of(design), fallsShort))],
  ];
  const each = designs.map(({ path, name, differences, bill, notListed, warnings }) =>
    section(
      `design-${names.indexOf(path)}`,
      `What is otherwise with ${name}`,
      differences.length === 0
        ? paragraph("Nothing: the two files have the same.")
        : table("As the files have it", ["key", names[0] ?? "", path], differences),
      bill === null
        ? paragraph("One of the two makes no train, so that there is no list of parts.")
        : bill.length === 0
          ? paragraph("It takes no other parts than the first.")
          : paragraph("What the change takes from the shop, part by part:") +
            list(bill.map(([part = "", text = ""]) => `${part}: ${text}`)),
      ...notListed.map(paragraph),
      ...(warnings.length > 0 ? [paragraph("Warned of with this one and not with the first:"), list(warnings)] : []),
    ),
  );
  return section("designs", "Designs side by side", table("Key figures", ["figure", ...names], rows)) + each.join("\n");
}

function rangeTold(rows: readonly SweptRow[], name: string): string {
  const values = rows.filter(wentWell).map(({ figures }) => figures[name] ?? null);
  const there = values.filter((value) => value !== null);
  if (there.length === 0) return "–";
  if (there.every((value) => typeof value === "boolean")) {
    const holds = there.filter(Boolean).length;
    return there.length === 1 ? (holds ? "yes" : "no") : `yes in ${holds} of ${rows.length}`;
  }
  if (there.some((value) => typeof value === "string")) return listed([...new Set(there.map(String))]);
  const numbers = there.map(Number);
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const some = there.length < rows.length ? `, in ${there.length} of ${rows.length}` : "";
  const [low, high] = [valueTold(least), valueTold(most)];
  return `${low}${high === low ? "" : ` to ${high}`}${some}`;
}

const shareTold = (rows: readonly SweptRow[], holds: (row: SweptRow) => boolean): string =>
  `${rows.filter(holds).length} of ${rows.length}`;
