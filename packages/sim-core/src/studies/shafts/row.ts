import { bendingMoment_Nm } from "../../strength/beam.js";
import {
  allowableOf,
  bending_Pa,
  equivalentBending_Nm,
  equivalentTorque_Nm,
  greatestNormal_Pa,
  greatestShear_Pa,
  KEYWAY_LEAVES,
  leastDiameter,
  type ShaftLoad,
  torsion_Pa,
} from "../../strength/shaft.js";
import { leastOf, STRENGTHS, type Strength, strengthAt } from "../../strength/steel.js";
import type { ShaftBearing, ShaftRow, ShaftTorque, SprocketPull } from "./answer.js";
import { fixingsOf, keyWanted } from "./fixing.js";
import type { LaidShaft } from "./layout.js";
import { governedBy, type Loads } from "./loads.js";
import type { Worked } from "./working.js";

/**
 * Torques of a shaft by each of the loads at the rims.
 * @param own which shaft it is, from the motor; @param disc_N at the rims, of brakes on the axle itself
 */
export function torqueOf(
  { ratio, efficiency }: LaidShaft,
  loads: Loads,
  own: number,
  worked: Worked,
  radius_m: number,
  disc_N = 0,
): ShaftTorque {
  const at_Nm = (rim_N: number) => (rim_N * radius_m) / (ratio * efficiency);
  const braking_N = disc_N > 0 ? Math.max(disc_N, loads.braking_N ?? 0) : loads.braking_N;
  const unslipped_Nm = at_Nm(Math.max(loads.current_limit_N, braking_N ?? 0));
  const spinning_Nm = loads.spinning_N === null ? 0 : (loads.spinning[own] * radius_m) / ratio;
  const slipping_Nm = Math.max(at_Nm(loads.grip_N), spinning_Nm);
  const worst_Nm = Math.min(unslipped_Nm, slipping_Nm);
  const current_limit_Nm = at_Nm(loads.current_limit_N);
  const braking_Nm = braking_N === null ? null : at_Nm(braking_N);
  return {
    working_Nm: worked.peak_Nm,
    working_at_m: worked.peak_at_m,
    working_at_s: worked.peak_at_s,
    current_limit_Nm,
    braking_Nm,
    slipping_Nm,
    worst_Nm: Math.max(worst_Nm, worked.peak_Nm),
    governed_by:
      worked.peak_Nm > worst_Nm ? "working" : governedBy(unslipped_Nm, braking_Nm, current_limit_Nm, slipping_Nm),
  };
}

/** What the wheels of an axle put on it: load and pull at the rail, each half on a wheel. */
export interface OnWheels {
  readonly weight_N: number;
  readonly rail_N: number;
}

export function shaftRow(
  laid: LaidShaft,
  given: boolean,
  torques: readonly ShaftTorque[],
  own: number,
  { weight_N, rail_N }: OnWheels,
  bearing: ShaftBearing,
): ShaftRow {
  const { shaft, sprockets } = laid;
  const torque = torques[own];
  const pulls = sprockets.map(({ which, teeth, chain, place, by, pull_NpNm }): SprocketPull => {
    const pull_N = pull_NpNm * torques[by].worst_Nm;
    const { at, distance_m } = place;
    return { sprocket: which, teeth, chain, pull_N, at, distance_m, bending_Nm: bendingMoment_Nm(pull_N, place) };
  });
  const wheels_bending_Nm = (shaft.wheelOffset_m * Math.hypot(weight_N, rail_N)) / 2;
  const bending_Nm = pulls.reduce((sum, pull) => sum + pull.bending_Nm, wheels_bending_Nm);
  const load: ShaftLoad = { torque_Nm: torque.worst_Nm, bending_Nm };
  // A set screw alone wants no keyway; whatever else holds a sprocket has one, or may.
  const keyway = shaft.key !== null || shaft.bush_Nm !== null || shaft.setScrew_m === null;
  const steel = STRENGTHS[shaft.steel];
  const least = (strength: Strength) => leastDiameter(load, allowableOf(strength, keyway), shaft.shock);
  const least_diameter_m = leastOf(steel, (strength) => least(strength).diameter_m);
  const diameter_m = shaft.diameter_m ?? least_diameter_m;
  const strength = strengthAt(steel, diameter_m);
  return {
    shaft: laid.kind,
    key: shaft.path,
    given,
    torque,
    pulls,
    weight_N,
    wheels_bending_Nm,
    bending_Nm,
    bending_shock: shaft.shock.bending,
    torsion_shock: shaft.shock.torsion,
    equivalent_torque_Nm: equivalentTorque_Nm(load, shaft.shock),
    equivalent_bending_Nm: equivalentBending_Nm(load, shaft.shock),
    material: shaft.steel,
    standard: steel.standard,
    material_source: steel.source,
    keyway,
    ...strengthOf(strength),
    allowable_shear_Pa: allowableOf(strength, keyway).shear_Pa,
    least_diameter_m,
    decided_by: least(strengthAt(steel, least_diameter_m)).by,
    diameter_m: shaft.diameter_m,
    ...judged(laid, load, strength, keyway),
    fixings: diameter_m > 0 ? fixingsOf(shaft, diameter_m, strength.yield_Pa, torque.worst_Nm) : [],
    key_wanted: keyWanted(diameter_m, strength.yield_Pa, torque.worst_Nm),
    bearing,
  };
}

const strengthOf = ({ yield_Pa, ultimate_Pa }: Strength) => ({ yield_Pa, ultimate_Pa });

/** A shaft of the given diameter under its load, shock factors counted in. */
function judged({ shaft }: LaidShaft, { torque_Nm, bending_Nm }: ShaftLoad, strength: Strength, keyway: boolean) {
  const { diameter_m, shock } = shaft;
  if (diameter_m === null) return { shear_Pa: null, safety_factor: null, margin: null, enough: null };
  const normal = bending_Pa(shock.bending * bending_Nm, diameter_m);
  const torsion = torsion_Pa(shock.torsion * torque_Nm, diameter_m);
  const shear_Pa = greatestShear_Pa(normal, torsion);
  if (shear_Pa === 0) return { shear_Pa, safety_factor: null, margin: null, enough: true };
  const may = allowableOf(strength, keyway);
  const margin = Math.min(may.shear_Pa / shear_Pa, may.normal_Pa / greatestNormal_Pa(normal, torsion));
  const yields_Pa = (strength.yield_Pa / 2) * (keyway ? KEYWAY_LEAVES : 1);
  return { shear_Pa, safety_factor: yields_Pa / shear_Pa, margin, enough: margin >= 1 };
}
