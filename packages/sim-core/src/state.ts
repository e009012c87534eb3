/**
 * Places in the state vector. Motion first, then battery, heat and protection, then the books: every joule that leaves
 * the battery or the train's motion has a place, and every loss only grows.
 */

/** Chainage of the train's head, m; on a circuit it runs on from lap to lap. */
export const POSITION = 0;
/** Speed of the train, m/s. */
export const SPEED = 1;
/** Speed of the driven rims at the tread, m/s; the train's while they grip. */
export const RIM_SPEED = 2;
/** Charge in the available well, C. */
export const AVAILABLE = 3;
/** Charge in the bound well, C. */
export const BOUND = 4;
/** Current in the polarisation resistance, A. */
export const POLARISATION = 5;
/** Winding temperature, °C. */
export const WINDING = 6;
/** Case temperature, °C. */
export const CASE = 7;
/** Thermal image of breaker or fuse; it trips at 1. */
export const BREAKER = 8;

/** Distance run, either way, m. */
export const RUN = 9;
/** Charge drawn from the battery less charge returned, C. */
export const DRAWN_CHARGE = 10;
/** Energy drawn at the battery's terminals, J. */
export const DRAWN = 11;
/** Energy returned at the battery's terminals, J. */
export const RETURNED = 12;
/** Integral of the battery current squared, A²s: battery and cable heat, and the rms current. */
export const BATTERY_SQUARE = 13;
/** Integral of the motor current squared, A²s. */
export const MOTOR_SQUARE = 14;
/** Lost between the wells as the bound charge comes over, J. */
export const RECOVERY = 15;
/** Lost to the knee of a nearly empty lead-acid battery under load, J. */
export const KNEE = 16;
/** Lost in the polarisation resistance, J. */
export const POLARISATION_LOSS = 17;
/** Taken by accessories and the controller's standing load, J. */
export const STANDING = 18;
/** Lost in the motor's copper, J. */
export const COPPER = 19;
/** Lost in the brushes, J. */
export const BRUSHES = 20;
/** Lost to the motor's own drag, J. */
export const MOTOR_DRAG = 21;
/** Lost in chains and gears, J. */
export const GEARS = 22;
/** Lost between slipping wheel and rail, J. */
export const SLIP = 23;
/** Rolling resistance, J. */
export const ROLLING = 24;
/** Curve resistance, J. */
export const CURVES = 25;
/** Air resistance, J; the one line that a following wind can shrink. */
export const AIR = 26;
/** Turned to heat in the resistor of a rheostatic brake, J. */
export const BRAKE_RESISTOR = 27;

/** Turned to heat in the brakes, J. */
export const BRAKES = 28;

export const SIZE = 29;

/** What is fixed during a step. It changes only at an event, on which the step has landed. */
export interface Mode {
  /** The train on the line: 0 held, 1 running forward, -1 rolling back. */
  train: -1 | 0 | 1;
  /** Driven rims on the rail: 0 gripping, 1 spinning ahead of the train, -1 lagging behind it. */
  wheels: -1 | 0 | 1;
  /** Driven rims, chains and motor in the frame: 0 at rest, otherwise the way they turn. Follows `train` while gripping. */
  rim: -1 | 0 | 1;
  /** Braked axles that are not driven, by vehicle: 1 where they are locked and slide. */
  locked: Uint8Array;
  /** Is the motor circuit closed? Dead-man, breaker, cut-out or a shut lever open it. */
  powered: boolean;
  /** Is it closed to brake with the motor? */
  braking: boolean;
  /** Does a series motor that is turned backwards excite itself? */
  excited: boolean;
  /** Is the battery too full to take anything back? */
  full: boolean;
  /** Is the battery connected? A tripped breaker or its own protection disconnects it. */
  connected: boolean;
}

export const atRest = (vehicles: number): Mode => ({
  train: 0,
  wheels: 0,
  rim: 0,
  locked: new Uint8Array(vehicles),
  powered: false,
  braking: false,
  excited: false,
  full: false,
  connected: true,
});

/** What holds the motor current where it is. */
export const LIMITS = [
  "lever",
  "motor_current",
  "battery_current",
  "duty",
  "adhesion",
  "battery",
  "no_load_speed",
  "plugging",
] as const;
export type LimitedBy = (typeof LIMITS)[number];

/**
 * Everything worked out from a state at one instant: the derivative leaves its workings here, and margins, trace and
 * answers read them. Made once and written over, so that nothing is born inside a step: numbers, and by name what limits the drive.
 */
export interface Instant {
  /** Of the available well: rested, and under load with the polarisation taken off. */
  rested_V: number;
  emf_V: number;
  duty: number;
  limitedBy: LimitedBy;
  motor_A: number;
  motor_V: number;
  battery_A: number;
  /** At the battery's own terminals. */
  terminal_V: number;
  /** At the controller, after the cable. */
  supply_V: number;
  flux_NmpA: number;
  /** Torque of the current alone, before the motor's drag. */
  airGap_Nm: number;
  winding_ohm: number;
  brush_V: number;
  /** Volts until a series motor turned backwards begins to excite itself, or no longer does; Infinity otherwise. */
  excitation_V: number;
  /** Force at the motor's shaft, its drag taken off, as seen at the tread; and what of it comes out at the driven wheels. */
  shaft_N: number;
  rim_N: number;
  /** What the rail gives the driven rims. */
  contact_N: number;
  /** Brakes as the driven rims feel them at rest; of that, on the motor's shaft; and on other axles as far as these pass it on. */
  brakeRim_N: number;
  brakeShaft_N: number;
  brakeAxles_N: number;
  /** Of the latter, what locked axles give. */
  locked_N: number;
  gravity_N: number;
  curves_N: number;
  /** The loco's own part of both. */
  locoGravity_N: number;
  locoCurves_N: number;
  rolling_N: number;
  air_N: number;
  acceleration_mps2: number;
  rimAcceleration_mps2: number;
  /** What holds a standing train besides its driven wheels. */
  hold_N: number;
  /** Weight on the driven axles, before pulling moves any on to them or off. */
  onDrivers_N: number;
  staticGrip_N: number;
  slidingGrip_N: number;
}

export const newInstant = (): Instant => ({
  rested_V: Number.NaN,
  emf_V: Number.NaN,
  duty: Number.NaN,
  limitedBy: "lever",
  motor_A: Number.NaN,
  motor_V: Number.NaN,
  battery_A: Number.NaN,
  terminal_V: Number.NaN,
  supply_V: Number.NaN,
  flux_NmpA: Number.NaN,
  airGap_Nm: Number.NaN,
  winding_ohm: Number.NaN,
  brush_V: Number.NaN,
  excitation_V: Number.NaN,
  shaft_N: Number.NaN,
  rim_N: Number.NaN,
  contact_N: Number.NaN,
  brakeRim_N: Number.NaN,
  brakeShaft_N: Number.NaN,
  brakeAxles_N: Number.NaN,
  locked_N: Number.NaN,
  gravity_N: Number.NaN,
  curves_N: Number.NaN,
  locoGravity_N: Number.NaN,
  locoCurves_N: Number.NaN,
  rolling_N: Number.NaN,
  air_N: Number.NaN,
  acceleration_mps2: Number.NaN,
  rimAcceleration_mps2: Number.NaN,
  hold_N: Number.NaN,
  onDrivers_N: Number.NaN,
  staticGrip_N: Number.NaN,
  slidingGrip_N: Number.NaN,
});
