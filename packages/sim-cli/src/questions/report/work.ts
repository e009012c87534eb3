import { placesNamed } from "../../words/places.js";
import { type Files, planOf } from "../../work/files.js";
import { type Lap, lapOf, type RestOfDay, restOfDay } from "./facts.js";

/** All of the page's facts but what other questions answer for it at the same time. */
export function work(files: Files): Lap & RestOfDay {
  const plan = planOf(files);
  const [place] = placesNamed(plan.track);
  return { ...restOfDay(files), ...lapOf(plan, place?.chainage_m ?? 0) };
}
