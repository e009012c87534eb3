import { motorBrush_V, motorResistance_ohm } from "../../parts/motor.points.js";
import { SWITCHES, type Switch } from "../../parts/switches.js";
import type { Plan } from "../../train/plan.js";
import { mostVolts_V, type Train } from "../../train/train.js";
import type { WorkingCurrents } from "./answer.js";
import type {
  SwitchAnswer,
  SwitchDuty,
  SwitchesAnswer,
  SwitchFinding,
  SwitchFindingCode,
  SwitchRemark,
} from "./switches.answer.js";

/** What the switches of a loco must carry and break, and whether those it has do. */
export function switchesOf(plan: Plan, working: WorkingCurrents | null): SwitchesAnswer {
  const { train, air_degC } = plan;
  const { controller } = train;
  const voltage_V = mostVolts_V(train);
  const failed_A = failedOn_A(train, voltage_V, air_degC);
  const motor_A = Math.min(controller.motorLimit_A, failed_A);
  // A chopper's battery current is never more than its motor current.
  const battery_A = Math.min(controller.batteryLimit_A, motor_A) + train.standing_A;
  const duty = (of: "battery" | "motor", breaks_A: number): SwitchDuty => ({
    carries_A: working?.[`rms_${of}_current_A`] ?? null,
    carries_minute_A: working?.[`minute_${of}_current_A`] ?? null,
    breaks_A: Math.max(breaks_A, working?.[`peak_${of}_current_A`] ?? 0),
    breaks_failed_A: of === "battery" ? failed_A + train.standing_A : null,
    voltage_V,
  });
  const battery = duty("battery", battery_A);
  const motor = duty("motor", motor_A);
  return {
    battery,
    motor,
    fitted: train.switches.map((each) => answerOf(each, each.name === "reverser" ? motor : battery)),
    missing: SWITCHES.filter((name) => train.switches.every((each) => each.name !== name)),
  };
}

/** Battery, cables, controller and a cold motor at rest in series: a controller that has failed does not hold it back. */
function failedOn_A(
  { battery, batteryCable_ohm, motorPath_ohm, motor }: Train,
  full_V: number,
  air_degC: number,
): number {
  const loop_ohm = battery.warm_ohm + batteryCable_ohm + motorPath_ohm + motorResistance_ohm(motor, air_degC);
  const without_A = full_V / loop_ohm;
  return Math.max(0, full_V - motorBrush_V(motor, without_A)) / loop_ohm;
}

function answerOf(each: Switch, duty: SwitchDuty): SwitchAnswer {
  const { name, stands, rating_A, breaks_A, voltage_V } = each;
  const findings: SwitchFinding[] = [];
  const find = (code: SwitchFindingCode, value: number | null, wanted: number | null, unit: "A" | "V" = "A") => {
    if (wanted !== null) findings.push({ code, ok: value !== null && value >= wanted, value, wanted, unit });
  };
  find("rated_for_volts", voltage_V, duty.voltage_V, "V");
  if (stands === "main") {
    find("carries_working", rating_A, duty.carries_A);
    find("carries_minute", rating_A, duty.carries_minute_A);
    if (name !== "reverser") {
      const here_A = voltage_V !== null && voltage_V >= duty.voltage_V ? breaks_A : null;
      find("breaks_working", here_A, duty.breaks_A);
      find("breaks_failed_controller", here_A, duty.breaks_failed_A);
    }
  }
  return {
    name,
    stands,
    rating_A,
    breaks_A,
    voltage_V,
    circuit: stands === "control" ? "control" : name === "reverser" ? "motor" : "battery",
    findings,
    remarks: remarksOf(each),
  };
}

function remarksOf({ name, stands, voltage_V, ac_V }: Switch): SwitchRemark[] {
  const remarks: SwitchRemark[] = [];
  if (voltage_V === null && ac_V !== null) remarks.push("alternating_only");
  if (name === "reverser") remarks.push(stands === "main" ? "thrown_at_rest_only" : "controller_reverses");
  else if (stands === "control") {
    remarks.push("contactor_must_break");
    if (name === "dead_man") remarks.push("failed_controller_pulls_on");
  }
  return remarks;
}
