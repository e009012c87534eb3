import { figures, formatPercent, type UnitStyle } from "@rideon/sim-core";
import type { Seen } from "../../svg/parts.js";
import { unitsFor } from "../../svg/units.js";
import { eyesFor } from "../../words/eyes.js";
import { several } from "../../words/setting.js";
import type { Facts, Lap } from "./facts.js";

/** The units the files were typed in, and those asked for. */
export interface Style {
  typed: UnitStyle;
  asked?: UnitStyle | undefined;
}

/** Facts with words for their figures. */
export interface Told extends Facts, Seen {}

/** What follows while the reader's hand is on a control. */
export type QuicklyTold = Seen & Lap & Pick<Facts, "files">;

export function toldOf<F extends Pick<Facts, "plan">>(facts: F, { typed, asked }: Style): F & Seen {
  const eyes = eyesFor(typed, asked, facts.plan.track);
  return { ...facts, eyes, units: unitsFor(eyes) };
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
