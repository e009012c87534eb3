import { type Notes, shown } from "../errors.js";
import { CHAINS } from "../parts/chain.data.js";
import { rootDiameter_m } from "../parts/chain.js";
import type { LocoDefinition } from "../parts/files.keys.js";
import type { Gears, Stage } from "../parts/gears.js";
import { createAxle, createShaft, type Shaft } from "../parts/shaft.js";
import { resistanceKeys } from "../parts/vehicle.keys.js";

/** The shafts of a drive as far as the loco file gives them. */
export interface Shafts {
  readonly gauge_m: number;
  readonly drivenAxles: number;
  /** Do the axles run in plain bearings? */
  readonly plain: boolean;
  /** Brakes that act on an axle's shaft, such as a disc, N m. */
  readonly axleBrake_Nm: number;
  /** From the motor to the axle, one more than there are stages; undefined where the file says nothing of one. */
  readonly given: readonly (Shaft | undefined)[];
}

/** Makes the shafts that are given, and looks at each beside its sprockets, its hub and the frame. */
export function createShafts(loco: LocoDefinition, gears: Gears, notes: Notes): Shafts {
  const { gauge_m, wheels } = loco;
  const stages = loco.gears.map(
    ({ shaft }, i) => shaft && createShaft(shaft, `loco.gears.${i + 1}.shaft`, gauge_m, i > 0, notes),
  );
  const axle = wheels.axle && createAxle(wheels.axle, "loco.wheels.axle", gauge_m, notes);
  const given = [...stages, axle];
  const own = [...loco.gears.map(({ shaft }) => shaft), wheels.axle];
  given.forEach((shaft, i) => {
    if (!shaft) return;
    refuseThick(shaft, sprocketsOn(gears.stages, i), notes);
    refuseLongKey(shaft, notes);
    refuseOutside(shaft, own[i]?.bearings?.spacing_m, loco.frame_width_m, notes);
  });
  const bearings = loco.resistance?.bearings ?? resistanceKeys.bearings.default.value;
  const discs = (loco.brakes ?? []).filter(({ on }) => on === "axle");
  return {
    gauge_m,
    drivenAxles: wheels.driven_axles,
    plain: bearings === "plain",
    axleBrake_Nm: discs.reduce((sum, { torque_Nm = 0 }) => sum + torque_Nm, 0),
    given,
  };
}

/** The shafts of a drive, each as given or, with all that is assumed of it listed, as usual. */
export const everyShaft = ({ gauge_m, given }: Shafts, notes: Notes): Shaft[] =>
  given.map((shaft, i) => {
    if (shaft) return shaft;
    if (i === given.length - 1) return createAxle({}, "loco.wheels.axle", gauge_m, notes);
    return createShaft({}, `loco.gears.${i + 1}.shaft`, gauge_m, i > 0, notes);
  });

/** Sprockets on a shaft whose chain the file names: the one it is driven by, and the one it drives with. */
function sprocketsOn(stages: readonly Stage[], i: number): { teeth: number; root_m: number; chain: string }[] {
  const on = (stage: Stage | undefined, which: 0 | 1) => {
    if (!stage?.teeth || !stage.chain) return [];
    const { pitch_m, roller_m } = CHAINS[stage.chain];
    const teeth = stage.teeth[which];
    return [{ teeth, root_m: rootDiameter_m(pitch_m, roller_m, teeth), chain: stage.chain }];
  };
  return [...on(stages[i - 1], 1), ...on(stages[i], 0)];
}

function refuseThick(shaft: Shaft, sprockets: ReturnType<typeof sprocketsOn>, notes: Notes): void {
  const { diameter_m, path } = shaft;
  if (diameter_m === null) return;
  for (const { teeth, root_m, chain } of sprockets) {
    if (diameter_m < root_m) continue;
    const message = `${mm(diameter_m)} is no less than the root circle of its sprocket of ${teeth} teeth for ${chain}, ${mm(root_m)}; it must go through the sprocket, with a hub round it`;
    notes.problems.push({ path: `${path}.diameter`, message });
  }
}

function refuseLongKey({ key, hub_m, diameter_m, path }: Shaft, notes: Notes): void {
  if (!key) return;
  const refuse = (name: string, message: string) => notes.problems.push({ path: `${path}.key.${name}`, message });
  if (hub_m !== null && key.length_m > hub_m)
    refuse("length", `${mm(key.length_m)} is longer than the hub, ${mm(hub_m)}; a key bears no further than its hub`);
  if (diameter_m !== null && key.width_m >= diameter_m)
    refuse("width", `${mm(key.width_m)} is no less than the shaft, ${mm(diameter_m)}; about a quarter of it is usual`);
  if (diameter_m !== null && key.height_m >= diameter_m)
    refuse("height", `${mm(key.height_m)} is no less than the shaft, ${mm(diameter_m)}; half of it is in the shaft`);
}

function refuseOutside(
  { bearings, driving, driven, path }: Shaft,
  spacing_m: number | undefined,
  frame_m: number | undefined,
  notes: Notes,
): void {
  const refuse = (name: string, message: string) => notes.problems.push({ path: `${path}.${name}`, message });
  if (spacing_m !== undefined && frame_m !== undefined && spacing_m > frame_m)
    refuse(
      "bearings.spacing",
      `bearings ${mm(spacing_m)} apart stand outside a frame ${mm(frame_m)} wide; at most loco.frame_width, which is measured over the plates that carry them`,
    );
  const places = driving === driven ? [driving] : [driving, driven];
  for (const place of places) {
    if (place.at !== "inboard" || place.distance_m <= bearings.spacing_m / 2 + NEARLY_m) continue;
    const message = `a sprocket ${mm(place.distance_m)} from the nearest of two bearings ${mm(bearings.spacing_m)} apart is nearer to the other; at most half of that`;
    refuse(place === driving ? "inboard" : "driven_inboard", message);
  }
}

/** Rounding of halves, m. */
const NEARLY_m = 1e-9;

const mm = (length_m: number): string => shown(1000 * length_m, "mm");
