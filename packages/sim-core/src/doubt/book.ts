/** How a figure is measured in the field. */
export type Measured =
  | "pull"
  | "brake_pull"
  | "discharge"
  | "axle_loads"
  | "no_load_amps"
  | "weigh"
  | "starting_pull"
  | "rested_volts"
  | "amps_and_volts"
  | "levels"
  | "stopwatch"
  | "turn_by_hand"
  | "slip_pull"
  | "motor_readings";

/**
 * How sure a figure is that the files give, by the kind of thing that it was read from. Widths are shares of the figure, or
 * amounts in its own unit, and nineteen in twenty true figures lie within: common practice, no source, but where one is told.
 */
export interface Kind {
  readonly share?: number;
  readonly amount?: number;
}

export const KINDS = {
  /** Counted, chosen, or meant: nothing to be off by. */
  exact: { share: 0 },
  /** A steelyard, a bathroom or a parcel scale, used with care. */
  scale: { share: 0.03 },
  /** A motor's plate: windings are made to some tenths of a share (IEC 60034-1 allows 10 % on speed regulation and more, from memory). */
  plate: { share: 0.05 },
  /** A label, of a battery that is new. */
  label: { share: 0.08 },
  tape: { share: 0.005 },
  /** A wheel's tread wears and is coned. */
  tread: { share: 0.01 },
  /** A meter of the sheds, on volts or amps. */
  meter: { share: 0.03 },
  /** Small resistances by volts and amps. */
  milliohms: { share: 0.1 },
  /** What a controller is set to, against what it does. */
  setting: { share: 0.05 },
  /** A spring balance drawn along a track, both ways. */
  balance: { share: 0.08 },
  /** A lever pulled by a hand, or a friction looked up. */
  hand: { share: 0.25 },
  /** Told by who knows the loco. */
  told: { share: 0.1 },
  roughly: { share: 0.25 },
  /** Of a share of charge read from rested volts. */
  charge: { amount: 0.05 },
  rested: { share: 0.004 },
  air: { amount: 2 },
  wind: { amount: 1 },
} as const satisfies Record<string, Kind>;

/** Figures of shafts, keys and bearings: nothing that a train does follows from them. */
export const movesNothing = (path: string): boolean => /\.(shaft|axle)\./.test(path);

/** Which kind a key's figure is, the first that fits; keys that fit none are exact: what is meant, counted or chosen. */
const BY_KEY: readonly (readonly [key: RegExp, kind: Kind])[] = [
  [/\.battery\.each\.mass$|^loco\.motor\.heat\.mass$/, KINDS.told],
  [/\.mass$|\.passenger_mass$/, KINDS.scale],
  [/\.driven_share$/, KINDS.scale],
  [/\.wheels\.diameter$|\.wheel_diameter$/, KINDS.tread],
  [/^loco\.gauge$/, KINDS.exact],
  [/_cable\.length$/, KINDS.told],
  [/\.(length|wheelbase|bogie_centres|coupling_height|gravity_height)$/, KINDS.tape],
  [/\.no_load_current$/, KINDS.told],
  [/^loco\.motor\.(nameplate|rated)\.(current|speed|power)$/, KINDS.plate],
  [/^loco\.motor\.(constants|bench)\..*resistance$/, KINDS.meter],
  [/^loco\.motor\.constants\.(drag|drag_per_speed)$/, KINDS.told],
  [/^loco\.motor\.(constants|bench)\./, KINDS.meter],
  [/^loco\.motor\.(brush_drop|inertia)$/, KINDS.roughly],
  [/^loco\.motor\.heat\.(?!insulation)/, KINDS.told],
  [/^loco\.battery\.each\.(kinetic\.)?capacity$/, KINDS.label],
  [/^loco\.battery\.each\.polarisation\./, KINDS.roughly],
  [/^loco\.battery\.each\.resistance$/, KINDS.milliohms],
  [/^loco\.battery\.each\.rested_voltage$/, KINDS.rested],
  [/^loco\.battery\.(each\.peukert|health)$/, KINDS.told],
  [/^loco\.controller\.(motor|battery|regen)_current_limit$/, KINDS.setting],
  [/^loco\.controller\.(on_resistance|standing_power|ramp|cutout_delay)$/, KINDS.roughly],
  [/^loco\.controller\.undervoltage_cutout$/, KINDS.meter],
  [/^loco\.gears\.\*\.efficiency$/, KINDS.meter],
  [/\.(driven_inertia|wheelset_inertia)$/, KINDS.roughly],
  [/^loco\.wiring\.accessories$/, KINDS.told],
  [/\.brakes\.\*\.(rail_force|force)$/, KINDS.told],
  [/\.brakes\.\*\.(hand_force|block_friction|delay|build_up)$/, KINDS.hand],
  [/\.brakes\.\*\.linkage_efficiency$/, KINDS.told],
  [/(\.resistance|\.cars\.\*)\.rolling$/, KINDS.balance],
  [/\.breakaway$/, KINDS.told],
  [/\.(rolling_per_speed|sliding_length|drag_area)$/, KINDS.roughly],
  [/^plan\.charge$/, KINDS.charge],
  [/^plan\.air_temperature$/, KINDS.air],
  [/^plan\.track\.wind$/, KINDS.wind],
  [/^plan\.track\.adhesion$/, KINDS.told],
  [/^plan\.(reaction_time|acceleration|service_braking)$/, KINDS.roughly],
];

