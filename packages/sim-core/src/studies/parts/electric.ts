import { InputError } from "../../errors.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { SWITCHES, type SwitchName } from "../../parts/switches.js";
import type { Plan } from "../../train/plan.js";
import { leastCharger } from "../charging/least.js";
import type { ProtectionAnswer } from "../protection/answer.js";
import { bears, lasting_A, proven } from "../protection/bears.js";
import type { PartFigures, PartLine } from "./answer.js";

/** From a Saturday's last train to Sunday's first, h: common practice, no source. */
const OVERNIGHT_h = 12;

/**
 * Batteries and their charger.
 * @param asNew the same plan with a battery that is not worn: a charger is bought for that
 */
export function batteryLines(plan: Plan, { battery: own }: LocoDefinition, asNew: Plan = plan): PartLine[] {
  const { train } = plan;
  const { chemistry } = train.battery;
  const label_Ah = train.battery.printed_C / 3600;
  const count = (own.in_series ?? 1) * (own.in_parallel ?? 1);
  const wanted = chargerFor(asNew);
  const fitted = train.charger;
  return [
    {
      part: "battery",
      place: null,
      count,
      have: true,
      figures: { chemistry, voltage_V: own.each.voltage_V, capacity_Ah: label_Ah / (own.in_parallel ?? 1) },
      wanted: {},
      margin: null,
      enough: null,
      rule: "as_chosen",
    },
    {
      part: "charger",
      place: null,
      count: 1,
      have: fitted !== null,
      figures: fitted
        ? { current_A: fitted.current_A, voltage_V: fitted.voltage_V }
        : wanted
          ? { chemistry, current_A: wanted.current_A, voltage_V: wanted.voltage_V }
          : {},
      wanted: wanted ? { current_A: wanted.current_A } : {},
      margin: fitted && wanted && wanted.current_A > 0 ? fitted.current_A / wanted.current_A : null,
      enough: fitted && wanted ? fitted.current_A >= wanted.current_A : null,
      rule: "charger_overnight",
    },
  ];
}

/** The least that fills the battery overnight from its reserve; null where none does, or its chemistry is not known. */
function chargerFor(plan: Plan): { current_A: number; voltage_V: number } | null {
  try {
    const least = leastCharger(plan, { from: plan.train.battery.reserve, by_h: OVERNIGHT_h });
    return least.current_A === null ? null : { current_A: least.current_A, voltage_V: least.charger_voltage_V };
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

interface Wired {
  readonly loco: LocoDefinition;
  /** Does braking feed current back into the battery? */
  readonly regenerates: boolean;
  /** Did the train get round? What did not drew no current that anything may be ordered by. */
  readonly round: boolean;
}

/** Breaker or fuse, cables, and switches. */
export function wiringLines(protection: ProtectionAnswer, { loco, regenerates, round }: Wired): PartLine[] {
  const { recommended, device, rating_A } = protection;
  const fitted = device !== "none";
  const cable = (part: "battery_cable" | "motor_cable"): PartLine => {
    const own = protection[part];
    const enough = proven(bears(protection, part), round);
    const length_m = loco.wiring?.[part]?.length_m;
    const least_mm2 = recommended?.[`${part}_mm2`] ?? null;
    return {
      part,
      place: null,
      count: 1,
      have: true,
      figures: { area_mm2: own.area_mm2, ...(length_m !== undefined && { length_m }) },
      wanted: least_mm2 === null ? {} : { area_mm2: least_mm2 },
      // Of one that fails by its volts or in a stall, what it carries for ever is no comfort.
      margin: enough && own.rms_current_A !== null && own.rms_current_A > 0 ? own.carries_A / own.rms_current_A : null,
      enough,
      rule: "cable_heat",
    };
  };
  const asked: PartFigures = {
    ...(round && recommended?.breaker_rating_A != null && { current_A: recommended.breaker_rating_A }),
    ...(round && recommended?.breaker_curve && { curve: recommended.breaker_curve }),
    breaks_A: protection.short_circuit.at_terminals_A,
    voltage_V: protection.switches.battery.voltage_V,
    ...(regenerates && { both_ways: true }),
  };
  return [
    {
      part: "breaker",
      place: null,
      count: 1,
      have: fitted,
      figures: fitted && rating_A !== null ? { current_A: rating_A } : asked,
      wanted: asked,
      margin: null,
      enough: fitted ? proven(bears(protection, "device"), round) : null,
      rule: "breaker_over_climb",
    },
    cable("battery_cable"),
    cable("motor_cable"),
    ...SWITCHES.map((name) => switchLine(name, protection, round)),
  ];
}

function switchLine(name: SwitchName, { switches }: ProtectionAnswer, round: boolean): PartLine {
  const own = switches.fitted.find((each) => each.name === name);
  const duty = name === "reverser" ? switches.motor : switches.battery;
  const carries_A = round ? lasting_A(duty) : null;
  const asked = {
    ...(carries_A !== null && { current_A: carries_A }),
    breaks_A: duty.breaks_failed_A ?? duty.breaks_A,
    voltage_V: duty.voltage_V,
  };
  const control = own?.circuit === "control";
  // An isolator in the control circuit takes the battery from nothing.
  const enough = own ? proven(own.findings.every(({ ok }) => ok) && !(control && name === "isolator"), round) : null;
  return {
    part: name,
    place: own?.stands ?? null,
    count: 1,
    have: own !== undefined,
    figures: own
      ? {
          current_A: own.rating_A,
          ...(own.breaks_A !== null && { breaks_A: own.breaks_A }),
          ...(own.voltage_V !== null && { voltage_V: own.voltage_V }),
        }
      : asked,
    // In the control circuit it is asked of the contactor that it drops; the controller turns about in its own way.
    wanted: control && name === "reverser" ? {} : asked,
    // What it carries for ever is no comfort where it cannot break the current.
    margin: own && enough && !control && carries_A !== null && carries_A > 0 ? own.rating_A / carries_A : null,
    enough,
    rule: "switch_dc",
  };
}
