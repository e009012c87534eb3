import { figures, type PartLine, type PartName, type PartRule } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { atLeast } from "../../words/rounding.js";

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
  isolator: "isolator",
  dead_man: "dead-man's switch",
  reverser: "reverser",
  brake: "brake",
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
export function orderTold({ part, place, have, figures: own }: PartLine, eyes: Eyes): string {
  const amps = (value: number) => `${figures(have ? value : atLeast(value))} A`;
  const volts = (value: number) => eyes.of(have ? value : Math.ceil(value), "voltage");
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
    own.power_W === undefined ? undefined : eyes.of(own.power_W, "power"),
    own.current_A === undefined ? undefined : `${amps(own.current_A)}${CARRIES.has(part) ? " for ever" : ""}`,
    own.curve === undefined ? undefined : `curve ${own.curve}`,
    own.voltage_V === undefined ? undefined : `${volts(own.voltage_V)}${DIRECT.has(part) ? " of direct current" : ""}`,
    own.breaks_A === undefined ? undefined : `breaks ${amps(own.breaks_A)}`,
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

const CARRIES: ReadonlySet<PartName> = new Set(["motor", "isolator", "dead_man", "reverser"]);
const CABLES: ReadonlySet<PartName> = new Set(["battery_cable", "motor_cable"]);
const SWITCHES: ReadonlySet<PartName> = new Set(["isolator", "dead_man", "reverser"]);
const DIRECT: ReadonlySet<PartName> = new Set(["isolator", "dead_man", "reverser", "breaker"]);

/** What this line asks of what there is. */
export function judgedTold({ have, margin, enough, wanted, part }: PartLine): string {
  if (!have) return "";
  const asked =
    part === "breaker" && wanted.breaks_A !== undefined
      ? `; it must break ${figures(atLeast(wanted.breaks_A))} A of direct current at ${figures(Math.ceil(wanted.voltage_V ?? 0))} V${wanted.current_A === undefined ? "" : `, and the least that holds here is ${figures(wanted.current_A)} A`}`
      : (part === "battery_cable" || part === "motor_cable") && wanted.area_mm2 !== undefined && enough === false
        ? `; ${figures(wanted.area_mm2)} mm² would do`
        : part === "charger" && wanted.current_A !== undefined && enough === false
          ? `; ${figures(atLeast(wanted.current_A))} A would do`
          : SWITCHES.has(part) && enough === false && wanted.breaks_A !== undefined
            ? `; it must carry ${figures(atLeast(wanted.current_A ?? 0))} A for ever and break ${figures(atLeast(wanted.breaks_A))} A of direct current at ${figures(Math.ceil(wanted.voltage_V ?? 0))} V`
            : "";
  if (enough === null) return margin === null ? "" : `${timesTold(margin)} what is asked`;
  const times = margin === null ? "" : `, ${timesTold(margin)} what is asked`;
  return `${enough ? "will do" : "will NOT do"}${times}${asked}`;
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
  cable_heat: "cables: what they carry for ever (IEC 60364-5-52), the volts they lose, and a stall",
  switch_dc:
    "switches: what they carry for ever and must break on direct current, a controller that has failed fully on counted",
  charger_overnight: "charger: full in twelve hours from the reserve",
  stops_in_sight: "brake: stops the train within 20 m of sight from everywhere here, at the rail",
  jerk_factor:
    "couplings: the greatest steady pull times three for jerks, which are not modelled (common practice, no source)",
};
