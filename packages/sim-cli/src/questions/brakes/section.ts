import { type BrakesAnswer, type BrakesRow, formatGradient, formatPercent, figures as round } from "@rideon/sim-core";
import type { Picture } from "../../charts/picture.js";
import { figures, folded, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { placeBefore } from "../../words/eyes.js";
import { placesNamed } from "../../words/places.js";
import { acrossRails, metres, nearestRow } from "./rows.js";
import { type FiledStops, SET_NAMES, stoppingFigure } from "./stopping.svg.js";

/** Stops from everywhere, and the lap that they are drawn along. */
interface Shown extends Seen {
  brakes: BrakesAnswer;
  picture: Picture;
  /** As the files have them, once a control was moved. */
  filed?: readonly FiledStops[];
}

/** Stopping distances round the line on the worse rail, by which stops are judged: why brakes are needed. */
export function whyBrakesHtml(told: Shown): string {
  const { brakes, picture: lap } = told;
  const rows = onWorseRail(brakes);
  if (rows.length === 0) return paragraph("The train does not get under way, so there is nothing to stop.");
  return (
    picture((sheet) => stoppingFigure(told, lap, rows, brakes.sight_m, sheet, told.filed)) +
    paragraph(`Drawn for ${brakes.rails.at(-1)?.rail} rail, the worse that was looked at.`)
  );
}

export const onWorseRail = ({ rows, rails }: BrakesAnswer): BrakesRow[] =>
  rows.filter(({ rail }) => rail === rails.at(-1)?.rail);

/** The worst of every set on every rail, the brake that it wants, and where it stays. */
export function stoppingHtml(told: Shown): string {
  const { brakes, eyes } = told;
  const rows = onWorseRail(brakes);
  if (rows.length === 0) return paragraph("The train does not get under way, so there is nothing to stop.");
  const head = ["Worst place", "rail", "from", "stops in", "seconds", "hardest", "wheels"];
  const worst = acrossRails(brakes.worst).map((row) => [
    `${SET_NAMES[row.brakes]}: ${eyes.place(row.chainage_m)}`,
    row.rails,
    eyes.speed(row.speed_mps),
    stopsIn(row, eyes),
    row.time_s === null ? "–" : String(Math.round(row.time_s)),
    `${row.peak_deceleration_mps2.toFixed(1)} m/s²`,
    row.wheels_locked ? "lock or slide" : "roll",
  ]);
  return [
    paragraph(
      `Counted on the safe side: bearings as free as they may be, no drag of the motor unless it was measured, ${round(brakes.reaction_time_s)} s for the driver to act.`,
    ),
    figures("The longest stop with each set of brakes, from the moment the driver should act", head, worst),
    brakeWanted(told),
    parking(told),
    byPlace(told, rows),
  ].join("\n");
}

/** What runs on, what gathers speed and what rolls back are told apart. */
function stopsIn({ outcome, distance_m, top_speed_mps, speed_mps }: BrakesRow, eyes: Seen["eyes"]): string {
  const reaches = `reaches ${eyes.speed(top_speed_mps)}`;
  if (outcome === "rolls_back") return "comes to a stand and rolls back";
  if (outcome === "runs_on") return `runs away; ${reaches}`;
  return top_speed_mps > 1.1 * speed_mps ? `${metres(distance_m)}; ${reaches}` : metres(distance_m);
}

function brakeWanted({ brakes: { brake_wanted: wanted, sight_m }, eyes }: Shown): string {
  if (!wanted) return "";
  const enough = wanted.grip.map(
    ({ braked, rail, enough: does }) =>
      `${braked === "loco" ? "the loco's wheels alone" : "all wheels of the train"} on ${rail} rail ${does ? "can pass that on" : "cannot"}`,
  );
  return folded(
    "The brake it wants",
    `To stop within ${eyes.length(sight_m)} from the worst place it wants ${eyes.of(wanted.rail_force_N, "force")} at the rail: ${eyes.of(wanted.hand_force_N, "force")} on a lever with a ratio of ${round(wanted.linkage_ratio)}, ${formatPercent(wanted.linkage_efficiency)} of it coming through, blocks with a friction of ${round(wanted.block_friction)} (common practice, no source). On the rail: ${enough.join("; ")}.`,
  );
}

function parking(told: Shown): string {
  const { brakes } = told;
  const rows = brakes.parking.map(({ brakes: set, holding_gradient_percent, places_it_will_not_hold: places }) => [
    SET_NAMES[set],
    holding_gradient_percent > 0 ? formatGradient(holding_gradient_percent / 100) : "nothing",
    staysAt(
      places.map(({ chainage_m }) => chainage_m),
      told,
    ),
  ]);
  return figures(
    "Left standing: what each set holds, with no credit for stiff bearings",
    ["Brakes on", "holds on", "stays"],
    rows,
  );
}

function staysAt(not_m: readonly number[], { eyes, plan }: Shown): string {
  if (not_m.length === 0) return "everywhere here";
  const names = new Set(not_m.map((at_m) => placeBefore(plan.track, at_m).replace(/^past /, "") || eyes.place(at_m)));
  return `not near ${[...names].join(", ")}`;
}

function byPlace(told: Shown, rows: readonly BrakesRow[]): string {
  const sets = [...new Set(rows.map(({ brakes }) => brakes))];
  const places = placesNamed(told.plan.track).map(({ chainage_m, name }) => [
    name,
    ...sets.map((set) =>
      metres(
        nearestRow(
          rows.filter(({ brakes }) => brakes === set),
          chainage_m,
        )?.distance_m ?? null,
      ),
    ),
  ]);
  return figures("Stopping distances by place", ["From", ...sets.map((set) => SET_NAMES[set])], places);
}
