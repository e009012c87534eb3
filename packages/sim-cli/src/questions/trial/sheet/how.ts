import { leverShown, type SheetStep, type StepName, type Train } from "@rideon/sim-core";
import { hasBrake, isSeries, type TrialTold } from "../told.js";
import { KILOGRAM_N, readingValue } from "../units.js";

/** What to do in each step, in order, for someone who has a meter and no theory. */
export const howOf = (told: TrialTold, step: SheetStep): string => HOW[step.step](told, step);

const HOW: Readonly<Record<StepName, (told: TrialTold, step: SheetStep) => string>> = {
  looks: () =>
    "In the order in which power flows. These cost nothing and find what stops most locos on their first day; a no is mended before anything is read.",

  before_power: ({ plan }) =>
    `Tick these off together, one reading aloud and one touching. Then turn the driven wheels by hand, with the drive engaged: they turn evenly, without a hard place.${teethWords(plan.train)} Mark the lever's way in tenths on a strip of tape, if it has no marks. Chalk one driven wheel and one shaft of the motor${plan.train.motor.kind === "series" ? " (or its coupling)" : ""} to count turns.`,

  battery_at_rest: ({ reading: { loco } }) =>
    `Everything off for an hour, isolator open. Meter to DC volts. Red probe on the battery's + post, black on its - post: on the lead of the posts, not on the clamps.${(loco.battery.in_series ?? 1) > 1 ? " First over the whole string, then each battery by itself: they should be alike." : ""} If it reads low, charge it, let it rest, and read again before going on: every figure below is for a battery that reads right here.`,

  on_stands: ({ plan: { train } }) =>
    isSeries(train)
      ? "Frame on stands so that the driven wheels are clear of the rail. Last link in, isolator closed, lever shut: nothing may move. Then open the lever only until the wheels stir, see which way they go, and shut it at once. Again, and this time let go of the dead-man's switch. Where they go the wrong way: isolator open, swap the two leads of the field alone."
      : "Frame on stands so that the driven wheels are clear of the rail. Last link in, isolator closed, lever shut: nothing may move. Open the lever a little: see which way the wheels go (the wrong way: isolator open, swap the two leads at the motor), and let go of the dead-man's switch. Then set the lever at each place below, wait until it runs evenly, and count turns of the chalk mark over half a minute, twice that is turns a minute. The clamp goes round one lead alone, set to DC amps and to zero first. Last, from full lever, shut it and time the wheels until they stand.",

  held: ({ answer, eyes }, { readings }) =>
    `On level rail, rope from the coupling through the spring balance to a post behind it, slack taken up; the balance must go to ${most(readings, eyes)}.${eyes.chainageUnit === "m" ? " What a balance marked in kg shows stands in brackets." : ""} Clamp round one lead of the motor's cable. Lever to ${leverShown(answer.lever_held)} and no further: read, shut, wait a minute, and move the clamp or the probes to the next place; ten seconds at a time is plenty. Volts between two points are read with a probe on each. Then once more, opening slowly until the lever is full or the wheels are about to slip: one person holds the lever for a second or two, one reads. Shut at once if the wheels slip.`,

  rolling: ({ plan: { train } }, { readings }) =>
    `Isolator open, chocks out, brakes off, drive in gear. Straight edge of a metre or two along the rail with a level on it: pack it level with a rule, and add the gaps up over ten metres. Then hook the balance to the coupling and pull along the rail, slowly and evenly; once each way, and take the mean. ${train.vehicles.length > 1 ? "Do the same with the whole train, the driver aboard." : "Do the same with the driver aboard."}${has(readings, "roll_loco_steep") ? " At the steepest place pull the loco alone, uphill only." : ""}`,

  first_run: ({ answer, plan: { train } }) =>
    `Chocks out from under every wheel. Loco by itself, nobody aboard, someone walking beside with a hand on the dead-man's switch: ten metres at the least lever that moves it, let go, see it stop${hasBrake(train) ? "; then the same again with every brake, one at a time, before anybody rides" : ""}. Then ${train.vehicles.length > 1 ? "the whole train with the driver alone" : "with the driver aboard"}. Open the lever slowly, reading the amps as it just moves. Lever to ${leverShown(answer.lever_walk)}, let it settle, and time it over a taped length. Then ${leverShown(answer.lever_run)} in the same place; one drives, one reads the meters, one times. If it stands, read the amps quickly and shut the lever. Last, shut it at walking pace beside a mark and let it run out.`,

  restart: ({ plan: { train }, answer }) =>
    hasBrake(train)
      ? `Only once its brake has stopped it at a walk on the level. Stop the train ${steepest(answer)}, brake on, chock behind a wheel. Clamp on the motor's cable. Open the lever slowly, brake off as it begins to pull, and read the amps as it just moves. Once more, and open further until the lever is full or the wheels are about to spin: read amps, then volts at both places, a second or two for each. Shut the lever if it does not move.`
      : "Not to be done before a brake is fitted and proved: the readings stand here for that day.",

  stops: ({ answer, eyes }, { readings }) =>
    `A mark beside level rail, a clear line beyond. Come to it at ${readingValue(answer.line_speed_mps, "m/s", eyes)}, steady; as the leading end passes the mark, shut the lever${has(readings, "stop_loco") || has(readings, "stop_all") ? " and put on what the line says" : ""}, and tape from the mark to where the leading end stands. Three times each; the longest counts.`,

  parked: () =>
    "Stop on the steepest place, parking brake on, lever shut, isolator open. Take the chocks a hand's breadth away from the wheels, not off the rail, and watch for five minutes. Then once more in the wet.",

  after_laps: ({ plan: { train } }) =>
    `${hasBrake(train) ? "T" : "Once it has a brake: t"}en laps at the plan's speed with the driver alone. Come in, isolator open; thermometer on the motor's case at once, and to the winding through the brush holes if its maker's cover allows it, else leave that blank. A quarter of an hour later the battery's volts at its posts. Then once along the level for the amps.`,
};

/** On a line without slopes any place is the steepest. */
const steepest = ({ steepest_percent }: TrialTold["answer"]): string =>
  Math.abs(steepest_percent) < 0.01
    ? "anywhere, for the line is level all round"
    : "on the steepest place, head uphill";

/** What the sprockets should have, from the motor to the wheels. */
function teethWords({ gears: { stages } }: Train): string {
  const pairs = stages.flatMap(({ teeth }) => (teeth ? [`${teeth[0]} and ${teeth[1]}`] : []));
  return pairs.length === 0 ? "" : ` Teeth by the files, from the motor on: ${pairs.join(", then ")}.`;
}

const has = (readings: SheetStep["readings"], name: string): boolean =>
  readings.some(({ reading }) => reading === name);

/** What the balance must reach: the hardest pull that a sound loco may show. */
function most(readings: SheetStep["readings"], eyes: TrialTold["eyes"]): string {
  const most_N = Math.max(0, ...readings.map(({ unit, high }) => (unit === "N" ? (high ?? 0) : 0)));
  const kilograms = Math.ceil(most_N / KILOGRAM_N);
  return `${readingValue(most_N, "N", eyes)}${eyes.chainageUnit === "m" ? `, or ${kilograms} kg` : ""}`;
}
