import { type EffortAnswer, formatGradient, type Sureness } from "@rideon/sim-core";
import { figures, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { effortFigure } from "./effort.svg.js";
import { loadFigure } from "./load.svg.js";
import type { ClimbTold } from "./work.js";
import { wetGrip_N } from "./work.js";

/** The load table, and the pull behind it. */
interface Shown extends Seen {
  climb: ClimbTold;
  /** With the battery down to its reserve; null where the plan starts no fuller. */
  low: EffortAnswer | null;
  sureness?: Sureness;
}

export function pullHtml(told: Shown): string {
  const { climb, low, plan, eyes } = told;
  const { tractive_effort: effort } = climb;
  const every = effort.rows.filter((_, i) => i % 15 === 0);
  const rows = every.map((row) => [
    eyes.speed(row.speed_mps),
    eyes.of(row.pull_cold_N, "force"),
    eyes.of(row.pull_hot_N, "force"),
    eyes.of(row.level_N, "force"),
    eyes.of(row.ruling_N, "force"),
  ]);
  return (
    picture((sheet) => effortFigure(told, effort, { low: low ?? undefined, wet_N: wetGrip_N(plan, effort) }, sheet)) +
    figures(
      "Pull against speed",
      ["Speed", "pull, motor cold", "motor hot", "the level takes", "the steepest here takes"],
      rows,
    )
  );
}

export function loadHtml(told: Shown): string {
  const { climb: load, eyes, plan } = told;
  const other = load.other_rail;
  const slope = (percent: number) => (percent <= 0 ? "none" : formatGradient(percent / 100));
  const rows = load.rows.map((row) => {
    const beside = other.rows.find(({ passengers }) => passengers === row.passengers);
    return [
      `${row.passengers}${row.passengers === plan.passengers ? " (this plan)" : ""}`,
      eyes.of(row.train_mass_kg, "mass"),
      slope(row.restart_gradient_percent),
      row.restarts_here ? "yes" : "NO",
      beside ? slope(beside.restart_gradient_percent) : "–",
      beside ? (beside.restarts_here ? "yes" : "NO") : "–",
    ];
  });
  const head = ["Aboard", "train", `restarts on, ${load.rail}`, "here", `restarts on, ${other.rail}`, "here"];
  return (
    picture((sheet) => loadFigure(told, load, other, sheet, told.sureness?.bands.passengers_it_can_restart)) +
    figures(
      "Load table: the steepest straight gradient it starts again on, and whether it does at the worst place here",
      head,
      rows,
    )
  );
}
