/** Something that is judged, and how near it is to what is asked of it: at least 1 where it will do. */
export interface Judged {
  readonly what: string;
  readonly margin: number | null;
  readonly enough: boolean | null;
}

/** Of all that has a margin, the least. */
export const tightest = (judged: readonly Judged[]): Judged | undefined =>
  judged
    .filter(({ margin }) => margin !== null)
    .reduce<Judged | undefined>((a, b) => (a && (a.margin ?? 0) <= (b.margin ?? 0) ? a : b), undefined);

/** `layshaft key`, `axle bearing`, `motor shaft`, `chain 2`. */
export function named(place: string | null, part: string): string {
  const what = part.replaceAll("_", " ");
  if (place === null) return what;
  if (part === "shaft" && place !== "motor") return place;
  return /^\d+$/.test(place) ? `${what} ${place}` : `${place} ${what}`;
}
