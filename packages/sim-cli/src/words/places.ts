import type { Track } from "@rideon/sim-core";

/** Named places, each once. */
export function placesNamed(track: Track): { chainage_m: number; name: string }[] {
  const seen = new Set<string>();
  return Array.from(track.distance_m).flatMap((chainage_m, i) => {
    const name = track.place[i] ?? "";
    if (name === "" || seen.has(name) || (track.kind === "circuit" && i === track.distance_m.length - 1)) return [];
    seen.add(name);
    return [{ chainage_m, name }];
  });
}

/** More rows than this of a folded table nobody reads on a page; the command line tells them all. */
const MOST_PLACES = 60;

/** As many of the named places as a page has room for, evenly spread, and how that is said: "" where it is all of them. */
export function placesOnPage(track: Track): { places: { chainage_m: number; name: string }[]; which: string } {
  const all = placesNamed(track);
  const every = Math.ceil(all.length / MOST_PLACES);
  return {
    places: all.filter((_, i) => i % every === 0),
    which: every > 1 ? ` (one in ${every} of them)` : "",
  };
}
