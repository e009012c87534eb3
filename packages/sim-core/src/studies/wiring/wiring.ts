import type { EndedBy, Outcome } from "../../event.js";
import { lookUp } from "../../numeric/tables.js";
import type { Chemistry } from "../../parts/battery.data.js";
import type { SwitchName } from "../../parts/switches.js";
import { sound } from "../../record/sound.js";
import { createPlan } from "../../train/plan.js";
import { mostVolts_V } from "../../train/train.js";
import type { PlanFiles } from "../limits/limits.js";
import { runOnce } from "../once.js";
import type { CableAnswer, ProtectionAnswer } from "../protection/answer.js";

/** A thing that the power goes through, from the battery to the motor. */
export type WirePlace = "battery" | "device" | SwitchName | "controller" | "motor";

/** A station of the power on its way, and what it must bear there. */
export interface WireStation {
  place: WirePlace;
  /** Is it in the files? What is not belongs there all the same. */
  fitted: boolean;
  /** False of a switch that stands in the control circuit. */
  main: boolean;
  /** For ever, and the most that it must break on direct current; null where it need break nothing, or nothing is known. */
  carries_A: number | null;
  breaks_A: number | null;
  /** Does what is fitted bear that? Null where nothing is, or where nothing here judges it. */
  enough: boolean | null;
}

/** Both leads of a cable, over the working. */
export interface WireCable extends CableAnswer {
  cable: "battery" | "motor";
  /** There and back; null where the file does not give it. */
  length_m: number | null;
  enough: boolean;
}

/** The answer of `wiring`: what a sheet to connect by needs. */
export interface WiringAnswer {
  /** Of the working that the currents are of. */
  outcome: Outcome;
  ended_by: EndedBy | null;
  /** From the battery to the motor, in the order of the power. */
  path: WireStation[];
  cables: WireCable[];
  device: ProtectionAnswer["device"];
  rating_A: number | null;
  /** What breaker or fuse must break. */
  short_circuit_A: number;
  /** Rested, full and at the reserve: between these a voltmeter stands; of the whole battery and of each. */
  full_V: number;
  reserve_V: number;
  each_full_V: number;
  each_reserve_V: number;
  in_series: number;
  in_parallel: number;
  /** The most that anything in the battery's circuit sees. */
  highest_V: number;
  /** Lamps, horn and what the controller takes standing. */
  standing_A: number;
  chemistry: Chemistry;
  motor: "permanent-magnet" | "series";
  /** Closed gearboxes between motor and axle: whether they turn the other way is not known. */
  closed_stages: number;
}

/**
 * How the loco is wired, and what every part of it must carry, break and show: by the working of the plan.
 * @throws InputError, RunError
 */
export function wiring(files: PlanFiles): WiringAnswer {
  const plan = createPlan(files.plan, files.loco, files.track, files.tables);
  const { train } = plan;
  const { battery } = train;
  const ran = runOnce(plan);
  const { protection } = ran;
  const ending = ran.events.findLast((event) => "by" in event) as { by?: EndedBy } | undefined;
  const own = files.loco.battery;
  const series = own.in_series ?? 1;
  const full_V = lookUp(battery.rested, 1);
  const reserve_V = lookUp(battery.rested, battery.reserve);
  return sound({
    outcome: ran.outcome,
    ended_by: ran.outcome === "completed" ? null : (ending?.by ?? null),
    path: pathOf(protection),
    cables: (["battery", "motor"] as const).map((cable) => ({
      cable,
      ...protection[`${cable}_cable`],
      length_m: files.loco.wiring?.[`${cable}_cable`]?.length_m ?? null,
      enough: protection.findings.filter(({ code }) => code.startsWith(`${cable}_cable_`)).every(({ ok }) => ok),
    })),
    device: protection.device,
    rating_A: protection.rating_A,
    short_circuit_A: protection.short_circuit.current_A,
    full_V,
    reserve_V,
    each_full_V: full_V / series,
    each_reserve_V: reserve_V / series,
    in_series: series,
    in_parallel: own.in_parallel ?? 1,
    highest_V: mostVolts_V(train),
    standing_A: train.standing_A,
    chemistry: battery.chemistry,
    motor: train.motor.kind,
    closed_stages: train.gears.stages.filter(({ teeth }) => teeth === undefined).length,
  });
}

/** From the battery to the motor. */
function pathOf({
  device,
  findings,
  short_circuit,
  battery_cable,
  motor_cable,
  switches,
}: ProtectionAnswer): WireStation[] {
  const devices = findings.filter(({ code }) => code.startsWith("device_") && code !== "device_protects_stalled_motor");
  const station = (place: SwitchName): WireStation => {
    const own = switches.fitted.find(({ name }) => name === place);
    const duty = place === "reverser" ? switches.motor : switches.battery;
    const main = own?.stands !== "control";
    return {
      place,
      fitted: own !== undefined,
      main,
      carries_A: main ? duty.carries_A : null,
      // A reverser is thrown at rest, and breaks nothing there.
      breaks_A: main && place !== "reverser" ? (duty.breaks_failed_A ?? duty.breaks_A) : null,
      enough: own ? own.findings.every(({ ok }) => ok) : null,
    };
  };
  const bare = (place: WirePlace, carries_A: number | null): WireStation => ({
    place,
    fitted: true,
    main: true,
    carries_A,
    breaks_A: null,
    enough: null,
  });
  return [
    bare("battery", battery_cable.rms_current_A),
    {
      place: "device",
      fitted: device !== "none",
      main: true,
      carries_A: battery_cable.rms_current_A,
      breaks_A: short_circuit.current_A,
      enough: device === "none" ? null : devices.every(({ ok }) => ok),
    },
    station("isolator"),
    station("dead_man"),
    bare("controller", battery_cable.rms_current_A),
    station("reverser"),
    bare("motor", motor_cable.rms_current_A),
  ];
}
