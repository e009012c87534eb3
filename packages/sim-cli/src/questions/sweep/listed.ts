import { figuresOf, SWEPT, type SweptFigure } from "@rideon/sim-core";

/** What each question tells of a case, for the README: which way is good, what has a band, and what a case falls short by. */
export const figureTable = (): string =>
  [
    "| `--ask` | figures |",
    "| --- | --- |",
    ...SWEPT.map((question) => `| ${question} | ${figuresOf([question]).map(listedAs).join(", ")} |`),
  ].join("\n");

function listedAs({ name, better, holds, wanted, headline }: SweptFigure): string {
  const way = holds ? (wanted ? "!" : "?") : better === null ? "" : better === "more" ? "↑" : "↓";
  return `\`${name}\`${way === "" ? "" : ` ${way}`}${headline ? "±" : ""}`;
}
