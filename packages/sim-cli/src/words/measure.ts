import type { Measured, Notes, ToMeasure } from "@rideon/sim-core";

/** What it is, and how a builder measures it. */
const HOW: Record<Measured, readonly [what: string, how: string]> = {
  pull: ["rolling resistance", "pull the train along level track with a spring balance, both ways, and take the mean"],
  brake_pull: ["the brake's force", "put the brake on and pull the loco with a spring balance until it creeps"],
  discharge: ["the battery's health", "count the ampere-hours that come out of it, full, until the cut-out acts"],
  axle_loads: ["the load on the driven wheels", "put a scale under each axle, with the driver aboard"],
  no_load_amps: ["the motor's amps without load", "lift the driven wheels, open the lever, and read the ammeter"],
  weigh: ["the mass of a passenger", "ask those who ride, or weigh them"],
  levels: ["the heights of the track", "level it once round and see that the last height is the first"],
  amps_and_volts: ["the battery's resistance", "read volts at rest and at a steady load, with the amps"],
  starting_pull: ["the pull to start", "pull the standing train with a spring balance until it moves"],
  rested_volts: ["the charge at the start", "read the volts of the battery after some hours at rest"],
  stopwatch: ["the driver's time to act", "call to stop unawares, and time until the lever is shut"],
  turn_by_hand: ["what the chains lose", "read the motor's amps with the chains on and off, the wheels lifted"],
};

/** Rows of what, as what it is taken, and how to measure it. */
export const measureRows = (first: readonly ToMeasure[], { notes }: { notes: Notes }): string[][] =>
  first.map(({ path, how }) => {
    const [what, by] = HOW[how];
    const taken = notes.assumed.find(({ key }) => key === path)?.value ?? "";
    return [what, path === "misclosure" ? by : `taken as ${taken}: ${by}`];
  });
