import { keyAt, type Measured, type Notes } from "@rideon/sim-core";

/** How a builder measures it. */
const HOW: Record<Measured, string> = {
  pull: "pull the train by spring balance, both ways past one place; rideon pull works it out",
  brake_pull: "put the brake on and pull the loco with a spring balance until it creeps",
  discharge: "count the ampere-hours that come out of the battery, full, until the cut-out acts",
  axle_loads: "put a scale under each axle, with the driver aboard",
  no_load_amps: "lift the driven wheels, open the lever, and read the ammeter",
  weigh: "put it on a scale; ask those who ride, or weigh them",
  levels: "level it once round and back on the first place; rideon levels works it out",
  amps_and_volts: "read volts at rest and at a steady load, with the amps",
  starting_pull: "pull the standing train by spring balance until it moves, both ways; rideon pull works it out",
  rested_volts: "read the volts of the battery after some hours at rest",
  stopwatch: "time it with a watch, some runs, unawares",
  turn_by_hand: "read the motor's amps with the chains on and off, the wheels lifted",
  motor_readings: "read the motor's volts, amps and turns at a steady load",
  slip_pull: "pull with the lever opened slowly against a spring balance until the wheels slip",
};

/** The same in a few words, where a line has room for no more. */
export const BRIEFLY: Record<Measured, string> = {
  pull: "spring balance, both ways: rideon pull",
  brake_pull: "spring balance against the brake",
  discharge: "count its ampere-hours to the cut-out",
  axle_loads: "a scale under each axle",
  no_load_amps: "ammeter, wheels lifted",
  weigh: "a scale, or ask",
  levels: "level and staff: rideon levels",
  amps_and_volts: "volts and amps at a load",
  starting_pull: "spring balance until it moves: rideon pull",
  rested_volts: "volts after hours at rest",
  stopwatch: "a watch",
  turn_by_hand: "amps with chains on and off",
  slip_pull: "spring balance until the wheels slip",
  motor_readings: "volts, amps and turns at a load",
};

/** What it is, by its key; of others, what the table of keys calls it. */
const WHAT: readonly (readonly [path: RegExp, what: string])[] = [
  [/(\.resistance|\.cars\.\*)\.rolling$/, "rolling resistance"],
  [/\.rolling_per_speed$/, "how rolling resistance grows with speed"],
  [/^plan\.track\.wind$/, "the wind against the train"],
  [/\.breakaway$/, "the pull to start"],
  [/\.brakes\.\*\.(delay|build_up)$/, "the time until the brake is full on"],
  [/\.brakes\./, "the brake's force"],
  [/^loco\.battery\.health$/, "the battery's health"],
  [/^loco\.battery\.each\.resistance$/, "the battery's resistance"],
  [/^loco\.battery\.each\.capacity$/, "the battery's capacity"],
  [/^loco\.battery\.each\.peukert$/, "the battery's Peukert exponent"],
  [/^loco\.wheels\.driven_share$/, "the load on the driven wheels"],
  [/no_load_current$/, "the motor's amps without load"],
  [/^loco\.motor\.(nameplate|rated|constants|bench)\./, "the motor's own figures"],
  [/^plan\.passengers$/, "who it is that rides"],
  [/^plan\.passenger_mass$/, "the mass of a passenger"],
  [/^plan\.driver\.mass$/, "the driver's mass"],
  [/^loco\.mass$/, "the loco's mass"],
  [/^plan\.cars\.\*\.mass$/, "the cars' mass"],
  [/^track\.|^misclosure$/, "the heights of the track"],
  [/^plan\.charge$/, "the charge at the start"],
  [/^plan\.reaction_time$/, "the driver's time to act"],
  [/^plan\.acceleration$/, "how gently the driver starts"],
  [/^plan\.service_braking$/, "how hard the driver brakes"],
  [/\.efficiency$/, "what the chains lose"],
  [/^plan\.track\.(rail|adhesion)$/, "the grip of the rail"],
];

/** What a figure is called. @param path its key, with `*` or a number for a place in a list */
export function figureCalled(path: string): string {
  const group = path.replaceAll(/\.\d+(?=\.|$)/g, ".*");
  return WHAT.find(([key]) => key.test(group))?.[1] ?? keyAt(path.replaceAll(".*", ".1"))?.meaning ?? path;
}

/** Rows of what, and how to measure it; what it is taken as, where it is assumed. */
export const measureRows = (
  first: readonly { path: string; how: Measured }[],
  { notes }: { notes: Notes },
): string[][] =>
  first.map(({ path, how }) => {
    const one = path.replaceAll(".*", ".1");
    const taken = notes.assumed.find(({ key }) => key === one)?.value;
    return [figureCalled(path), taken === undefined ? HOW[how] : `taken as ${taken}: ${HOW[how]}`];
  });
