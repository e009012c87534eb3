import { figures, type PartChange, type PartLine, type PartName, type PartRule } from "@rideon/sim-core";
import type { Eyes } from "./eyes.js";
import { atLeast } from "./rounding.js";
import { SWITCHES } from "./switches.js";

const CALLED: Readonly<Record<PartName, string>> = {
  motor: "motor",
  controller: "controller",
  sprocket: "sprocket",
  chain: "chain",
  shaft: "shaft",
  key: "key",
  bearing: "bearing",
  wheels: "wheels",
  battery: "battery",
  charger: "charger",
  breaker: "breaker or fuse",
  battery_cable: "battery cable",
  motor_cable: "motor cable",
  ...SWITCHES,
  brake: "brake",
  brake_resistor: "brake resistor",
  coupling: "coupling",
};

/** `2 bearings, axle`. */
export function partTold({ part, place, count, have }: PartLine): string {
  const name = part === "breaker" && !have ? "breaker" : CALLED[part];
  const many = count === 1 || part === "wheels" ? name : part === "battery" ? "batteries" : `${name}s`;
  const counted = count === 1 ? name : `${count} ${many}`;
  const where =
    place === null
      ? ""
      : /^\d+$/.test(place)
        ? ` ${place}`
        : `, ${place === "main" ? "main circuit" : place === "control" ? "control circuit" : place}`;
  return `${counted}${where}`;
}

export const mm = (value_m: number): string => `${figures(1000 * value_m)} mm`;

/** Figures to order by; those of what is needed are rounded to the safe side. */
export function orderTold({ part, place, have, figures: own, wanted }: PartLine, eyes: Eyes): string {
  const amps = (value: number) => `${figures(have ? value : atLeast(value))} A`;
  // A charger's volts are neither more nor less: more of them overcharge.
  const volts = (value: number) => eyes.of(have || part === "charger" ? value : Math.ceil(value), "voltage");
  const newtons = (value: number) => eyes.of(have ? value : atLeast(value), "force");
  const told: (string | undefined)[] = [
    own.teeth === undefined ? undefined : `${own.teeth} teeth`,
    own.chain === undefined ? undefined : own.chain,
    own.links === undefined ? undefined : `${own.links} links`,
    own.centres_m === undefined ? undefined : `${mm(own.centres_m)} between centres`,
    own.least_centres_m === undefined
      ? undefined
      : `for ${mm(own.least_centres_m)} between centres, the least that will do; ${mm(own.each_two_links_m ?? 0)} more for each two links more`,
    own.diameter_m === undefined
      ? undefined
      : part === "shaft" && !have
        ? `${mm(own.diameter_m)} or thicker${place === "motor" ? ", the motor's own" : ""}`
        : mm(own.diameter_m),
    own.width_m === undefined
      ? undefined
      : `${mm(own.width_m)} by ${mm(own.height_m ?? own.width_m)}, ${mm(Math.ceil(1000 * (own.length_m ?? 0)) / 1000)} long or more`,
    own.material,
    own.bore_m === undefined ? undefined : `bore ${mm(own.bore_m)}`,
    have && wanted.bore_m !== undefined ? `bore ${mm(wanted.bore_m)} (needed)` : undefined,
    own.chemistry === undefined || own.chemistry === "other"
      ? undefined
      : `${part === "charger" ? "for " : ""}${own.chemistry}`,
    own.power_W === undefined ? undefined : eyes.of(own.power_W, "power"),
    own.resistance_ohm === undefined ? undefined : eyes.of(own.resistance_ohm, "resistance"),
    own.current_A === undefined ? undefined : `${amps(own.current_A)}${CARRIES.has(part) ? " for ever" : ""}`,
    own.current_A === undefined && SWITCH_NAMES.has(part) ? "amps it must carry not known yet" : undefined,
    own.curve === undefined ? undefined : `curve ${own.curve}`,
    own.voltage_V === undefined ? undefined : `${volts(own.voltage_V)}${DIRECT.has(part) ? " of direct current" : ""}`,
    own.breaks_A === undefined ? undefined : `breaks ${amps(own.breaks_A)}${own.both_ways ? ` ${EITHER_WAY}` : ""}`,
    part === "reverser" && !have ? "unless the controller reverses" : undefined,
    own.speed_radps === undefined ? undefined : `${figures((own.speed_radps * 30) / Math.PI)} rpm`,
    own.capacity_Ah === undefined ? undefined : `${figures(own.capacity_Ah)} Ah`,
    own.area_mm2 === undefined ? undefined : `${figures(own.area_mm2)} mm²`,
    own.length_m === undefined || own.width_m !== undefined ? undefined : eyes.length(own.length_m),
    CABLES.has(part) ? "a lug of its size on every end" : undefined,
    own.rating_N === undefined ? undefined : `C ${newtons(own.rating_N)}`,
    own.force_N === undefined ? undefined : newtons(own.force_N),
  ];
  return told.filter((each) => each !== undefined).join(", ");
}

