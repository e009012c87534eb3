import type { Shaft } from "../../parts/shaft.js";
import { keyHolds, keyLength_m, keySection, keyStresses } from "../../strength/key.js";
import { screwHolds_Nm } from "../../strength/set-screw.js";
import { STRENGTHS, strengthAt } from "../../strength/steel.js";
import type { Fixing, KeyWanted } from "./answer.js";

/** Bright key steel, EN 10277. */
const KEY_STEEL = STRENGTHS["C45+C"];
/** A set screw's table is of what it slips at, steadily; loads that come and go want more in hand (common practice, no source). */
export const SCREW_MARGIN = 2;

/** Key, shaft or hub, whichever yields first; the hub is taken to be no weaker than the shaft. */
const yieldOf_Pa = (height_m: number, shaft_Pa: number): number =>
  Math.min(strengthAt(KEY_STEEL, height_m).yield_Pa, shaft_Pa);

/** All that fixes the sprocket, each by itself: they do not add up. @param diameter_m as given, or the least */
export function fixingsOf(shaft: Shaft, diameter_m: number, shaft_Pa: number, worst_Nm: number): Fixing[] {
  const row = (
    by: Fixing["by"],
    holds_Nm: number,
    least_margin: number,
    gives_by: Fixing["gives_by"] = null,
  ): Fixing => ({
    by,
    holds_Nm,
    gives_by,
    margin: worst_Nm > 0 ? holds_Nm / worst_Nm : null,
    least_margin,
    enough: holds_Nm >= least_margin * worst_Nm,
  });
  const rows: Fixing[] = [];
  if (shaft.key) {
    const held = keyHolds(shaft.key, diameter_m, keyStresses(yieldOf_Pa(shaft.key.height_m, shaft_Pa)));
    rows.push(row("key", held.torque_Nm, 1, held.by));
  }
  const screw_Nm = shaft.setScrew_m === null ? null : screwHolds_Nm(shaft.setScrew_m, diameter_m);
  if (screw_Nm !== null) rows.push(row("set_screw", screw_Nm, SCREW_MARGIN));
  if (shaft.bush_Nm !== null) rows.push(row("taper_bush", shaft.bush_Nm, 1));
  return rows;
}

/** The key of the standard for this shaft, as long as the torque wants; null where no standard key goes with it. */
export function keyWanted(diameter_m: number, shaft_Pa: number, worst_Nm: number): KeyWanted | null {
  const section = keySection(diameter_m);
  if (!section) return null;
  const stresses = keyStresses(yieldOf_Pa(section.height_m, shaft_Pa));
  return { ...section, length_m: keyLength_m(worst_Nm, section, diameter_m, stresses).length_m };
}
