import { brakes, gears, limits } from "@rideon/sim-core";
import { placesNamed } from "../../words/places.js";
import { type Files, planOf } from "../../work/files.js";
import { type Facts, lapOf, restOfDay } from "./facts.js";

/** Sprockets that the page has room for. */
const MOST_GEARS = 6;

/** Two halves of about the same length, side by side: each thread warms up to one kind of work. */
export type Runs = Omit<Facts, "files" | "plan" | keyof Stops>;
export type Stops = Pick<Facts, "brakes" | "limits">;

/** @param half the train running, or being stopped */
export function work({ half, files }: { half: "runs" | "stops"; files: Files }): Runs | Stops {
  const plan = planOf(files);
  if (half === "stops") return { limits: limits(files), brakes: brakes(plan, { greatest: false }) };
  const [place] = placesNamed(plan.track);
  return {
    ...lapOf(plan, place?.chainage_m ?? 0),
    gears: gears(plan, undefined, { most: MOST_GEARS }),
    ...restOfDay(files),
  };
}
