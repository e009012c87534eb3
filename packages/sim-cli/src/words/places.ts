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
