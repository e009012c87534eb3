import type { BrakesRow } from "@rideon/sim-core";

/** Stopping distances are known to a tenth of a metre and not better. */
export const metres = (value_m: number | null): string => (value_m === null ? "never" : `${value_m.toFixed(1)} m`);

export const nearestRow = <T extends { chainage_m: number }>(rows: readonly T[], at_m: number): T | undefined =>
  rows.reduce<T | undefined>(
    (a, b) => (!a || Math.abs(b.chainage_m - at_m) < Math.abs(a.chainage_m - at_m) ? b : a),
    undefined,
  );

/** Rows that are the same on every rail, to a tenth of a metre, told once. */
export function acrossRails(rows: readonly BrakesRow[]): (BrakesRow & { rails: string })[] {
  const alike = (a: BrakesRow, b: BrakesRow) =>
    a.brakes === b.brakes &&
    a.direction === b.direction &&
    metres(a.distance_m) === metres(b.distance_m) &&
    a.stops === b.stops;
  return rows.flatMap((row, i) => {
    if (rows.slice(0, i).some((before) => alike(before, row))) return [];
    const rails = rows.filter((each) => alike(each, row)).map(({ rail }) => rail);
    return [{ ...row, rails: [...new Set(rails)].join(" or ") }];
  });
}
