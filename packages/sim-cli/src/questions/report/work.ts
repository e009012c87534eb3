import { brakes, gears, laps, limits } from "@rideon/sim-core";
import { placesNamed } from "../../words/places.js";
import { type Files, planOf } from "../../work/files.js";
import { type Facts, lapOf, restOfDay } from "./facts.js";

/** Two halves of about the same length, side by side: each thread warms up to one kind of work. */
export type Runs = Omit<Facts, "files" | "plan" | keyof Stops>;
export type Stops = Pick<Facts, "brakes" | "limits">;

/** @param half the train running, or being stopped */
export function work({ half, files }: { half: "runs" | "stops"; files: Files }): Runs | Stops {
  const plan = planOf(files);
  if (half === "stops") return { limits: limits(files), brakes: brakes(plan) };
  const [place] = placesNamed(plan.track);
  return { ...lapOf(plan, place?.chainage_m ?? 0), laps: laps(plan), gears: gears(plan), ...restOfDay(files) };
}
