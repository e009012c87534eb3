import { basename } from "node:path";
import type { LevelsAnswer } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";

/** The profile that every command takes; nothing where fewer than two places have a distance. */
export function profileCsv({ points }: LevelsAnswer, book: string, kind: string): string | undefined {
  const along = points.filter(({ distance_m, inverted }) => distance_m !== null && !inverted);
  if (along.length < 2) return undefined;
  const [first] = along;
  const rows = along.map(({ distance_m, level_m, place }) => [
    round((distance_m as number) - (first?.distance_m ?? 0), 3),
    round(level_m, 4),
    place,
  ]);
  const poor = kind === "fixes" ? POOR : "";
  return `# Reduced by rideon levels from ${book === "-" ? "standard input" : basename(book)}.\n${poor}${stringify([["distance_m", "height_m", "place"], ...rows])}`;
}

/** It goes with the profile wherever that goes. */
const POOR = "# Heights of a receiver, metres in doubt: for a first look, and for nothing that must hold or stop.\n";

const round = (value: number, places: number): number => Number(value.toFixed(places));
