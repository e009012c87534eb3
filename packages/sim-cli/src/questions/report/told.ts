import { type BrakesRow, figures, formatPercent, type UnitStyle } from "@rideon/sim-core";
import type { Seen } from "../../svg/parts.js";
import { unitsFor } from "../../svg/units.js";
import { eyesFor } from "../../words/eyes.js";
import type { Facts } from "./facts.js";

/** The units the files were typed in, and those asked for. */
export interface Style {
  typed: UnitStyle;
  asked?: UnitStyle | undefined;
}

/** Facts with words for their figures. */
export interface Told extends Facts, Seen {}

export function toldOf(facts: Facts, { typed, asked }: Style): Told {
  const eyes = eyesFor(typed, asked, facts.plan.track);
  return { ...facts, eyes, units: unitsFor(eyes) };
}

export const several = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;

/** Stopping distances are known to a tenth of a metre and not better. */
export const metres = (value_m: number | null): string => (value_m === null ? "never" : `${value_m.toFixed(1)} m`);

export const nearestRow = <T extends { chainage_m: number }>(rows: readonly T[], at_m: number): T | undefined =>
  rows.reduce<T | undefined>(
    (a, b) => (!a || Math.abs(b.chainage_m - at_m) < Math.abs(a.chainage_m - at_m) ? b : a),
    undefined,
  );

/** Named places, each once. */
export function placesNamed({ plan: { track } }: Pick<Told, "plan">): { chainage_m: number; name: string }[] {
  const seen = new Set<string>();
  return Array.from(track.distance_m).flatMap((chainage_m, i) => {
    const name = track.place[i] ?? "";
    if (name === "" || seen.has(name) || (track.kind === "circuit" && i === track.distance_m.length - 1)) return [];
    seen.add(name);
    return [{ chainage_m, name }];
  });
}

/** `Teasel and 2 cars, 6 passengers, 825 kg in all; 4 mph (1.79 m/s) on dry rail`. */
export function settingInWords({ plan, eyes, files }: Pick<Told, "plan" | "eyes" | "files">): string {
  const { vehicles, mass_kg } = plan.train;
  const cars = vehicles.length > 1 ? ` and ${several(vehicles.length - 1, "car")}` : "";
  const aboard = plan.passengers === 0 ? "nobody but the driver" : several(plan.passengers, "passenger");
  const driven = Number.isNaN(plan.speed_mps) ? `the lever held at ${figures(plan.lever)}` : eyes.speed(plan.speed_mps);
  const charge = plan.charge === 1 ? "" : `, the battery at ${formatPercent(plan.charge)}`;
  return `${files.loco.name}${cars}, ${aboard}, ${eyes.of(mass_kg, "mass")} in all; ${driven} on ${plan.rail} rail${charge}`;
}

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
