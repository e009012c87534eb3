import { figures, type WiringAnswer } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { capital } from "../../words/lists.js";
import { inMain, stationOf } from "./told.js";

/** A resistor that lets the controller's capacitors fill through it, and stays cool enough to hold: V² over 5 W. */
const PRECHARGE_W = 5;

const OFF = { breaker: "breaker off", fuse: "fuse out", none: "breaker off or fuse out" } as const;
const ON = { breaker: "breaker on", fuse: "fuse in", none: "breaker on or fuse in" } as const;

/** The order of connecting, battery last, and what a meter shows at each joint. */
export function stepsOf(answer: WiringAnswer, eyes: Eyes): string[] {
  const volts = (value: number) => eyes.of(value, "voltage");
  const between = `${volts(answer.reserve_V)} to ${volts(answer.full_V)}`;
  const ohm = 10 * Math.ceil(answer.highest_V ** 2 / PRECHARGE_W / 10);
  const batteries = answer.in_series * answer.in_parallel;
  // Not in the files it is taken to stand where it asks most.
  const held = stationOf(answer, "dead_man")?.main !== false;
  const pole = answer.device === "none" ? "breaker or fuse" : answer.device;
  const [off, on] = [OFF[answer.device], ON[answer.device]];
  return [
    `Lever shut, ${off}, isolator open. Fasten every cable, and put a lug that is crimped to its size and a boot on every end.`,
    motorJoined(answer),
    `Join the + of the controller, ${held ? "the dead-man's switch, " : ""}the isolator and the ${pole}, in this order, towards the battery's +; the − of the controller leads straight to the battery's −. The ${pole} goes as close to the battery as can be: nothing guards the cable between the two.${held ? "" : " The dead-man's switch goes into the control circuit as the controller's papers show it; a contactor that it drops stands between isolator and controller."}`,
    "Join lamps, horn and whatever else is small behind the isolator, each through a fuse of its own. Leave the fuses of lamps and horn out for now.",
    `The battery still off, meter on ohms from the lead for its + to the lead for its −: ${on} and isolator open, there is no way through. Isolator closed for this test alone${held ? ", dead-man's switch held," : ""} the reading begins low and climbs as the controller's capacitors fill; one that stays near nothing is a short circuit. From either lead to the frame there is no way through, unless the frame is joined to a pole on purpose. The lead for + leads to the controller's + and to nothing else: one that is joined the wrong way round is destroyed. Then ${off} and isolator open again.`,
    ...(batteries > 1
      ? [
          `Each battery by itself shows ${volts(answer.each_reserve_V)} to ${volts(answer.each_full_V)}, all within 0.1 V of each other (common practice, no source). Link them${answer.in_parallel > 1 ? `${answer.in_series > 1 ? `, ${answer.in_series} in series and those ${answer.in_parallel} strings in parallel` : `, all ${answer.in_parallel} in parallel`}, + to + and − to −` : ", each + to the next one's −"}. Before the last link: isolator open, meter across the gap that it closes. It shows nothing; volts there mean that the link would make a short circuit. Linked, all together show ${between} from + to −; less means that one stands the wrong way round.`,
        ]
      : []),
    `Put one lead on the battery, the lead for + on + or the lead for − on −. Before the other, which is the last joint of all: ${off}, isolator open, meter from the lead to its post. It shows nothing. Then join it. If the frame is joined to a pole, the lead of that pole is the last; a frame that is joined to none is safer.`,
    `${capital(on)}, isolator open still. From the controller's − to the battery's side of the isolator the meter, black on −, shows ${between}, and behind the isolator nothing. A minus sign before the volts means that the two leads are changed over: ${off}, and change them before the isolator is closed.`,
    ...(held
      ? [
          `Isolator closed, dead-man's switch released: ${between} behind the isolator, and no volts at the controller's + or across the motor's leads wherever the lever stands. If there are, the switch does not do its work: open the isolator and find out why.`,
          `Lever shut. The controller's capacitors are empty and take a spark that eats contacts. The first time, with the controller's own key off, hold a resistor of about ${ohm} ohm (5 W) across the dead-man's switch until less than a volt is left across it, and press it then (common practice, no source; the controller's papers come first). In the main circuit the switch meets that spark whenever it is pressed after a while; ask the maker of the controller how to spare it.`,
        ]
      : [
          `Lever shut. The controller's capacitors are empty and take a spark that eats contacts. The first time, with the controller's own key off, hold a resistor of about ${ohm} ohm (5 W) across the open isolator, or the contactor that joins the controller, until less than a volt is left across it, and close it then (common practice, no source; the controller's papers come first).`,
          `Isolator closed, dead-man's switch released: ${between} behind the isolator, and no volts across the motor's leads wherever the lever stands. If there are, the switch does not do its work: open the isolator and find out why.`,
        ]),
    "Dead-man's switch pressed, lever shut: still none. Lever a touch open: the wheels turn. Release the switch: they are without current at once.",
    "Isolator open, the fuses of lamps and horn in; isolator closed, they work.",
    directionOf(answer),
    `Before anything is touched again: lever shut, isolator open, ${off}, and a lead off the battery first of all. The controller's capacitors keep their volts for a while: wait until the meter shows next to nothing across the controller.`,
  ];
}

/** What is joined to the controller: a series motor turns about only where armature or field is turned about by itself. */
function motorJoined(answer: WiringAnswer): string {
  const { motors, motors_in_series, motor } = answer;
  const what =
    motors > 1
      ? `the ${motors} motors to the controller, ${motors_in_series ? "one after another" : "side by side"}, so that all turn their shaft the same way: look at each by itself before they are coupled`
      : "the motor to the controller";
  if (!inMain(answer, "reverser")) return `Join ${what}.`;
  const through =
    motor === "series"
      ? "The armature goes through the reverser and the field past it: turned about together they change nothing"
      : "Its leads go through the reverser";
  return `Join ${what}. ${through}.`;
}

/** Which way it turns, and how that is changed. */
function directionOf({ motor, closed_stages }: WiringAnswer): string {
  const change =
    motor === "series"
      ? "change over the two ends of its armature or those of its field, not both: both together change nothing"
      : "change over the motor's two leads";
  const mesh =
    closed_stages > 0
      ? " A closed gearbox may turn its shaft the other way round; chains do not."
      : " Chains turn the axle the way that the motor turns.";
  return `If the wheels turn the wrong way, open the isolator, wait until they stand, and ${change}.${mesh} A reverser is thrown at rest only, unless it is the controller's own and its papers allow more.`;
}

/** What a voltmeter shows, from the battery's − to each place: before the last joint, with the isolator open, and closed. */
export function meterRows(answer: WiringAnswer, eyes: Eyes): string[][] {
  const all = `${figures(answer.reserve_V)} to ${eyes.of(answer.full_V, "voltage")}`;
  return [
    ["battery's own posts", all, all, all],
    [answer.device === "none" ? "breaker or fuse" : answer.device, "0 V", all, all],
    ["isolator, battery's side", "0 V", all, all],
    ["isolator, far side", "0 V", "0 V", all],
    ["controller's +, switch held", "0 V", "0 V", all],
    ["across motor, lever shut", "0 V", "0 V", "0 V"],
  ];
}

export const METER_HEAD = ["at", "unjoined", "isolator open", "and closed"] as const;

/** Lamps and horn draw no more than so much, standing. */
export const standingTold = ({ standing_A }: WiringAnswer): string =>
  standing_A > 0 ? `Lamps, horn and the controller itself draw ${figures(standing_A)} A while it stands.` : "";
