import { InputError } from "../../errors.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { SWITCHES, type SwitchName } from "../../parts/switches.js";
import type { Plan } from "../../train/plan.js";
import { leastCharger } from "../charging/least.js";
import type { Finding, ProtectionAnswer } from "../protection/answer.js";
import type { SwitchDuty } from "../protection/switches.answer.js";
import type { PartFigures, PartLine } from "./answer.js";

/** From a Saturday's last train to Sunday's first, h: common practice, no source. */
const OVERNIGHT_h = 12;

/** Batteries and their charger. */
export function batteryLines(plan: Plan, { battery: own }: LocoDefinition): PartLine[] {
  const { train } = plan;
  const label_Ah = train.battery.printed_C / 3600;
  const count = (own.in_series ?? 1) * (own.in_parallel ?? 1);
  const wanted = chargerFor(plan);
  const fitted = train.charger;
  return [
    {
      part: "battery",
      place: null,
      count,
      have: true,
      figures: { voltage_V: own.each.voltage_V, capacity_Ah: label_Ah / (own.in_parallel ?? 1) },
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
          ? { current_A: wanted.current_A, voltage_V: wanted.voltage_V }
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

/** Breaker or fuse, cables, and switches. */
export function wiringLines(plan: Plan, protection: ProtectionAnswer, { wiring }: LocoDefinition): PartLine[] {
  const { recommended, findings, device, rating_A } = protection;
  const { breaker } = plan.train;
  const ok = (of: RegExp) => findings.filter(({ code }) => of.test(code)).every((each: Finding) => each.ok);
  const fitted = device !== "none";
  const cable = (part: "battery_cable" | "motor_cable"): PartLine => {
    const own = protection[part];
    const fits = ok(new RegExp(`^${part}_`));
    const length_m = wiring?.[part]?.length_m;
    const least_mm2 = recommended?.[`${part}_mm2`] ?? null;
    return {
      part,
      place: null,
      count: 1,
      have: true,
      figures: { area_mm2: own.area_mm2, ...(length_m !== undefined && { length_m }) },
      wanted: least_mm2 === null ? {} : { area_mm2: least_mm2 },
      // Of one that fails by its volts or in a stall, what it carries for ever is no comfort.
      margin: fits && own.rms_current_A !== null && own.rms_current_A > 0 ? own.carries_A / own.rms_current_A : null,
      enough: fits,
      rule: "cable_heat",
    };
  };
  const asked: PartFigures = {
    ...(recommended?.breaker_rating_A != null && { current_A: recommended.breaker_rating_A }),
    ...(recommended?.breaker_curve && { curve: recommended.breaker_curve }),
    breaks_A: protection.short_circuit.current_A,
    voltage_V: protection.switches.battery.voltage_V,
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
      enough: fitted ? ok(/^device_(?!protects)/) && breaker.kind !== "none" : null,
      rule: "breaker_over_climb",
    },
    cable("battery_cable"),
    cable("motor_cable"),
    ...SWITCHES.map((name) => switchLine(name, protection)),
  ];
}

function switchLine(name: SwitchName, { switches }: ProtectionAnswer): PartLine {
  const own = switches.fitted.find((each) => each.name === name);
  const duty = name === "reverser" ? switches.motor : switches.battery;
  const asked = askedOf(duty);
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
    wanted: own?.circuit === "control" ? {} : asked,
    // What it carries for ever is no comfort where it cannot break the current.
    margin:
      own?.findings.every(({ ok }) => ok) && own.circuit !== "control" && duty.carries_A !== null && duty.carries_A > 0
        ? own.rating_A / duty.carries_A
        : null,
    enough: own ? own.findings.every(({ ok }) => ok) : null,
    rule: "switch_dc",
  };
}

const askedOf = ({ carries_A, breaks_A, breaks_failed_A, voltage_V }: SwitchDuty) => ({
  ...(carries_A !== null && { current_A: carries_A }),
  breaks_A: breaks_failed_A ?? breaks_A,
  voltage_V,
});
