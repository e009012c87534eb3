import { leverShown, type SheetStep, type StepName } from "@rideon/sim-core";
import { hasBrake, isSeries, type TrialTold } from "../told.js";

/** What to do in each step of the short sheet, in a line or two; the long one has it at length. */
export const shortHowOf = (told: TrialTold, { step }: SheetStep): string => HOW[step](told);

const HOW: Readonly<Record<StepName, (told: TrialTold) => string>> = {
  looks: () => "In the order in which power flows: yes or no to each. Mend every no before going on.",
  before_power: () => "Tick these off together, one reading aloud and one touching.",
  battery_at_rest: () => "Off for an hour. If it reads low, charge it first.",
  on_stands: ({ plan: { train } }) =>
    isSeries(train)
      ? "Driven wheels clear of the rail. A touch of the lever, one second, no more: a series motor races."
      : "Stands that cannot tip, fingers away. Lever a little open.",
  held: ({ answer }) =>
    `Or chocked. Lever to ${leverShown(answer.lever_held)}, ten seconds, then wait a minute: a motor that stands heats fast.`,
  rolling: () => "Isolator open, chocks out, brakes off, on the level, slowly.",
  first_run: ({ answer, plan: { train } }) =>
    `Chocks out, nobody in front, ${hasBrake(train) ? "the driver alone" : "no brake: a long clear line"}. Lever to ${leverShown(answer.lever_run)}; if it stands, read and shut it.`,
  restart: () => "Brakes proved, chock behind a wheel, lever opened slowly.",
  stops: () => "A clear line of three times the distance.",
  parked: () => "Chocks a hand's breadth away.",
  after_laps: () => "Ten laps, the driver alone.",
};