/** One that is marked with poles may not break what flows the other way. */
const EITHER_WAY = "either way (not one that is marked with poles: braking feeds current back through it)";

const SWITCH_NAMES: ReadonlySet<string> = new Set(Object.keys(SWITCHES));
const CARRIES: ReadonlySet<string> = new Set(["motor", ...SWITCH_NAMES]);
const CABLES: ReadonlySet<PartName> = new Set(["battery_cable", "motor_cable"]);
const DIRECT: ReadonlySet<string> = new Set(["breaker", ...SWITCH_NAMES]);

/** What this line asks of what there is. */
export function judgedTold(line: PartLine): string {
  const { have, margin, enough, part } = line;
  if (!have) return "";
  const times = margin === null ? "" : `${timesTold(margin)} what is asked`;
  // What it breaks stands on a breaker and in no file.
  const will = part === "breaker" ? "its rating will do" : "will do";
  const judged = enough === null ? "" : enough ? will : "will NOT do";
  const told = [judged, times].filter((each) => each !== "").join(", ");
  return [told, askedTold(line)].filter((each) => each !== "").join("; ");
}

/** What it must bear, where that is not plain from the rest. */
function askedTold({ part, place, enough, wanted, figures: own }: PartLine): string {
  const current = wanted.current_A === undefined ? "" : `${figures(atLeast(wanted.current_A))} A`;
  const volts = `${figures(Math.ceil(wanted.voltage_V ?? 0))} V`;
  const breaks =
    wanted.breaks_A === undefined ? "" : `break ${figures(atLeast(wanted.breaks_A))} A of direct current at ${volts}`;
  const bears = [current === "" ? "" : `carry ${current} for ever`, breaks].filter((each) => each !== "").join(" and ");
  const short = enough === false;
  switch (part) {
    case "controller":
      return wanted.voltage_V === undefined ? "" : `it must stand ${volts}, the most that this battery comes to`;
    case "breaker":
      return `it must ${breaks}${wanted.both_ways ? ` ${EITHER_WAY}` : ""}${wanted.current_A === undefined ? "" : `, and the least that holds here is ${figures(wanted.current_A)} A`}`;
    case "battery_cable":
    case "motor_cable":
      // Of one that fails by its volts alone the size that would do is not known.
      return short && (wanted.area_mm2 ?? 0) > (own.area_mm2 ?? 0)
        ? `${figures(wanted.area_mm2 ?? 0)} mm² would do`
        : "";
    case "charger":
      return short && current !== "" ? `${current} would do` : "";
    case "isolator":
      if (place === "control") return `there it takes the battery from nothing: in the main circuit it must ${bears}`;
      return short ? `it must ${bears}` : "";
    case "dead_man":
      if (place === "control")
        return `the contactor that it drops must ${bears}; where it only takes the controller's enable away, a controller that has failed pulls on`;
      return short ? `it must ${bears}` : "";
    case "brake_resistor":
      return wanted.power_W === undefined
        ? ""
        : `it must carry ${current} and turn ${figures(atLeast(wanted.power_W))} W into heat for as long as it brakes at the controller's limit`;
    case "brake":
      return "whether it will do rideon brakes and limits tell";
    case "reverser":
      return short && place !== "control" ? `it must ${bears}` : "";
    default:
      return "";
  }
}

const timesTold = (margin: number): string =>
  margin >= 10 ? "more than ten times" : `${(Math.floor(10 * margin) / 10).toFixed(1)} times`;

