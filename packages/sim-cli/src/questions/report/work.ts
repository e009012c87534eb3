import { brakes, gears, limits } from "@rideon/sim-core";
import { placesNamed } from "../../words/places.js";
import { type Files, planOf } from "../../work/files.js";
import { type Facts, lapOf, restOfDay } from "./facts.js";

/** Sprockets that the page has room for. */
const MOST_GEARS = 6;

/** On one thread: two would each warm up to the same stepping, for more processor time and little less waiting. */
export function work({ files }: { files: Files }): Omit<Facts, "files" | "plan"> {
  const plan = planOf(files);
  const [place] = placesNamed(plan.track);
  const rest = restOfDay(files);
  return {
    ...lapOf(plan, place?.chainage_m ?? 0),
    limits: limits(files, { climbed: rest.climb }),
    brakes: brakes(plan, { greatest: false, rails: "worse" }),
    gears: gears(plan, undefined, { most: MOST_GEARS }),
    ...rest,
  };
}
