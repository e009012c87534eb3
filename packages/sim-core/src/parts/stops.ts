import { assume, cut, type Notes, quoted } from "../errors.js";
import { type PlanDefinition, planKeys } from "./files.keys.js";
import type { TrackColumns } from "./track.columns.js";

/** A stop of the working: its mark is where the leading end stands. */
export interface Stop {
  readonly place: string;
  readonly chainage_m: number;
  readonly dwell_s: number;
  readonly direction: "out" | "back" | "both";
  /** Aboard when it leaves; undefined where nobody gets on or off. */
  readonly passengers: number | undefined;
}

/** The plan's stops, each at the first post of its place's name. */
export function createStops(plan: PlanDefinition, columns: TrackColumns, notes: Notes): Stop[] {
  const first_m = columns.distance_m[0] ?? 0;
  const names = columns.place ?? [];
  const places = [...new Set(names.filter((place) => place !== ""))];
  return (plan.stops ?? []).map((stop, i) => {
    const path = `plan.stops.${i + 1}`;
    const post = names.indexOf(stop.place);
    if (post < 0) {
      const known = places.length > 0 ? `its places are ${cut(places.join(", "), 300)}` : "it names no place";
      notes.problems.push({
        path: `${path}.place`,
        message: `the profile has no place ${quoted(stop.place)}; ${known}`,
      });
    }
    return {
      place: stop.place,
      chainage_m: (columns.distance_m[post] ?? first_m) - first_m,
      dwell_s: stop.dwell_s,
      direction: assume(notes, `${path}.direction`, stop.direction, planKeys.stops.keys.direction.default),
      passengers: stop.passengers,
    };
  });
}
