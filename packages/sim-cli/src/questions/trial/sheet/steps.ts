import type { StepName } from "@rideon/sim-core";
import { hasBrake, isSeries, type TrialTold } from "../told.js";

/** What each step is called. */
export const TITLE: Readonly<Record<StepName, string>> = {
  looks: "Look first, before any number",
  before_power: "Before any power",
  battery_at_rest: "The battery at rest",
  on_stands: "On stands, wheels in the air",
  held: "Held back by a spring balance",
  rolling: "Rolled by hand",
  first_run: "The first run, on the level",
  restart: "Starting again on the steepest place",
  stops: "Stopping",
  parked: "Parked",
  after_laps: "After ten laps",
};

/** What to beware of in each step. */
export function cautionOf({ plan: { train } }: Pick<TrialTold, "plan">, step: StepName): string {
  switch (step) {
    case "looks":
      return "Lever shut and isolator open before anybody reaches under it or into it.";
    case "before_power":
      return "Isolator open, wheels chocked, and the last link of the battery out until its line below.";
    case "battery_at_rest":
      return "Probes on the posts and nothing else near them: rings and watches off, no tool laid on a battery.";
    case "on_stands":
      return isSeries(train)
        ? "A series motor with nothing to pull races until it bursts: a touch of the lever, one second, no more."
        : "Stands that cannot tip, the other wheels chocked, guards on, fingers and clothes away from wheels and chains.";
    case "held":
      return "A motor that stands under current heats fast and burns its commutator: read, let go, wait a minute. Nobody in line with the rope or in front; chocks a hand's breadth ahead in case it parts.";
    case "rolling":
      return "Chocks out only now. On a slope it rolls away by itself: a chock held below it, nobody standing below it.";
    case "first_run":
      return hasBrake(train)
        ? "Chocks out. Nobody aboard the first time; then the driver alone, at a walk, a person with the isolator beside, the line clear ahead and nobody in front."
        : "Chocks out, one in a hand. It has no brake: level rail with far more clear line ahead than it needs to run out, a person beside with that chock, nobody in front, never near a slope.";
    case "restart":
      return hasBrake(train)
        ? "Brake on until it pulls; a chock behind a wheel, nobody below it. Let go of the lever if it does not move: a motor that stands under current cooks."
        : "LEAVE THIS OUT: without a brake it runs back down. Come back when it has one.";
    case "stops":
      return "A clear line of three times the distance below, nobody ahead, first from a walk and only then from line speed; nobody but the driver aboard.";
    case "parked":
      return "Chocks in hand on the lower side before the brake is let hold; nobody below it; nobody leaves it.";
    case "after_laps":
      if (!hasBrake(train)) return "LEAVE THIS OUT: no laps over slopes without a brake. Come back when it has one.";
      return "The driver alone still. Motor, cables and joints may be hot enough to burn: the back of the hand near them first. Isolator open before the thermometer goes in.";
  }
}
