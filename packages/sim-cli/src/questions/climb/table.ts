import { type ClimbRow, figures, formatGradient } from "@rideon/sim-core";
import { shortSpeed } from "../../words/eyes.js";
import { LIMITS } from "../../words/limits.js";
import type { Opened } from "../../words/ready.js";
import { table } from "../../words/table.js";
import type { ClimbTold } from "./work.js";

/** Longer tables are told by nobody, every fourth load, what it just restarts with, and the plan's own. */
const MOST_ROWS = 14;
const EVERY = 4;

/** Of the rows, those that are told. */
function toldOf({ rows, passengers_it_can_restart }: ClimbTold, { plan }: Opened): ClimbRow[] {
  if (rows.length <= MOST_ROWS) return rows;
  const limit = (passengers_it_can_restart ?? -1) + 0.5;
  return rows.filter(
    ({ passengers }) => passengers % EVERY === 0 || Math.abs(passengers - limit) < 1 || passengers === plan.passengers,
  );
}

/** `1 in 44.6`, and the same in percent. */
const slope = (percent: number): [oneIn: string, percent: string] =>
  percent < 0 ? ["down only", ""] : [formatGradient(percent / 100), `${figures(percent)} %`];

const yes = (does: boolean): string => (does ? "yes" : "no");

export function loadTable(answer: ClimbTold, opened: Opened, width: number): string[] {
  const { eyes, plan } = opened;
  // The crawling gradient in percent gives way to the one at the plan's speed, where there is one.
  const atSpeed = !Number.isNaN(plan.speed_mps);
  const head = ["aboard", "train", "restart", "", "crawling", atSpeed ? `at ${shortSpeed(plan.speed_mps, eyes)}` : ""];
  const rows = toldOf(answer, opened).map((row) => {
    const crawling = slope(row.running_gradient_percent);
    return [
      aboard(row, opened),
      eyes.of(row.train_mass_kg, "mass").replace(/ \(.*$/, ""),
      ...slope(row.restart_gradient_percent),
      ...(row.running_at_speed_gradient_percent === null
        ? crawling
        : [crawling[0], slope(row.running_at_speed_gradient_percent)[0]]),
      LIMITS[row.limited_by].short,
      yes(row.restarts_here),
    ];
  });
  return table(rows, { width, head: [...head, "limited by", "here"], right: [0, 1, 2, 3, 4, 5] });
}

const aboard = ({ passengers }: ClimbRow, { plan }: Opened): string =>
  passengers === plan.passengers ? `→ ${passengers}` : String(passengers);

/** As far as both are known. Hot columns stand only where heat changes the restart. */
export function besideTable(answer: ClimbTold, opened: Opened, width: number): string[] {
  const { rail, other_rail } = answer;
  const hot = [...answer.rows, ...other_rail.rows].some(
    (row) => Math.abs(row.restart_gradient_percent - row.restart_gradient_hot_percent) > SAME_percent,
  );
  const cells = (row: ClimbRow) => [
    slope(row.restart_gradient_percent)[0],
    ...(hot ? [slope(row.restart_gradient_hot_percent)[0]] : []),
  ];
  const columns = (on: string) => [on, ...(hot ? [`${on}, hot`] : [])];
  const rows = toldOf(answer, opened).flatMap((row) => {
    const other = other_rail.rows.find(({ passengers }) => passengers === row.passengers);
    if (!other) return [];
    return [
      [aboard(row, opened), ...cells(row), ...cells(other), LIMITS[other.limited_by].short, yes(other.restarts_here)],
    ];
  });
  const head = ["aboard", ...columns(rail), ...columns(other_rail.rail), "limited by", `here, ${other_rail.rail}`];
  return table(rows, { width, head, right: hot ? [0, 1, 2, 3, 4] : [0, 1, 2] });
}

const SAME_percent = 0.005;