export const RULES: Readonly<Record<PartRule, string>> = {
  rms_current: "motor: the current it carries for ever, against the root mean square of the working",
  starting_current:
    "controller: its limit is what starts the train; the most that the working drew stands beside it in the JSON",
  as_chosen: "sprockets, wheels, batteries: as chosen; gears, laps and size judge them",
  chain_margin: "chain: its breaking load, six times the greatest pull (chain makers' advice)",
  shaft_stress:
    "shaft: bending and torsion with shock, keyway counted (ASME's code for transmission shafting); the next bar sold",
  key_crushing: "key: shear, and crushing on half its height",
  bearing_life: "bearing: basic dynamic rating C for 2000 hours of running (ISO 281)",
  breaker_over_climb:
    "breaker: holds on the steepest climb, guards the cable; it must break the short circuit, on direct current",
  cable_heat:
    "cables: what they carry for ever (IEC 60364-5-52), the volts they lose, a stall, and the breaker that is to guard them",
  switch_dc:
    "switches: what they carry in the worst minute, for ever, and must break on direct current, a controller that has failed fully on counted",
  charger_overnight: "charger: full in twelve hours from the reserve",
  braking_limit: "brake resistor: the controller's current limit, which it may brake at all the way down",
  stops_in_sight: "brake: stops the train within 20 m of sight from everywhere here, at the rail",
  jerk_factor:
    "couplings: the greatest steady pull times three for jerks, which are not modelled (common practice, no source)",
};

/** What another loco would have otherwise: the part, and what it is now and then. */
export const changeRows = (changes: readonly PartChange[], eyes: Eyes): string[][] =>
  changes.filter((change) => differs(change, eyes)).map((change) => changeTold(change, eyes));

/** To order by: what is rounded alike is alike. */
const differs = ({ before, after }: PartChange, eyes: Eyes): boolean =>
  !before ||
  !after ||
  partTold(before) !== partTold(after) ||
  before.have !== after.have ||
  orderTold(before, eyes) !== orderTold(after, eyes) ||
  (after.enough === false && before.enough !== false);

function changeTold({ before, after }: PartChange, eyes: Eyes): string[] {
  const line = after ?? before;
  const counts = before && after && before.count !== after.count ? ` (${before.count} before)` : "";
  return [line ? `${partTold(line)}${counts}` : "", `now ${wasTold(before, eyes)}; then ${isTold(after, eyes)}`];
}

/** What is in no file is needed; of a brake, which the train is run without then, there is none. */
const wasTold = (line: PartLine | null, eyes: Eyes): string =>
  line === null || (line.part === "brake" && !line.have)
    ? "none"
    : `${orderTold(line, eyes)}${line.have ? "" : " (needed)"}`;

/** And what will not do, and what the new loco asks of what nothing here judges. */
function isTold(line: PartLine | null, eyes: Eyes): string {
  const told = wasTold(line, eyes);
  if (line === null) return told;
  if (line.part === "brake") return `${told}${brakeTold(line, eyes)}`;
  const asked = line.have ? askedTold(line) : "";
  if (line.enough === false) return `${told}, which will NOT do${asked === "" ? "" : `: ${asked}`}`;
  return ASKED_ALWAYS.has(line.part) && asked !== "" ? `${told}; ${asked}` : told;
}

const ASKED_ALWAYS: ReadonlySet<PartName> = new Set(["controller", "brake_resistor"]);

function brakeTold({ have, enough, wanted }: PartLine, eyes: Eyes): string {
  if (have && enough !== false) return "";
  const force =
    wanted.force_N === undefined
      ? "no brake alone stops it within sight at this speed"
      : `${eyes.of(atLeast(wanted.force_N), "force")}${have ? " in all" : ""} is wanted`;
  return have ? `, which will NOT do: ${force}` : `; ${force}`;
}

/** Shafts are listed from the motor to the first axle; who shops by the list is told what else there is. */
export function notListed({ coupled, axles }: { coupled: boolean; axles: number }): string[] {
  if (coupled)
    return [
      "Not on this list: chains or rods from axle to axle, and the axles beyond the first with their keys and bearings.",
    ];
  return axles > 1 ? ["Not on this list: the axles that the motor does not turn, and their bearings."] : [];
}
