import type { SheetStep } from "@rideon/sim-core";
import { guardWords, hasBrake, hasChains, isSeries, type TrialTold } from "../told.js";

/** What can hurt people, the first thing first. */
export function safetyWords(told: TrialTold): string[] {
  const { train } = told.plan;
  const hundreds_A = 100 * Math.round(told.short_A / 100);
  return [
    "Nobody aboard, wheels chocked, and a second person with a hand on the isolator, until the brakes are proved. Where a step has the driver aboard it is the driver alone, at a walk, with that person walking beside. No passengers at all on this outing.",
    `This battery gives ${hundreds_A >= 1000 ? `about ${hundreds_A} A` : "hundreds of amps"} into a short circuit: a spanner across its posts welds, sprays metal and can burst it. Rings, watches and bracelets off, insulated tools, eyes covered, no flame near it; one lead at a time.`,
    `${hasChains(train) ? "Chains and sprockets" : "Gears, shafts and wheels"} take fingers. Guards on before the isolator is closed; hands, sleeves, laces and hair away; isolator open and wheels still before anything is touched.`,
    "Never stand, kneel or reach in front of it, behind it or between vehicles while the isolator is closed.",
    "If it smells, smokes, sparks or does what it was not told to: let go, open the isolator, wait, and only then look.",
    ...(hasBrake(train)
      ? []
      : [
          "THIS TRAIN HAS NO BRAKE in its files: nothing holds it on a slope. Stay on the level, with the line clear beyond, and leave out the steepest place until it has a brake.",
        ]),
    ...(isSeries(train)
      ? [
          "ITS MOTOR IS SERIES WOUND: with nothing to pull it races until it bursts. Never more than a touch of the lever on stands.",
        ]
      : []),
  ];
}

/** The same in few words, for the short sheet on a terminal; paper has it at length. */
export function shortSafetyWords({ plan: { train }, short_A }: TrialTold): string[] {
  return [
    "Nobody aboard, wheels chocked, a second person with a hand on the isolator, until the brakes are proved; passengers not at all on this outing.",
    `${short_A >= 1000 ? `About ${100 * Math.round(short_A / 100)} A` : "Hundreds of amps"} into a short circuit: rings and watches off, insulated tools, eyes covered.`,
    `${hasChains(train) ? "Chains" : "Gears, shafts and wheels"} take fingers: guards on, isolator open before anything is touched.`,
    "Nobody in front, behind or between vehicles while the isolator is closed.",
    ...(train.breaker.kind === "none"
      ? ["The file has neither breaker nor fuse: fit one close to the battery before going on."]
      : []),
    ...(hasBrake(train)
      ? []
      : ["THIS TRAIN HAS NO BRAKE in its files: keep to level rail with a long clear line ahead."]),
    ...(isSeries(train) ? ["ITS MOTOR IS SERIES WOUND: on stands a touch of the lever, no more, or it bursts."] : []),
  ];
}

/** What is only ticked off before the first power: words, no numbers. */
export function checksOf(
  { plan, reading: { loco } }: TrialTold,
  { step, readings }: Pick<SheetStep, "step" | "readings">,
) {
  if (step !== "before_power") return [];
  const { train } = plan;
  const measured = readings.some(({ reading }) => reading.endsWith("_slack"));
  const guard =
    train.breaker.kind === "none"
      ? "The file has neither breaker nor fuse: fit one close to the battery before going on."
      : `A ${guardWords(train)} is in the battery's cable, as the file has it.`;
  return [
    "Wheels chocked; nobody in front of them.",
    "The isolator opens the whole circuit: open, the meter on ohms finds no way through it.",
    (loco.battery.in_series ?? 1) > 1
      ? "Before the last link between the batteries goes in: isolator open, meter across the gap that it will close. It reads nothing; volts there mean that the link would make a short circuit."
      : "Before the last lead goes on: isolator open, meter from the lead to its post. It reads nothing; volts there mean a short circuit, or an isolator that does not open.",
    "Then with it on, and the isolator still open: on the isolator's battery side the volts of the whole battery, + where the controller's papers want it.",
    guard,
    "Dead-man's switch proved with the meter before the motor is connected, isolator closed for it alone: let go, and there are no volts at the motor's leads, lever open or not.",
    "Axle boxes, motor, batteries, controller and couplings fast; no nut finger-tight.",
    ...(hasChains(train)
      ? [`Chains in line and guarded, ${measured ? "at the slack below" : "with a little slack"}.`]
      : []),
  ];
}
