import { basename } from "node:path";
import type { LevelsAnswer } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";

/** The profile that every command takes; nothing where fewer than two places have a distance. */
export function profileCsv({ points }: LevelsAnswer, book: string): string | undefined {
  const along = points.filter(({ distance_m }) => distance_m !== null);
  if (along.length < 2) return undefined;
  const [first] = along;
  const rows = along.map(({ distance_m, level_m, place }) => [
    round((distance_m as number) - (first?.distance_m ?? 0), 3),
    round(level_m, 4),
    place,
  ]);
  return `# Reduced by rideon levels from ${book === "-" ? "standard input" : basename(book)}.\n${stringify([["distance_m", "height_m", "place"], ...rows])}`;
}

const round = (value: number, places: number): number => Number(value.toFixed(places));
