import type { Swept } from "@rideon/sim-core";
import type { ShortSet } from "../../read/index.js";
import { type Axis, keyOf } from "./axes.js";

/** All that the cases of a sweep are made of: plain data, for threads. */
export interface Sweep {
  /** The plan's file. */
  readonly plan: string;
  /** What is set in every case. */
  readonly sets: readonly (string | ShortSet)[];
  readonly axes: readonly Axis[];
  readonly asked: readonly Swept[];
  /** Teeth of the sprockets to hand, for `gears`; those that shops keep where null. */
  readonly teeth: readonly number[] | null;
  /** Bands of the figures that have one, by so many draws; null without. */
  readonly bands: { readonly draws: number | null; readonly seed: number } | null;
}

/** The grid of all axes. */
export const countOf = ({ axes }: Pick<Sweep, "axes">): number =>
  axes.reduce((count, { rows }) => count * rows.length, 1);

export const columnsOf = ({ axes }: Pick<Sweep, "axes">): string[] => axes.flatMap(({ columns }) => columns);

/** The cells of a case, from 0, in the order of the columns: the last axis goes through its values first. */
export function cellsOf({ axes }: Pick<Sweep, "axes">, index: number): string[] {
  const cells: (readonly string[])[] = [];
  let left = index;
  for (const { rows } of axes.toReversed()) {
    cells.unshift(rows[left % rows.length] ?? []);
    left = Math.floor(left / rows.length);
  }
  return cells.flat();
}

/** What a case sets, each as it is told in errors. */
export function setsOfCase(sweep: Sweep, index: number): (string | ShortSet)[] {
  const columns = columnsOf(sweep);
  const own = cellsOf(sweep, index).flatMap((cell, i): ShortSet[] => {
    const column = columns[i] ?? "";
    return cell === "" ? [] : [{ typed: `${column}=${cell}`, set: `${keyOf(column)}=${cell}` }];
  });
  return [...sweep.sets, ...own];
}
