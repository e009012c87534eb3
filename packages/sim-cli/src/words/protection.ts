import { type CableAnswer, type FindingCode, figures, formatGradient, type ProtectionAnswer } from "@rideon/sim-core";
import type { Ready, Told } from "./ready.js";
import { switchRows } from "./switches.js";
import { section, table } from "./table.js";

/** All of it where everything is told, otherwise what is wrong alone. */
export function protectionSection(
  protection: ProtectionAnswer,
  told: Ready & Pick<Told<object>, "all">,
  width: number,
): string[] {
  const rows = protectionRows(protection, told);
  return told.all
    ? section("Protection", table(rows, { width }))
    : section("Protection, what is wrong with it", table(rows.filter(isAmiss), { width }));
}

/** In one line, where something is wrong. */
export function amiss(protection: ProtectionAnswer, ready: Ready): string[] {
  const names = protectionRows(protection, ready)
    .filter(isAmiss)
    .map(([name = ""]) => name);
  return names.length === 0 ? [] : [`Not well protected: ${names.join(", ")}; rideon check tells why.`];
}

/** What is wrong is said in capitals. */
const isAmiss = (cells: readonly string[]): boolean => /\b(NONE|NOT|LESS|MORE|MAY|ONLY|TOO)\b/.test(cells.join(" "));

/** Rows of what guards battery, cables and motor, and whether it does. What is wrong is said in capitals. */
function protectionRows(protection: ProtectionAnswer, ready: Ready): string[][] {
  const { battery_cable, motor_cable, recommended } = protection;
  const rows = [
    [deviceName(protection), device(protection, ready)],
    ["battery cable", cable(battery_cable, batteryCable(protection, ready), ready)],
    ["motor cable", cable(motor_cable, motorCable(protection, ready), ready)],
    ...switchRows(protection.switches, ready),
    ["short circuit", shortCircuit(protection, ready)],
    ["stalled", stalled(protection, ready)],
  ];
  return recommended ? [...rows, ["would do here", wouldDo(recommended, ready)]] : rows;
}

/** Was this looked at, and found wrong? */
const isWrong = ({ findings }: ProtectionAnswer, wanted: FindingCode): boolean =>
  findings.some(({ code, ok }) => code === wanted && !ok);

const deviceName = ({ device }: ProtectionAnswer): string => (device === "none" ? "breaker" : device);

function device(protection: ProtectionAnswer, { eyes, reading }: Ready): string {
  const { device, rating_A, surely_holds_A, surely_trips_A, magnetic_from_A, magnetic_to_A, battery_cable } =
    protection;
  if (device === "none" || rating_A === null || surely_holds_A === null || surely_trips_A === null) {
    return "NONE is in the sums: nothing parts the battery from a short circuit; fit one close to its terminals";
  }
  const amps = (value_A: number) => eyes.of(value_A, "current");
  const curve = device === "breaker" ? `, curve ${reading.loco.wiring?.breaker?.curve ?? "C"}` : "";
  const holds = `holds ${amps(surely_holds_A)}, trips within the hour at ${amps(surely_trips_A)}`;
  const atOnce =
    magnetic_from_A === null || magnetic_to_A === null
      ? ""
      : `, at once somewhere from ${amps(magnetic_from_A)} to ${amps(magnetic_to_A)} (alternating; about 1.4 times that on direct current)`;
  return [
    `${amps(rating_A)}${curve}: ${holds}${atOnce}`,
    ...deviceFaults(protection, amps),
    ...asked(battery_cable, amps),
  ].join("; ");
}

const asked = ({ rms_current_A, peak_current_A }: CableAnswer, amps: (value_A: number) => string): string[] =>
  rms_current_A === null || peak_current_A === null
    ? []
    : [`asked here for ${amps(rms_current_A)} rms, ${amps(peak_current_A)} at most`];

function deviceFaults(protection: ProtectionAnswer, amps: (value_A: number) => string): string[] {
  const { ruling_gradient: up } = protection;
  return [
    ...(isWrong(protection, "device_carries_working") ? ["its rms is MORE than 0.8 of the rating"] : []),
    ...(isWrong(protection, "device_holds_on_gradient") && up
      ? [`${formatGradient(up.gradient_percent / 100)} takes ${amps(up.battery_current_A)}, which it does NOT hold`]
      : []),
    ...(isWrong(protection, "device_below_magnetic_trip") ? ["its peak MAY TRIP it at once"] : []),
    ...(isWrong(protection, "regeneration_through_breaker")
      ? ["if it is marked with poles it may NOT break what braking feeds back"]
      : []),
  ];
}

