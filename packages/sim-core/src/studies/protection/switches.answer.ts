import type { SwitchName } from "../../parts/switches.js";

/** What anything that stands in a circuit must carry and break, on direct current. */
export interface SwitchDuty {
  /**
   * For ever: root mean square over the working, since contacts warm with the square (Albright's SD150 carries 125 A for ever
   * and 230 A for 30 % of the time: I √duty is within 1.3 % the same all along that row); null where nothing was run.
   */
  carries_A: number | null;
  /** The same over the worst minute. */
  carries_minute_A: number | null;
  /** The most that a sound controller lets through, or that flowed. */
  breaks_A: number;
  /**
   * With the controller failed fully on and the wheels held, a full battery behind: what a switch for emergencies must break
   * where the fuse does not; null in the motor's leads, whose reverser is thrown at rest only.
   */
  breaks_failed_A: number | null;
  /** At these volts; a rating at fewer says nothing. */
  voltage_V: number;
}

export type SwitchFindingCode =
  /** Its volts of direct current against the battery's highest: `value` null where only alternating volts are given, or none. */
  | "rated_for_volts"
  | "carries_working"
  /** Above its rating for a minute: its data sheet must say that it bears this. */
  | "carries_minute"
  /** `value` null where it is not given, or given at fewer volts than these. */
  | "breaks_working"
  | "breaks_failed_controller";

export interface SwitchFinding {
  code: SwitchFindingCode;
  ok: boolean;
  /** What the switch bears, and what is wanted of it. */
  value: number | null;
  wanted: number;
  unit: "A" | "V";
}

export type SwitchRemark =
  /** A reverser in the motor's leads breaks nothing when it is thrown at rest, and must never be thrown under way. */
  | "thrown_at_rest_only"
  /** Its ratings are for alternating current alone. */
  | "alternating_only"
  /** It drops a contactor, which must then carry and break what `battery` says, or takes the controller's enable away. */
  | "contactor_must_break"
  /** Where it only takes the controller's enable away, a controller that has failed pulls on. */
  | "failed_controller_pulls_on"
  /** As the reverse input of the controller, which may see to it that it acts at rest: its manual says. */
  | "controller_reverses";

export interface SwitchAnswer {
  name: SwitchName;
  stands: "main" | "control";
  rating_A: number;
  breaks_A: number | null;
  voltage_V: number | null;
  /** In the battery's circuit, in the motor's leads, or in neither. */
  circuit: "battery" | "motor" | "control";
  findings: SwitchFinding[];
  remarks: SwitchRemark[];
}

/** The `switches` of the protection study: what switches must bear here, whether there are any or not, and those there are. */
export interface SwitchesAnswer {
  /** Of what stands between battery and controller: isolator, contactor, dead-man's switch of the main circuit. */
  battery: SwitchDuty;
  /** Of what stands between controller and motor: a reverser that is not the controller's. */
  motor: SwitchDuty;
  fitted: SwitchAnswer[];
  /** Switches that the file does not give. */
  missing: SwitchName[];
}
