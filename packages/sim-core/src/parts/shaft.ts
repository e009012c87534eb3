import { assume, type Notes } from "../errors.js";
import type { Definition } from "../keys.js";
import type { Place } from "../strength/beam.js";
import type { BearingType } from "../strength/bearing.js";
import type { Key } from "../strength/key.js";
import type { Shock } from "../strength/shaft.js";
import { axleKeys, type SteelName, shaftKeys } from "./shaft.keys.js";

/** A shaft as the loco file has it; what it leaves out as assumed. Null where nothing was said and nothing follows. */
export interface Shaft {
  /** Its key: `loco.gears.1.shaft`, `loco.wheels.axle`. */
  readonly path: string;
  readonly diameter_m: number | null;
  readonly steel: SteelName;
  readonly shock: Shock;
  readonly key: Key | null;
  readonly hub_m: number | null;
  readonly setScrew_m: number | null;
  readonly bush_Nm: number | null;
  /** Where the sprocket stands that it drives with, and the one that it is driven by. */
  readonly driving: Place;
  readonly driven: Place;
  readonly bearings: { readonly spacing_m: number; readonly type: BearingType; readonly rating_N: number | null };
  /** From the middle of a bearing to the middle of the tread beside it; 0 but for an axle. */
  readonly wheelOffset_m: number;
}

type ShaftDefinition = Definition<typeof shaftKeys>;
type AxleDefinition = Definition<typeof axleKeys>;

/** The motor's shaft or a layshaft. @param layshaft has it a sprocket that drives it? */
export function createShaft(
  given: ShaftDefinition,
  path: string,
  gauge_m: number,
  layshaft: boolean,
  notes: Notes,
): Shaft {
  const common = inCommon(given, path, gauge_m, notes);
  const { spacing_m } = common.bearings;
  const { overhang } = shaftKeys;
  const driving =
    inboard(given.inboard_m, spacing_m) ??
    overhung(assume(notes, `${path}.overhang`, given.overhang_m, overhang.default), spacing_m);
  const driven = () =>
    inboard(given.driven_inboard_m, spacing_m) ??
    (driving.at === "inboard" && given.driven_overhang_m === undefined
      ? driving
      : overhung(assume(notes, `${path}.driven_overhang`, given.driven_overhang_m, driving.distance_m), spacing_m));
  if (!layshaft && (given.driven_overhang_m ?? given.driven_inboard_m) !== undefined) {
    const name = given.driven_overhang_m === undefined ? "driven_inboard" : "driven_overhang";
    const message =
      "this is for layshafts and is not used: the first stage is driven by the motor's own shaft, which no sprocket drives";
    notes.warnings.push({ code: "not_a_layshaft", path: `${path}.${name}`, message });
  }
  return { ...common, driving, driven: layshaft ? driven() : driving, wheelOffset_m: 0 };
}

/** An axle with its wheels. */
export function createAxle(given: AxleDefinition, path: string, gauge_m: number, notes: Notes): Shaft {
  const common = inCommon(given, path, gauge_m, notes);
  const { spacing_m } = common.bearings;
  const usual_m = axleKeys.inboard.default.value * spacing_m;
  const driven =
    given.overhang_m === undefined
      ? place("inboard", assume(notes, `${path}.inboard`, given.inboard_m, usual_m), spacing_m)
      : overhung(given.overhang_m, spacing_m);
  const beside_m = Math.abs(gauge_m - spacing_m) / 2 + axleKeys.wheel_offset.default.value * gauge_m;
  const wheelOffset_m = assume(notes, `${path}.wheel_offset`, given.wheel_offset_m, beside_m);
  return { ...common, driving: driven, driven, wheelOffset_m };
}

function inCommon(given: ShaftDefinition | AxleDefinition, path: string, gauge_m: number, notes: Notes) {
  const { bending_shock, torsion_shock, material, bearings } = shaftKeys;
  const { spacing, type } = bearings.keys;
  const { key } = given;
  // Bearings that are not given stand far enough apart for a sprocket that is.
  const within_m = Math.max(given.inboard_m ?? 0, "driven_inboard_m" in given ? (given.driven_inboard_m ?? 0) : 0);
  const usual_m = Math.max(spacing.default.value * gauge_m, within_m / axleKeys.inboard.default.value);
  return {
    path,
    diameter_m: given.diameter_m ?? null,
    steel: assume<SteelName>(notes, `${path}.material`, given.material, material.default),
    shock: {
      bending: assume(notes, `${path}.bending_shock`, given.bending_shock, bending_shock.default),
      torsion: assume(notes, `${path}.torsion_shock`, given.torsion_shock, torsion_shock.default),
    },
    key: key ? { width_m: key.width_m, height_m: key.height_m, length_m: key.length_m } : null,
    hub_m: given.hub_m ?? null,
    setScrew_m: given.set_screw_m ?? null,
    bush_Nm: given.bush_torque_Nm ?? null,
    bearings: {
      spacing_m: assume(notes, `${path}.bearings.spacing`, given.bearings?.spacing_m, usual_m),
      type: assume<BearingType>(notes, `${path}.bearings.type`, given.bearings?.type, type.default),
      rating_N: given.bearings?.rating_N ?? null,
    },
  };
}

const place = (at: Place["at"], distance_m: number, spacing_m: number): Place => ({ at, distance_m, spacing_m });
const overhung = (distance_m: number, spacing_m: number) => place("overhung", distance_m, spacing_m);
const inboard = (distance_m: number | undefined, spacing_m: number) =>
  distance_m === undefined ? undefined : place("inboard", distance_m, spacing_m);
