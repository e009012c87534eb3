import { figures, type WirePlace, type WireStation, type WiringAnswer } from "@rideon/sim-core";
import { ENDED_BY } from "../../words/endings.js";
import { capital, listed } from "../../words/lists.js";
import { atLeast } from "../../words/rounding.js";

const CALLED: Readonly<Record<WirePlace, string>> = {
  battery: "battery",
  device: "breaker or fuse",
  isolator: "isolator",
  dead_man: "dead-man's switch",
  controller: "controller",
  reverser: "reverser",
  motor: "motor",
};

export const placeTold = (place: WirePlace, { device }: WiringAnswer): string =>
  place === "device" && device !== "none" ? device : CALLED[place];

const WHY = "will NOT do (rideon run --all tells why)";

/** What stands in the way of the power, in its order, and what it must bear. */
export const pathRows = (answer: WiringAnswer): string[][] =>
  answer.path.map((station) => [placeTold(station.place, answer), stationTold(station, answer)]);

function stationTold(station: WireStation, { highest_V, device, rating_A }: WiringAnswer): string {
  const { place, fitted, main, carries_A, breaks_A, enough } = station;
  if (!main)
    return (
      "in the control circuit: it drops a contactor or the controller's enable, and a controller that has failed pulls on" +
      (enough === false ? `; it ${WHY}` : "")
    );
  const own = place === "device" && device !== "none" && rating_A !== null ? `${figures(rating_A)} A; ` : "";
  const carries = carries_A === null ? "" : `carries ${figures(atLeast(carries_A))} A for ever`;
  const breaks =
    breaks_A === null
      ? ""
      : `must break ${figures(atLeast(breaks_A))} A of direct current at ${figures(Math.ceil(highest_V))} V`;
  const rest = place === "reverser" ? "thrown at rest only" : "";
  const judged = fitted ? (enough === null ? "" : enough ? "will do" : WHY) : "NOT in the files";
  return own + [carries, breaks, rest, judged].filter((text) => text !== "").join(", ");
}

/** Each cable: size, length, what flows in it and the volts it loses; units stand in the head. */
export const cableRows = ({ cables }: WiringAnswer): string[][] =>
  cables.map(({ cable, area_mm2, length_m, rms_current_A, peak_current_A, drop_at_rms_V, drop_at_peak_V, enough }) => [
    cable,
    ...[area_mm2, length_m, rms_current_A, peak_current_A, drop_at_rms_V, drop_at_peak_V].map((value) =>
      value === null ? "" : figures(value),
    ),
    enough ? "will do" : "will NOT do",
  ]);

export const CABLE_HEAD = ["cable", "mm²", "m", "A lasting", "at most", "V lost", "at most", ""] as const;

/** One sentence: what is missing, and what will not do. */
export function headline(answer: WiringAnswer): string {
  const missing = answer.path.filter(({ fitted }) => !fitted).map(({ place }) => placeTold(place, answer));
  const bad = [
    ...answer.path.filter(({ enough }) => enough === false).map(({ place }) => placeTold(place, answer)),
    ...answer.cables.filter(({ enough }) => !enough).map(({ cable }) => `${cable} cable`),
  ];
  const told = [
    bad.length > 0 ? `will not do as it is: ${listed(bad)}` : "",
    missing.length > 0 ? `not in the files: ${listed(missing)}` : "",
  ].filter((text) => text !== "");
  return told.length === 0
    ? "Everything between battery and motor is in the files and bears what this line asks of it."
    : `${capital(told.join("; "))}.`;
}

/** Currents of a train that does not get round are none to wire by. */
export function notRound({ outcome, ended_by }: WiringAnswer): string[] {
  if (outcome === "completed") return [];
  return [
    `But the train as planned ${ended_by ? ENDED_BY[ended_by].it : "does not get round"}, and does not get round: the currents below are those of the part before. Put that right first.`,
  ];
}