function cable({ area_mm2, carries_A, drop_at_peak_percent }: CableAnswer, guarded: string, { eyes }: Ready): string {
  const drop = drop_at_peak_percent === null ? "" : `; loses ${figures(drop_at_peak_percent)} % of the volts at most`;
  return `${eyes.of(area_mm2, "cable_area")} carries ${eyes.of(carries_A, "current")} for ever${guarded}${drop}`;
}

function batteryCable(protection: ProtectionAnswer, { eyes }: Ready): string {
  if (protection.device === "none") return ", and nothing guards it";
  const rating = eyes.of(protection.rating_A ?? 0, "current");
  const guarded = isWrong(protection, "device_guards_battery_cable")
    ? `, LESS than the ${rating} of the ${protection.device}: it burns first`
    : `, and the ${rating} ${protection.device} guards it`;
  return `${guarded}${tooMuch(protection, "battery_cable_carries_working", "battery_cable_volt_drop")}`;
}

function motorCable(protection: ProtectionAnswer, { eyes }: Ready): string {
  const stall = eyes.of(protection.stall.motor_current_A, "current");
  const guarded = isWrong(protection, "motor_cable_carries_stall")
    ? `, LESS than the ${stall} of a stall`
    : `, and a stall takes ${stall}`;
  return `${guarded}${tooMuch(protection, "motor_cable_carries_working", "motor_cable_volt_drop")}`;
}

const tooMuch = (protection: ProtectionAnswer, carries: FindingCode, drop: FindingCode): string =>
  [
    isWrong(protection, carries) ? "; TOO THIN for this working" : "",
    isWrong(protection, drop) ? "; MORE than 3 % of the volts lost" : "",
  ].join("");

function shortCircuit(protection: ProtectionAnswer, { eyes }: Ready): string {
  const { short_circuit, device } = protection;
  const ohms = short_circuit.battery_resistance_ohm + short_circuit.cable_resistance_ohm;
  const amps = eyes.of(short_circuit.current_A, "current");
  const about = `about ${amps} (${eyes.of(short_circuit.emf_V, "voltage")} over the ${eyes.of(ohms, "resistance")} of battery and its cable)`;
  if (device === "none") return `${about}, and nothing parts it`;
  // Close behind a breaker by the battery there is no cable to hold it back.
  const most = `the ${eyes.of(short_circuit.at_terminals_A, "current")} close to the battery`;
  if (device === "fuse") return `${about}; the fuse must be made to break ${most} on direct current`;
  const trips = isWrong(protection, "short_circuit_trips_at_once")
    ? "the breaker may NOT trip at once"
    : "the breaker trips at once";
  const breaks = isWrong(protection, "device_breaking_capacity")
    ? `${most} is MORE than any small breaker breaks`
    : `and must be marked to break ${most} on direct current`;
  const spared = isWrong(protection, "short_circuit_spares_cable")
    ? `; the cable stands it for ONLY ${eyes.of(short_circuit.cable_withstands_s, "time")}`
    : "";
  return `${about}: ${trips}, ${breaks}${spared}`;
}

function stalled(protection: ProtectionAnswer, { eyes }: Ready): string {
  const { stall, device, rating_A } = protection;
  const amps = (value_A: number) => eyes.of(value_A, "current");
  const takes = `wheels held and lever open, ${amps(stall.motor_current_A)} in the motor is only ${amps(stall.battery_current_A)} from the battery`;
  const burns =
    stall.too_hot_s === null
      ? "the winding stands it"
      : `the winding is too hot after ${eyes.of(stall.too_hot_s, "time")}`;
  if (device === "none" || rating_A === null) return `${takes}; ${burns}, and nothing trips`;
  const trips =
    stall.trip_s === null
      ? `the ${amps(rating_A)} ${device} never trips`
      : `the ${amps(rating_A)} ${device} trips after ${eyes.of(stall.trip_s, "time")}`;
  const moral = isWrong(protection, "device_protects_stalled_motor")
    ? `. A ${device} in the battery lead does NOT protect a stalled motor: shut the lever`
    : "";
  return `${takes}; ${trips}, ${burns}${moral}`;
}

function wouldDo(recommended: NonNullable<ProtectionAnswer["recommended"]>, { eyes }: Ready): string {
  const { breaker_rating_A, breaker_curve, battery_cable_mm2, motor_cable_mm2 } = recommended;
  const area = (area_mm2: number | null) =>
    area_mm2 === null ? "thicker than any listed here" : `of ${eyes.of(area_mm2, "cable_area")}`;
  const breaker =
    breaker_rating_A === null
      ? "no standard breaker is large enough"
      : `a breaker of ${eyes.of(breaker_rating_A, "current")}, curve ${breaker_curve}, the smallest that carries this working`;
  return `${breaker}; battery cable ${area(battery_cable_mm2)}, motor cable ${area(motor_cable_mm2)}; the rules are in --json`;
}
