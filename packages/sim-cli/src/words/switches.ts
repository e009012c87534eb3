import type { SwitchAnswer, SwitchesAnswer, SwitchFindingCode, SwitchRemark } from "@rideon/sim-core";
import type { Ready } from "./ready.js";

/** What the switches are called. */
export const SWITCHES = { isolator: "isolator", dead_man: "dead-man's switch", reverser: "reverser" } as const;

/** A row for each switch: what it bears and what is asked of it. What is wrong is said in capitals. */
export const switchRows = (switches: SwitchesAnswer, ready: Ready): string[][] =>
  switches.fitted.map((each) => [SWITCHES[each.name], switchRow(each, switches, ready)]);

/** What a switch bears and what is asked of it. */
function switchRow(
  { circuit, rating_A, findings, remarks }: SwitchAnswer,
  switches: SwitchesAnswer,
  { eyes }: Ready,
): string {
  const amps = (value_A: number) => eyes.of(value_A, "current");
  const found = (wanted: SwitchFindingCode) => findings.find(({ code }) => code === wanted);
  const wrong = (code: SwitchFindingCode) => found(code)?.ok === false;
  const duty = circuit === "motor" ? switches.motor : switches.battery;
  const volts = eyes.of(duty.voltage_V, "voltage");
  const breaks = `${amps(duty.breaks_A)} of direct current at ${volts}`;
  const [working, failed] = [wrong("breaks_working"), wrong("breaks_failed_controller")];
  const amiss = [
    ...(wrong("rated_for_volts")
      ? [`it is NOT known to be rated for the ${volts} of direct current that this battery comes to`]
      : []),
    ...(wrong("carries_working") ? [`LESS than the ${amps(duty.carries_A ?? 0)} rms of this working`] : []),
    ...(wrong("carries_minute") && !wrong("carries_working")
      ? [`LESS than the ${amps(duty.carries_minute_A ?? 0)} of its worst minute`]
      : []),
    ...(working ? [`it is NOT known to break ${breaks}`] : []),
    ...(failed
      ? [`should the controller fail fully on, it may NOT break the ${amps(duty.breaks_failed_A ?? 0)} of a stall`]
      : []),
    ...(circuit === "battery" && !working && !failed ? [`it breaks ${breaks}`] : []),
  ];
  return [`carries ${amps(rating_A)} for ever`, ...amiss, ...remarks.flatMap((remark) => REMARKS[remark] ?? [])].join(
    "; ",
  );
}

const REMARKS: Partial<Record<SwitchRemark, string>> = {
  thrown_at_rest_only: "throw it at rest only",
  contactor_must_break: "what it drops must break the main current",
  failed_controller_pulls_on: "if it only takes the controller's enable away, a controller that has failed pulls on",
};
