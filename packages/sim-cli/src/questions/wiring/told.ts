import { figures, type WirePlace, type WireStation, type WiringAnswer } from "@rideon/sim-core";
import { stopsShort } from "../../words/endings.js";
import { capital, listed } from "../../words/lists.js";
import { atLeast } from "../../words/rounding.js";
import { SWITCHES } from "../../words/switches.js";

const CALLED: Readonly<Record<WirePlace, string>> = {
  battery: "battery",
  device: "breaker or fuse",
  ...SWITCHES,
  controller: "controller",
  motor: "motor",
};

export const placeTold = (place: WirePlace, { device }: WiringAnswer): string =>
  place === "device" && device !== "none" ? device : CALLED[place];

export const stationOf = ({ path }: WiringAnswer, place: WirePlace) => path.find((each) => each.place === place);

/** Does what the files have of it stand in the main circuit? */
export const inMain = (answer: WiringAnswer, place: WirePlace): boolean => {
  const station = stationOf(answer, place);
  return station?.fitted === true && station.main;
};

const WHY = "will NOT do (rideon run --all tells why)";

/** What stands in the way of the power, in its order, and what it must bear. */
export const pathRows = (answer: WiringAnswer): string[][] =>
  answer.path
    .map((station) => [placeTold(station.place, answer), stationTold(station, answer)])
    .filter(([, told]) => told !== "");

/** Contacts are small and soon warm: they are asked to carry the worst minute. */
const CONTACTS: ReadonlySet<string> = new Set(Object.keys(SWITCHES));

function stationTold(station: WireStation, { highest_V, device, rating_A }: WiringAnswer): string {
  const { place, fitted, main, carries_A, breaks_A, enough } = station;
  const carries =
    carries_A === null
      ? ""
      : `carries ${figures(atLeast(carries_A))} A for ever${CONTACTS.has(place) ? " (worst minute)" : ""}`;
  const breaks =
    breaks_A === null
      ? ""
      : `must break ${figures(atLeast(breaks_A))} A of direct current at ${figures(Math.ceil(highest_V))} V`;
  if (!main && place === "reverser")
    return `in the control circuit: it tells the controller which way to turn, at rest${enough === false ? `; it ${WHY}` : ""}`;
  const asked = [carries, breaks].filter((text) => text !== "").join(", ");
  if (!main && place === "isolator")
    return `in the control circuit, where it takes the battery from nothing: will NOT do; in the main circuit it ${asked}`;
  if (!main)
    return `in the control circuit: the contactor that it drops ${asked}; where it only takes the controller's enable away, a controller that has failed pulls on${enough === false ? `; it ${WHY}` : ""}`;
  const own = place === "device" && device !== "none" && rating_A !== null ? `${figures(rating_A)} A; ` : "";
  const rest = place === "reverser" ? "thrown at rest only" : "";
  // What it breaks stands on it and in no file.
  const will = place === "device" ? "its rating will do: look whether it is marked to break that" : "will do";
  const judged = fitted ? (enough === null ? "" : enough ? will : WHY) : "NOT in the files";
  return own + [asked, rest, judged].filter((text) => text !== "").join(", ");
}

/** Each cable: size, length, what flows in it and the volts it loses; units stand in the head. */
export const cableRows = ({ cables }: WiringAnswer): string[][] =>
  cables.map(({ cable, area_mm2, length_m, rms_current_A, peak_current_A, drop_at_rms_V, drop_at_peak_V, enough }) => [
    cable,
    ...[area_mm2, length_m, rms_current_A, peak_current_A, drop_at_rms_V, drop_at_peak_V].map((value) =>
      value === null ? "" : figures(value),
    ),
    enough === null ? "" : enough ? "will do" : "will NOT do",
  ]);

export const CABLE_HEAD = ["cable", "mm²", "m", "A lasting", "at most", "V lost", "at most", ""] as const;

/** One sentence: what is missing, and what will not do. */
export function headline(answer: WiringAnswer): string {
  const missing = answer.path.filter(({ fitted }) => !fitted).map(({ place }) => placeTold(place, answer));
  const bad = [
    ...answer.path.filter(({ enough }) => enough === false).map(({ place }) => placeTold(place, answer)),
    ...answer.cables.filter(({ enough }) => enough === false).map(({ cable }) => `${cable} cable`),
  ];
  const told = [
    bad.length > 0 ? `will not do as it is: ${listed(bad)}` : "",
    missing.length > 0 ? `not in the files: ${listed(missing)}` : "",
  ].filter((text) => text !== "");
  return told.length === 0
    ? answer.outcome === "completed"
      ? "Everything between battery and motor is in the files and bears what this line asks of it, as far as the files tell."
      : "Everything between battery and motor is in the files."
    : `${capital(told.join("; "))}.${answer.put_right_first ? " Put that right before the battery is joined." : ""}`;
}

/** Currents of a train that does not get round are none to wire by. */
export const notRound = (answer: WiringAnswer): string[] =>
  stopsShort(
    answer,
    "Put that right first: what must be carried for ever is not known before, and the cables' amps are those of the part that it ran.",
  );
