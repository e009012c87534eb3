import type { BrakesRow } from "@rideon/sim-core";
import { isCounted, NOT_COUNTED } from "../../words/logged.js";
import { several } from "../../words/setting.js";
import { acrossRails, metres } from "../brakes/rows.js";
import { SET_NAMES } from "../brakes/stopping.svg.js";
import type { Told } from "./told.js";

/** What happens when the driver acts at the place chosen, and how the lap went. */
export function stopsInWords(
  stops: readonly BrakesRow[],
  { eyes, run, files }: Pick<Told, "eyes" | "run" | "files">,
): string {
  const [first] = stops;
  const goes = ({ outcome, distance_m, top_speed_mps }: BrakesRow) =>
    outcome === "stops"
      ? metres(distance_m)
      : outcome === "rolls_back"
        ? "comes to a stand and rolls back"
        : `runs away, reaches ${eyes.speed(top_speed_mps)}`;
  const oneWay = stops.filter(({ direction }) => direction === first?.direction);
  const lap =
    run.outcome === "completed"
      ? `${run.laps === 1 ? "One lap" : several(run.laps, "lap")}: ${eyes.of(run.time_s, "time")}, up to ${Math.round(run.peak_motor_current_A)} A in the motor.`
      : `The lap is not finished: ${run.outcome.replaceAll("_", " ")} at ${eyes.place(run.events.at(-1)?.chainage_m ?? 0)}.`;
  if (!isCounted(files.logged)) return `${NOT_COUNTED}.`;
  if (!first) return lap;
  const told = acrossRails(oneWay).map((row) => `${SET_NAMES[row.brakes]}, ${row.rails} rail: ${goes(row)}`);
  return `${lap} Acting at ${eyes.place(first.chainage_m)} from ${eyes.speed(first.speed_mps)}: ${told.join("; ")}.`;
}
