import { type EndedBy, endedBy, type Outcome } from "../../event.js";
import { lookUp } from "../../numeric/tables.js";
import type { Chemistry } from "../../parts/battery.data.js";
import type { SwitchName } from "../../parts/switches.js";
import { sound } from "../../record/sound.js";
import { createPlan } from "../../train/plan.js";
import { mostVolts_V } from "../../train/train.js";
import type { PlanFiles } from "../limits/limits.js";
import { runOnce } from "../once.js";
import type { CableAnswer, ProtectionAnswer } from "../protection/answer.js";
import { bears, lasting_A, proven } from "../protection/bears.js";

/** A thing that the power goes through, from the battery to the motor. */
export type WirePlace = "battery" | "device" | SwitchName | "controller" | "motor";

/** A station of the power on its way, and what it must bear there. */
export interface WireStation {
  place: WirePlace;
  /** Is it in the files? What is not belongs there all the same. */
  fitted: boolean;
  /** False of a switch that stands in the control circuit: what is asked is then asked of the contactor that it drops. */
  main: boolean;
  /**
   * For ever, and the most that it must break on direct current; null where it need break nothing, or nothing is known: of a
   * train that does not get round nobody knows what flows for ever.
   */
  carries_A: number | null;
  breaks_A: number | null;
  /**
   * Does what is fitted bear that? False of an isolator in the control circuit: it takes the battery from nothing. Null where
   * nothing is fitted, where nothing here judges it, or where it did in a working that did not get round.
   */
  enough: boolean | null;
}

/** Both leads of a cable, over the working. */
export interface WireCable extends CableAnswer {
  cable: "battery" | "motor";
  /** There and back; null where the file does not give it. */
  length_m: number | null;
  /** Null where it did in a working that did not get round. */
  enough: boolean | null;
}

/** The answer of `wiring`: what a sheet to connect by needs. */
export interface WiringAnswer {
  /** Of the working that the currents are of. */
  outcome: Outcome;
  ended_by: EndedBy | null;
  /** From the battery to the motor, in the order of the power. */
  path: WireStation[];
  cables: WireCable[];
  /**
   * Must something be put right before the battery is joined: what is fitted and will not do, or what is missing, but for a
   * reverser, since a controller may reverse by itself?
   */
  put_right_first: boolean;
  device: ProtectionAnswer["device"];
  rating_A: number | null;
  /** Across the battery's posts: what breaker or fuse, close to them, must break. */
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
  /** Equal motors on one shaft, and whether they stand in series in the circuit. */
  motors: number;
  motors_in_series: boolean;
  /** Braking by the motor; regenerative feeds current back into the battery. */
  electric_brake: "none" | "rheostatic" | "regenerative";
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
  const round = ran.outcome === "completed";
  const own = files.loco.battery;
  const series = own.in_series ?? 1;
  const full_V = lookUp(battery.rested, 1);
  const reserve_V = lookUp(battery.rested, battery.reserve);
  const path = pathOf(protection, round);
  const cables = (["battery", "motor"] as const).map((cable) => ({
    cable,
    ...protection[`${cable}_cable`],
    length_m: files.loco.wiring?.[`${cable}_cable`]?.length_m ?? null,
    enough: proven(bears(protection, `${cable}_cable`), round),
  }));
  return sound({
    outcome: ran.outcome,
    ended_by: round ? null : endedBy(ran.events),
    path,
    cables,
    put_right_first:
      [...path, ...cables].some(({ enough }) => enough === false) ||
      path.some(({ place, fitted }) => !fitted && place !== "reverser"),
    device: protection.device,
    rating_A: protection.rating_A,
    short_circuit_A: protection.short_circuit.at_terminals_A,
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
    motors: train.motor.count,
    motors_in_series: train.motor.count > 1 && train.motor.paths === 1,
    electric_brake: train.controller.electricBrake,
    closed_stages: train.gears.stages.filter(({ teeth }) => teeth === undefined).length,
  });
}

/** From the battery to the motor. */
function pathOf(protection: ProtectionAnswer, round: boolean): WireStation[] {
  const { device, short_circuit, battery_cable, motor_cable, switches } = protection;
  const lasting = (current_A: number | null) => (round ? current_A : null);
  const station = (place: SwitchName): WireStation => {
    const own = switches.fitted.find(({ name }) => name === place);
    const duty = place === "reverser" ? switches.motor : switches.battery;
    const main = own?.stands !== "control";
    // The controller turns about in its own way: a reverser in the control circuit drops no contactor.
    const asked = main || place !== "reverser";
    const isolates = main || place !== "isolator";
    return {
      place,
      fitted: own !== undefined,
      main,
      carries_A: asked ? lasting(lasting_A(duty)) : null,
      // A reverser is thrown at rest, and breaks nothing there.
      breaks_A: place === "reverser" ? null : (duty.breaks_failed_A ?? duty.breaks_A),
      enough: own ? proven(isolates && own.findings.every(({ ok }) => ok), round) : null,
    };
  };
  const bare = (place: WirePlace, carries_A: number | null): WireStation => ({
    place,
    fitted: true,
    main: true,
    carries_A: lasting(carries_A),
    breaks_A: null,
    enough: null,
  });
  return [
    bare("battery", battery_cable.rms_current_A),
    {
      ...bare("device", battery_cable.rms_current_A),
      fitted: device !== "none",
      breaks_A: short_circuit.at_terminals_A,
      enough: device === "none" ? null : proven(bears(protection, "device"), round),
    },
    station("isolator"),
    station("dead_man"),
    bare("controller", battery_cable.rms_current_A),
    station("reverser"),
    bare("motor", motor_cable.rms_current_A),
  ];
}
