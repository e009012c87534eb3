import { figures, type WirePlace, type WiringAnswer } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";

const has = ({ path }: WiringAnswer, place: WirePlace): boolean =>
  path.find((each) => each.place === place)?.fitted === true;

/** A resistor that lets the controller's capacitors fill through it, and stays cool enough to hold: V² over 5 W. */
const PRECHARGE_W = 5;

/** What stands over every joint. */
export function firstWords(answer: WiringAnswer): string[] {
  const hundreds_A = 100 * Math.round(answer.short_circuit_A / 100);
  return [
    `This battery gives ${hundreds_A >= 200 ? `about ${hundreds_A} A` : "hundreds of amps"} into a short circuit: a spanner across its posts welds, sprays metal and can burst it. Take rings, watches and bracelets off, use insulated tools, cover your eyes, and keep flames away.`,
    "Chock the loco, lift the driven wheels clear of the rail, and keep everybody away from chains and wheels.",
    ...(answer.device === "none"
      ? ["The files have neither breaker nor fuse. Fit one close to the battery before anything is joined to it."]
      : []),
    ...(has(answer, "isolator")
      ? []
      : [
          "The files have no isolator. Fit one that opens the whole circuit and can be reached at once: every step below needs it.",
        ]),
    ...(answer.chemistry === "lead-acid"
      ? [
          "Not within some hours of charging: the battery gives off hydrogen then, and the last joint may spark. Open the box and let it air.",
        ]
      : []),
    ...(answer.motor === "series"
      ? [
          "The motor is series wound: with nothing to pull it races until it bursts. Never more than a touch of the lever while the wheels are lifted.",
        ]
      : []),
  ];
}

/** The order of connecting, battery last, and what a meter shows at each joint. */
export function stepsOf(answer: WiringAnswer, eyes: Eyes): string[] {
  const volts = (value: number) => eyes.of(value, "voltage");
  const between = `${volts(answer.reserve_V)} to ${volts(answer.full_V)}`;
  const ohm = 10 * Math.ceil(answer.highest_V ** 2 / PRECHARGE_W / 10);
  const batteries = answer.in_series * answer.in_parallel;
  const reversed = answer.path.find(({ place }) => place === "reverser");
  const through = reversed?.fitted && reversed.main ? ", through the reverser" : "";
  const deadMan = answer.path.find(({ place }) => place === "dead_man");
  // Not in the files it is taken to stand where it asks most.
  const held = deadMan?.main !== false;
  const pole = answer.device === "none" ? "breaker or fuse" : answer.device;
  return [
    `Lever shut, ${answer.device === "breaker" ? "breaker off" : "fuse out"}, isolator open. Fasten every cable, and put a lug that is crimped to its size and a boot on every end.`,
    `Join the motor to the controller${through}.`,
    `Join the controller, the dead-man's switch, the isolator and the ${pole}, in this order, towards the battery. The ${pole} goes as close to the battery as can be: nothing guards the cable between the two.`,
    "Join lamps, horn and whatever else is small behind the isolator, each through a fuse of its own.",
    `The battery still off, meter on ohms from the lead for its + to the lead for its −: ${answer.device === "breaker" ? "breaker on" : "fuse in"} and isolator open, there is no way through. Isolator closed for it alone${held ? ", dead-man's switch held," : ""} the reading begins low and climbs as the controller's capacitors fill; one that stays near nothing is a short circuit. The lead for + leads to the controller's + and to nothing else: one that is joined the wrong way round is destroyed. Then ${answer.device === "breaker" ? "breaker off" : "fuse out"} and isolator open again.`,
    ...(batteries > 1
      ? [
          `Each battery by itself shows ${volts(answer.each_reserve_V)} to ${volts(answer.each_full_V)}, all within 0.1 V of each other (common practice, no source). Link them${answer.in_parallel > 1 ? `, ${answer.in_series} in series and those ${answer.in_parallel} strings in parallel` : ""}. Before the last link: isolator open, meter across the gap that it closes. It shows nothing; volts there mean that the link would make a short circuit.`,
        ]
      : []),
    `Put one lead on the battery. Before the other, which is the last joint of all: isolator open, meter from the lead to its post. It shows nothing. Then join it. If the frame is joined to a pole, the lead of that pole is the last; a frame that is joined to none is safer.`,
    `${answer.device === "breaker" ? "Breaker on" : "Fuse in"}. On the battery's side of the isolator the meter shows ${between}, with + where the controller's papers want it; behind the isolator nothing.`,
    ...(held
      ? [
          `Isolator closed, dead-man's switch released: ${between} behind the isolator, and no volts at the controller or the motor's leads wherever the lever stands. If there are, the switch does not do its work: open the isolator and find out why.`,
          `The controller's capacitors are empty and take a spark that eats contacts. The first time hold a resistor of about ${ohm} ohm (5 W) across the dead-man's switch until less than a volt is left across it, and press it then (common practice, no source; the controller's papers come first). In the main circuit the switch meets that spark whenever it is pressed after a while; ask the maker of the controller how to spare it.`,
        ]
      : [
          `The controller's capacitors are empty and take a spark that eats contacts. The first time hold a resistor of about ${ohm} ohm (5 W) across the open isolator, or the contactor that joins the controller, until less than a volt is left across it, and close it then (common practice, no source; the controller's papers come first).`,
          `Isolator closed, dead-man's switch released: ${between} behind the isolator, and no volts at the motor's leads wherever the lever stands. If there are, the switch does not do its work: open the isolator and find out why.`,
        ]),
    "Dead-man's switch pressed, lever shut: still none. Lever a touch open: the wheels turn. Release the switch: they are without current at once.",
    directionOf(answer),
  ];
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
    ["motor's leads, lever shut", "0 V", "0 V", "0 V"],
  ];
}

export const METER_HEAD = ["at", "unjoined", "isolator open", "and closed"] as const;

/** Lamps and horn draw no more than so much, standing. */
export const standingTold = ({ standing_A }: WiringAnswer): string =>
  standing_A > 0 ? `Lamps, horn and the controller itself draw ${figures(standing_A)} A while it stands.` : "";
