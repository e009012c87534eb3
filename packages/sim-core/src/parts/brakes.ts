import { assume, type Notes } from "../errors.js";
import type { Definition } from "../keys.js";
import { brakeKeys } from "./brakes.keys.js";

/** A brake as it acts at the rail, fully on. */
export interface Brake {
  /** Vehicle it is on, in the order of the train as it was made up: 0 is the loco. */
  readonly vehicle: number;
  /** Through the driven rims, N: the rail must pass it on beside the motor's own force. */
  readonly rim_N: number;
  /** Of that, what acts on the motor's shaft, as seen at the tread: the gears help it by their loss of what comes through. */
  readonly shaft_N: number;
  /** On other axles, N. */
  readonly axle_N: number;
  /** Weight on those other axles, N: what they can pass on before they lock. */
  readonly axleWeight_N: number;
  readonly delay_s: number;
  readonly buildUp_s: number;
  readonly service: boolean;
  readonly parking: boolean;
  readonly by: "driver" | "guard";
  readonly onDeadMan: boolean;
}

/** What a brake must know of the vehicle it is on; a car has no driven axles and no gears. */
export interface Braked {
  vehicle: number;
  path: string;
  weight_N: number;
  radius_m: number;
  /** Share of this vehicle's weight on driven axles: 0 for a car. */
  drivenShare: number;
  /** Turns of the motor for one of the axle, and the share that comes through the gears; NaN for a car. */
  motorToAxle: number;
  throughGears: number;
}

type BrakeDefinition = Definition<typeof brakeKeys>;

/** A brake takes at least this long from nothing to full, s: no force appears in no time. */
const QUICKEST_s = 0.01;

export function createBrakes(given: readonly BrakeDefinition[] | undefined, on: Braked, notes: Notes): Brake[] {
  return (given ?? []).map((brake, i) => createBrake(brake, { ...on, path: `${on.path}.${i + 1}` }, notes));
}

function createBrake(brake: BrakeDefinition, on: Braked, notes: Notes): Brake {
  const { path } = on;
  const share = assume(notes, `${path}.braked_share`, brake.braked_share, brakeKeys.braked_share.default);
  const full_N = forceAtRail_N(brake, on, notes);
  // Where only part of the weight is braked, the driven axles are braked first: that is where chains and discs are.
  // A torque on a shaft of the loco is on what the chains turn.
  const onShaft = brake.torque_Nm !== undefined && on.drivenShare > 0;
  const driven = onShaft ? on.drivenShare : Math.min(share, on.drivenShare);
  const whole = onShaft ? driven : share;
  const onDriven = on.drivenShare > 0 ? driven / whole : 0;
  const use = assume(notes, `${path}.use`, brake.use, brakeKeys.use.default);
  return {
    vehicle: on.vehicle,
    rim_N: full_N * onDriven,
    shaft_N: onShaft && brake.on === "motor" ? full_N * on.throughGears : 0,
    axle_N: full_N * (1 - onDriven),
    axleWeight_N: on.weight_N * Math.max(0, whole - (onDriven > 0 ? driven : 0)),
    delay_s: assume(notes, `${path}.delay`, brake.delay_s, brakeKeys.delay.default),
    buildUp_s: Math.max(QUICKEST_s, assume(notes, `${path}.build_up`, brake.build_up_s, brakeKeys.build_up.default)),
    service: use !== "parking",
    parking: use !== "service",
    by: assume(notes, `${path}.by`, brake.by, brakeKeys.by.default),
    onDeadMan: assume(notes, `${path}.on_dead_man`, brake.on_dead_man, brakeKeys.on_dead_man.default),
  };
}

/** By one of: the force at the rail; hand, linkage and blocks; or the torque on a shaft. */
function forceAtRail_N(brake: BrakeDefinition, on: Braked, notes: Notes): number {
  const { path } = on;
  const refuse = (key: string, message: string): number => {
    notes.problems.push({ path: key === "" ? path : `${path}.${key}`, message });
    return 0;
  };
  if (brake.rail_force_N !== undefined) return brake.rail_force_N;
  if (brake.torque_Nm !== undefined) {
    if (brake.on === undefined) return refuse("torque", "say which shaft: on: motor or on: axle");
    if (brake.on === "axle") return brake.torque_Nm / on.radius_m;
    if (Number.isNaN(on.motorToAxle)) return refuse("on", "a car has no motor; write on: axle");
    return (brake.torque_Nm * on.motorToAxle) / (on.radius_m * on.throughGears);
  }
  const { hand_force_N, linkage_ratio, linkage_efficiency, block_friction } = brake;
  const chain = { linkage_ratio, linkage_efficiency, block_friction };
  for (const [key, value] of Object.entries(chain)) {
    if (value === undefined) refuse("hand_force", `with hand_force goes ${key}`);
  }
  return (hand_force_N ?? 0) * (linkage_ratio ?? 0) * (linkage_efficiency ?? 0) * (block_friction ?? 0);
}
