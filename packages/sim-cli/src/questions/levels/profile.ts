import { basename } from "node:path";
import { type LevelsAnswer, unfitBetween } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import { standingInWords } from "./standing.js";

/** The profile that every command takes; nothing where fewer than two places have a distance. */
export function profileCsv(answer: LevelsAnswer, book: string, kind: string): string | undefined {
  const { points, gradients } = answer;
  const numbered = points.map((point, at) => ({ ...point, at }));
  const along = numbered.filter(({ distance_m, inverted }) => distance_m !== null && !inverted);
  if (along.length < 2) return undefined;
  const [first] = along;
  const levelling = along.map(({ at }, i) => {
    const next = along[i + 1];
    return next ? unfitBetween(answer, at, next.at) : "";
  });
  // It is there where it says something, so that the profile of a book that closed is as plain as can be.
  const unfit = levelling.some((each) => each !== "");
  const rows = along.map(({ distance_m, level_m, place }, i) => [
    round((distance_m as number) - (first?.distance_m ?? 0), 3),
    round(level_m, 4),
    doubtAfter(distance_m as number, along[i + 1]?.distance_m ?? null, gradients),
    ...(unfit ? [levelling[i] ?? ""] : []),
    place,
  ]);
  const head = ["distance_m", "height_m", "gradient_doubt_percent", ...(unfit ? ["levelling"] : []), "place"];
  const standing = standingInWords(answer);
  const poor =
    kind === "fixes" ? POOR : standing === undefined ? "" : `# ${standing}. Its gradients carry that doubt.\n`;
  return `# Reduced by rideon levels from ${book === "-" ? "standard input" : basename(book)}.\n${poor}${stringify([head, ...rows])}`;
}

/** It goes with the profile wherever that goes. */
const POOR = "# Heights of a receiver, metres in doubt: for a first look, and for nothing that must hold or stop.\n";

/** Of the gradient to the next post, nineteen in twenty, never rounded down; the last post has none. */
function doubtAfter(from_m: number, to_m: number | null, gradients: LevelsAnswer["gradients"]): number | "" {
  if (to_m === null) return "";
  const found = gradients.find((each) => each.from_m === from_m && each.to_m === to_m);
  return found ? Math.min(MOST_percent, Math.ceil(found.doubt_percent * 1000 - 1e-6) / 1000) : MOST_percent;
}

/** What is known of no gradient is open altogether. */
const MOST_percent = 100;

const round = (value: number, places: number): number => Number(value.toFixed(places));
