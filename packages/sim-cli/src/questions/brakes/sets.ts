import { BRAKE_SETS, type BrakeSet, type BrakesAnswer, type BrakesRow } from "@rideon/sim-core";
import type { Opened, Told } from "../../words/ready.js";

export type BrakesTold = Told<BrakesAnswer>;

/** Each set of brakes, as a table names it. */
export const SET: Record<BrakeSet, string> = {
  none: "no brake",
  drag: "motor's drag",
  electric: "electric brake",
  loco: "loco's brake",
  all: "every brake",
};

/** And as a sentence begins with it. */
export const WITH: Record<BrakeSet, string> = {
  none: "With no brake",
  drag: "With the motor's own drag alone",
  electric: "With the electric brake",
  loco: "With the loco's brake",
  all: "With every brake",
};

/** The sets worth telling: where no car has a brake, every brake is the loco's. */
export function toldSets({ not_fitted }: BrakesAnswer, { plan: { train } }: Opened): BrakeSet[] {
  const onCars = train.brakes.some(({ service, vehicle }) => service && vehicle > 0);
  const known = onCars ? [] : train.brakes.some(({ service }) => service) ? ["all"] : [];
  return BRAKE_SETS.filter((set) => !not_fitted.includes(set) && !known.includes(set));
}

/** Stops that are judged: on a line, from where its end is out of sight. */
export const judged = ({ rows, sight_m }: BrakesAnswer, { plan: { track } }: Opened): BrakesRow[] =>
  rows.filter(({ chainage_m, direction }) => {
    const ahead_m = direction === "back" ? chainage_m : track.length_m - chainage_m;
    return track.kind === "circuit" || ahead_m >= sight_m;
  });

/** What is told of a set on one rail, or on both where they are alike. */
export interface OnRails<T> {
  set: BrakeSet;
  rail: string;
  of: T;
}

/** Rows of the sets, in their order; a set's rails are put together where nothing tells them apart. */
export function bySet<T extends { brakes: BrakeSet; rail: string }>(
  sets: readonly BrakeSet[],
  all: readonly T[],
  alike: (one: T, other: T) => boolean,
): OnRails<T>[] {
  return sets.flatMap((set) => {
    const own = all.filter(({ brakes }) => brakes === set);
    const [one, other] = own;
    if (one && other && alike(one, other)) return [{ set, rail: "both", of: other }];
    return own.map((each) => ({ set, rail: each.rail, of: each }));
  });
}

/** Within a hundredth. */
export const near = (a: number | null, b: number | null): boolean =>
  a === null || b === null ? a === b : Math.abs(a - b) <= 0.01 * Math.max(Math.abs(a), Math.abs(b));
