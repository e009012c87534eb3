import { type Notes, shown } from "../errors.js";
import { CHAINS, USUAL_CHAIN } from "../parts/chain.data.js";
import { chainDiameter_m } from "../parts/chain.js";
import type { LocoDefinition } from "../parts/files.keys.js";
import type { Stage } from "../parts/gears.js";
import type { TrackColumns } from "../parts/track.columns.js";
import type { Train } from "./train.js";

/**
 * A loco grows with the cube of its gauge: 2.5 t and a train of 6 t at 7 1/4 in are more than clubs run (common practice,
 * no source).
 */
const GAUGE_m = 0.184;
const HEAVY_kg = { loco: 2500, train: 6000 } as const;
/** What a battery of so many watt-hours weighs, kg/Wh: makers' data sheets of 12 V blocks, from memory. */
const BATTERY_kgpWh = { "lead-acid": 1 / 32, lifepo4: 1 / 100 } as const;
/** More of the loco than this is hardly battery. */
const BATTERY_SHARE = 0.7;
/** A curve tighter than so many gauges is none that a loco with flanges gets round (common practice, no source). */
const TIGHT_GAUGES = 15;

/** What can be read and worked out, but is hardly meant: a slip in a unit, or sprockets the wrong way round. */
export function lookForAbsurd(train: Train, track: TrackColumns, loco: LocoDefinition, notes: Notes): void {
  const warn = (code: string, path: string, message: string) => notes.warnings.push({ code, path, message });
  const { gears, battery } = train;
  const chained = gears.stages.filter(({ teeth }) => teeth);
  if (chained.length > 0 && chained.every(({ ratio }) => ratio < 1)) {
    const found = `geared up, ${shown(gears.ratio)} turns of the motor to one of the wheels`;
    warn("upside_down", "loco.gears", `${found}: upside down? The driving sprocket's teeth come first`);
  }
  gears.stages.forEach((stage, i) => {
    const across_m = i === gears.stages.length - 1 ? acrossAxle_m(stage) : 0;
    if (across_m < 2 * train.radius_m) return;
    const found = `the sprocket on the axle is ${shown(across_m * 1000, "mm")} across with its chain, in a ${shown(2000 * train.radius_m, "mm")} wheel`;
    warn("below_rail", `loco.gears.${i + 1}.teeth`, `${found}: it hangs below the rail`);
  });
  const gauge = (loco.gauge_m / GAUGE_m) ** 3;
  const heavy = (what: "loco" | "train", mass_kg: number) => {
    if (mass_kg <= HEAVY_kg[what] * gauge) return;
    const found = `${shown(mass_kg, "kg")} is heavy for a ${what} of a ${shown(1000 * loco.gauge_m, "mm")} gauge`;
    warn(
      "heavy_for_gauge",
      what === "loco" ? "loco.mass" : "plan.passengers",
      `${found}: look at the units of the masses`,
    );
  };
  heavy("loco", loco.mass_kg);
  if (loco.mass_kg <= HEAVY_kg.loco * gauge) heavy("train", train.mass_kg);
  const kgpWh = battery.chemistry === "other" ? 0 : BATTERY_kgpWh[battery.chemistry];
  const battery_kg = (kgpWh * battery.nominal_V * battery.label_C) / 3600;
  if (battery_kg > BATTERY_SHARE * loco.mass_kg) {
    const found = `a battery of ${shown(battery.nominal_V, "V")} and ${shown(battery.label_C / 3600, "Ah")} weighs about ${shown(battery_kg, "kg")}`;
    warn("battery_outweighs", "loco.battery", `${found}, and the loco's mass is ${shown(loco.mass_kg, "kg")} in all`);
  }
  lookAtCurves(track, loco.gauge_m, warn);
}

/** A sprocket on the axle with its chain, m across; 0 where a closed gearbox drives it. */
export const acrossAxle_m = ({ teeth, chain }: Pick<Stage, "teeth" | "chain">): number =>
  teeth ? chainDiameter_m(CHAINS[chain ?? USUAL_CHAIN].pitch_m, teeth[1]) : 0;

/** The first of the curves that are too tight. */
function lookAtCurves(
  { curvature_radpm = [] }: TrackColumns,
  gauge_m: number,
  warn: (code: string, path: string, message: string) => void,
): void {
  const i = curvature_radpm.findIndex((each) => Math.abs(each) * TIGHT_GAUGES * gauge_m > 1);
  if (i < 0) return;
  const radius_m = 1 / Math.abs(curvature_radpm[i]);
  const found = `a radius of ${shown(radius_m, "m")} is less than ${TIGHT_GAUGES} times the gauge`;
  warn("tight_curve", `track.${i + 1}.radius`, `${found}: check it, and its unit`);
}
