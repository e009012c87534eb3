import type { Problem } from "../errors.js";
import { shown } from "../errors.js";
import type { CoastRow } from "./coast.run.js";

/** Fewer readings are no run. */
const LEAST_ROWS = 3;

/** The row with which each run begins. */
function beginnings(rows: readonly CoastRow[]): number[] {
  const begun = new Set<string>();
  return rows.flatMap(({ run }, i) => {
    if (begun.has(run)) return [];
    begun.add(run);
    return [i];
  });
}

/** With a profile every run must tell where on the line it began. */
export const placeless = (rows: readonly CoastRow[], length_m: number): Problem[] =>
  beginnings(rows).flatMap((i) => {
    const { run, from_m } = rows[i];
    const wrong =
      from_m === null || from_m === undefined
        ? "with a plan's line its first reading tells where it began, in a column from_m: the chainage of the head"
        : from_m < 0 || from_m > length_m
          ? `from_m of ${shown(from_m, "m")} is not on the plan's line, which is ${shown(length_m, "m")} long; it is the chainage of the head where the clock was started`
          : undefined;
    return wrong === undefined ? [] : [{ path: `coastdown.${i + 1}`, message: `run ${run}: ${wrong}` }];
  });

export function wrongIn(rows: readonly CoastRow[], rotating: number): Problem[] {
  const problems: Problem[] = [];
  const say = (i: number, message: string) => problems.push({ path: `coastdown.${i + 1}`, message });
  if (!(rotating >= 1 && rotating < 3))
    problems.push({ path: "options.rotating", message: `${rotating} is not from 1 to 3` });
  if (rows.length === 0) problems.push({ path: "coastdown.1", message: "there is no reading" });
  const directions = [...new Set(rows.map(({ direction }) => direction))];
  const last = new Map<string, CoastRow>();
  const counts = new Map<string, number>();
  for (const [i, row] of rows.entries()) {
    const before = last.get(row.run);
    counts.set(row.run, (counts.get(row.run) ?? 0) + 1);
    if (!directions.slice(0, 2).includes(row.direction))
      say(i, `${row.direction} is a third direction; there are two, such as out and back`);
    if (before && before.direction !== row.direction) say(i, `run ${row.run} changes its direction on the way`);
    if (before && row.time_s <= before.time_s) say(i, `run ${row.run}: the time is no later than the one before`);
    if (before && row.distance_m !== null && before.distance_m !== null && row.distance_m <= before.distance_m)
      say(i, `run ${row.run}: the distance is no further than the one before; it is told from where the clock started`);
    if (row.speed_mps !== null && (row.speed_mps < 0 || row.speed_mps > FASTEST_mps))
      say(
        i,
        `a speed of ${row.speed_mps} m/s is none that a train on such a line coasts at; are the units those of the heading?`,
      );
    if (before && before.speed_mps !== null && row.speed_mps !== null && row.speed_mps > before.speed_mps + GAINS_mps)
      say(i, `run ${row.run} gets faster: it is driven, or the line falls too steeply to coast on`);
    last.set(row.run, row);
  }
  for (const [run, count] of counts)
    if (count < LEAST_ROWS)
      say(
        rows.findLastIndex((row) => row.run === run),
        `run ${run} has ${count} readings; three or more are wanted`,
      );
  return problems;
}

const FASTEST_mps = 15;
/** A reading may be off by so much. */
const GAINS_mps = 0.3;
