import { type BrakesAnswer, type BrakesRow, formatPercent, figures as round, type Sureness } from "@rideon/sim-core";
import type { Picture } from "../../charts/picture.js";
import { figures, folded, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { placesOnPage } from "../../words/places.js";
import { metres, nearestRow } from "./rows.js";
import { type FiledStops, SET_NAMES, stoppingFigure } from "./stopping.svg.js";

/** Stops from everywhere, and the lap that they are drawn along. */
interface Shown extends Seen {
  brakes: BrakesAnswer;
  picture: Picture;
  /** As the files have them, once a control was moved. */
  filed?: readonly FiledStops[];
  sureness?: Sureness;
}

/** Stopping distances round the line on the worse rail, by which stops are judged: why brakes are needed. */
export function whyBrakesHtml(told: Shown): string {
  const { brakes, picture: lap } = told;
  const rows = onWorseRail(brakes);
  if (rows.length === 0) return paragraph("The train does not get under way, so there is nothing to stop.");
  return (
    picture((sheet) => stoppingFigure(told, lap, rows, brakes.sight_m, sheet, told.filed, told.sureness?.bands)) +
    paragraph(`Drawn for ${brakes.rails.at(-1)?.rail} rail, the worse that was looked at.`)
  );
}

export const onWorseRail = ({ rows, rails }: BrakesAnswer): BrakesRow[] =>
  rows.filter(({ rail }) => rail === rails.at(-1)?.rail);

/** The brake that it wants, and stopping distances by place: what `limits` leaves to `brakes`. */
export function stoppingHtml(told: Shown): string {
  const rows = onWorseRail(told.brakes);
  return rows.length === 0 ? "" : `${brakeWanted(told)}\n${byPlace(told, rows)}`;
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

function byPlace(told: Shown, rows: readonly BrakesRow[]): string {
  const sets = [...new Set(rows.map(({ brakes }) => brakes))];
  const { places, which } = placesOnPage(told.plan.track);
  const cells = places.map(({ chainage_m, name }) => [
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
  return figures(`Stopping distances by place${which}`, ["From", ...sets.map((set) => SET_NAMES[set])], cells);
}