/** @param group a key's path with `*` for every place in a list */
export const kindOfGiven = (group: string): Kind =>
  (movesNothing(group) ? undefined : BY_KEY.find(([key]) => key.test(group))?.[1]) ?? KINDS.exact;

/** A rail that is named grips by so much more or less: nine in ten, common practice, no source. */
export const GRIP = [0.8, 1.25] as const;
/** From one person to the next, kg: one standard deviation, common practice, no source. */
export const PERSON_sd_kg = 15;
/** A staff read to the nearest millimetre or two over a short sight: one standard deviation of a level, m. */
export const STAFF_sd_m = 0.001;
/** Of a gradient that was measured by itself: one standard deviation, as a share of one. */
export const GRADIENT_sd = 0.0005;

/** How a builder measures a figure, and how sure it is then: a share, nineteen in twenty. */
export interface Measuring {
  readonly how: Measured;
  readonly share: number;
}

const MEASURED: readonly (readonly [group: RegExp, measuring: Measuring])[] = [
  [/(\.resistance|\.cars\.\*)\.rolling$/, { how: "pull", share: KINDS.balance.share }],
  [/\.breakaway$/, { how: "starting_pull", share: 0.1 }],
  [/\.brakes\.\*\.(delay|build_up)$/, { how: "stopwatch", share: 0.15 }],
  [/\.brakes\./, { how: "brake_pull", share: 0.1 }],
  [/^loco\.battery\.(health|each\.capacity|each\.peukert)$/, { how: "discharge", share: 0.04 }],
  [/^loco\.wheels\.driven_share$/, { how: "axle_loads", share: KINDS.scale.share }],
  [/^loco\.motor\..*no_load_current$|^loco\.motor\.constants\.drag$/, { how: "no_load_amps", share: 0.05 }],
  [/^loco\.motor\.(nameplate|rated|constants|bench)\./, { how: "motor_readings", share: 0.03 }],
  [/\.mass$|\.passenger_mass$/, { how: "weigh", share: KINDS.scale.share }],
  [/^track\./, { how: "levels", share: 0.5 }],
  [/^loco\.battery\.each\.resistance$|_cable\./, { how: "amps_and_volts", share: KINDS.milliohms.share }],
  [/^plan\.charge$|^loco\.battery\.each\.rested_voltage$/, { how: "rested_volts", share: 0.03 }],
  [/^plan\.(reaction_time|acceleration|service_braking)$/, { how: "stopwatch", share: 0.1 }],
  [/^loco\.gears\.\*\.efficiency$/, { how: "turn_by_hand", share: 0.015 }],
  [/^plan\.track\.(rail|adhesion)$/, { how: "slip_pull", share: 0.08 }],
];

/** Absent where nobody measures it with what a shed has. */
export const measuringOf = (group: string): Measuring | undefined => MEASURED.find(([key]) => key.test(group))?.[1];

/**
 * Standard deviations of a sound machine's figures as a first outing reads them, as shares; the second of a pair is that of
 * a figure that the files leave out. All common practice, no source.
 */
export const OUTING_sd = {
  rolling: [0.12, 0.25],
  drag: [0.15, 0.25],
  winding: [0.04, 0.1],
  flux: [0.015, 0.03],
  battery: [0.2, 0.3],
  losses: [0.15, 0.25],
  starting: 0.15,
  cable: 0.3,
  mass: 0.02,
  grip: 0.1,
  brake: 0.12,
  turning: 0.15,
  air: 0.3,
  cooling: 0.2,
} as const;
