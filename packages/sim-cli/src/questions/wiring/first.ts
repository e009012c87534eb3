import type { WiringAnswer } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { inMain, stationOf } from "./told.js";

/** Above so many volts of direct current bare parts are covered whatever stands before them (IEC 60364-4-41, from memory). */
const TOUCH_V = 60;

/** What stands over every joint. */
export function firstWords(answer: WiringAnswer, eyes: Eyes): string[] {
  const hundreds_A = 100 * Math.round(answer.short_circuit_A / 100);
  return [
    `This battery gives ${hundreds_A >= 200 ? `about ${hundreds_A} A` : "hundreds of amps"} into a short circuit: a spanner across its posts welds, sprays metal and can burst it. Take rings, watches and bracelets off, use insulated tools, cover your eyes, and keep flames away.`,
    ...(answer.highest_V > TOUCH_V
      ? [
          `This battery comes to ${eyes.of(Math.ceil(answer.highest_V), "voltage")}: above ${eyes.of(TOUCH_V, "voltage")} of direct current who touches both poles can be killed, and in the wet by less. Cover every joint, never work alone, and have it looked at by an electrician.`,
        ]
      : []),
    "Chock the loco, lift the driven wheels clear of the rail, and keep everybody away from chains and wheels.",
    ...(answer.device === "none"
      ? ["The files have neither breaker nor fuse. Fit one close to the battery before anything is joined to it."]
      : []),
    ...(inMain(answer, "isolator")
      ? []
      : [
          `The files have no isolator${stationOf(answer, "isolator")?.fitted ? " in the main circuit: one in the control circuit takes the battery from nothing" : ""}. Fit one that opens the whole circuit and can be reached at once: every step below needs it.`,
        ]),
    ...(stationOf(answer, "dead_man")?.fitted
      ? []
      : [
          "The files have no dead-man's switch. Fit one: without it a loco whose driver has fallen off pulls on. Every step below takes it to stand in the main circuit.",
        ]),
    ...(answer.electric_brake !== "none" && stationOf(answer, "dead_man")?.main !== false
      ? [
          "In the main circuit the dead-man's switch takes the controller its current, and its electric brake may go with that: another brake must stop the train then.",
        ]
      : []),
    ...(answer.in_parallel > 1
      ? [
          "Strings in parallel feed each other's faults, past the breaker: give each a fuse of its own beside its + (common practice, no source).",
        ]
      : []),
    ...(answer.electric_brake === "regenerative"
      ? [
          `Braking feeds current back into the battery. ${answer.device === "fuse" ? "A" : "Take a breaker that is not marked with poles, for one that is may not break that; and a"} switch of the main circuit that opens while it brakes leaves that current nowhere to go: ask the maker of the controller whether it bears that.`,
        ]
      : []),
    ...(answer.chemistry === "lead-acid"
      ? [
          "Not within some hours of charging: the battery gives off hydrogen then, and the last joint may spark. Open the box and let it air.",
        ]
      : []),
    ...(answer.chemistry === "lifepo4" && answer.in_series * answer.in_parallel > 1
      ? [
          "Lithium batteries are linked only as their maker allows, and each is filled by itself first: their volts hardly tell how full they are. One that its own protection has disconnected shows no volts.",
        ]
      : []),
    ...(answer.motor === "series"
      ? [
          "The motor is series wound: with nothing to pull it races until it bursts. Never more than a touch of the lever while the wheels are lifted.",
        ]
      : []),
  ];
}
