import { leverShown } from "@rideon/sim-core";
import type { TrialTold } from "../told.js";

/** The way to go when it does not move at all. */
export interface StillWords {
  title: string;
  how: string;
  /** What is found at each place, and what it means. */
  finds: { found: string; means: string }[];
}

// From the battery on towards the motor, place after place: common practice in fault finding, no source.

/** The way to go when it does not move at all: a voltmeter, and at most five places. */
export function stillWords({ answer }: TrialTold): StillWords | undefined {
  if (!answer.tools.includes("voltmeter")) return undefined;
  return {
    title: "It does not move at all",
    how: `--saw "does not move" names the next thing to look at. After the looks, put the chocks back in and keep everybody clear: it may leap once the fault is found. Set the lever to ${leverShown(answer.lever_held)}, for ten seconds at a time, and move the voltmeter from place to place:`,
    finds: [
      { found: "no volts into the controller", means: "isolator, breaker, fuse, contactor, a lead" },
      { found: "volts in, none out", means: "dead-man's switch, reverser, lever, cut-out, controller" },
      { found: "volts out, none at the motor", means: "the leads between, a plug" },
      { found: "volts at the motor, none lost along its leads", means: "no current flows: look at the brushes" },
      { found: "few at the motor, some lost along its leads", means: "current flows: something holds it fast" },
    ],
  };
}
