import { OUTING_sd as sd } from "../../doubt/book.js";
import type { Assumed } from "../../errors.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import type { Train } from "../../train/train.js";
import {
  fluxTimes,
  gripTimes,
  lossTimes,
  massTimes,
  turningTimes,
  withBattery_ohm,
  withCable_ohm,
  withResistance,
  withRested,
} from "./changes.js";
import { both, type Machine } from "./machine.js";
import type { Told } from "./setting.js";

/** A figure of the machine that is not known exactly. */
export interface Doubt {
  readonly name: string;
  /** The machine with it off by `z` standard deviations. */
  readonly apply: (m: Machine, z: number) => Machine;
  /** Does it change what laps of the plan take of battery and motor, so as to be seen? */
  readonly onLaps: boolean;
}

/** Standard deviations of a sound machine's figures, as shares. */
export interface Sureness {
  readonly rolling: number;
  readonly drag: number;
  readonly winding: number;
  readonly flux: number;
  readonly battery: number;
  readonly losses: number;
  readonly rested: { readonly above: number; readonly below: number };
  /** Of the day: the lever's place as a share, the wind in m/s, the gradient of the stretch called level. */
  readonly lever: number;
  readonly wind_mps: number;
  readonly level: number;
}

/**
 * How well the figures of a sound machine are known: better where the files give them, worse where they are assumed.
 * All of it common practice, no source; the sheet's bands follow from it.
 * @param assumed what the files left out
 */
export function surenessOf(assumed: readonly Assumed[], loco: LocoDefinition, told: Told = {}): Sureness {
  const ratedByPlate = loco.motor.nameplate !== undefined;
  const guessed = (key: string) => (assumed.some((each) => each.key === key) ? 1 : 0);
  return {
    rolling: sd.rolling[guessed("loco.resistance.rolling")],
    drag: sd.drag[guessed("loco.motor.nameplate.no_load_current")],
    winding: sd.winding[ratedByPlate ? 1 : 0],
    flux: sd.flux[ratedByPlate ? 1 : 0],
    battery: sd.battery[guessed("loco.battery.each.resistance")],
    losses: sd.losses[guessed("loco.gears.1.efficiency")],
    // Sealed lead-acid rests 0.1 to 0.3 V a battery higher than wet, full (makers' sheets, from memory).
    rested: { above: loco.battery.each.rested_voltage === undefined ? 0.008 : 0.003, below: 0.004 },
    lever: told.lever === undefined ? 0.05 : 0.03,
    wind_mps: told.wind_mps === undefined ? 1.5 : 0.7,
    level: told.place_m === undefined ? 0.0015 : 0.0007,
  };
}

/** Everything that is in doubt of a sound machine; standard deviations that stand here are common practice, no source, too. */
export function doubtsOf(sure: Sureness): Doubt[] {
  const { rolling, drag, winding, flux, battery, losses } = sure;
  return [
    share("rolling resistance", rolling, (t, by) =>
      withResistance(t, (r) => ({
        rolling: r.rolling * by,
        rolling_spm: r.rolling_spm * by,
        breakaway: r.breakaway * by,
      })),
    ),
    share(
      "what it takes to start, over what it takes to roll",
      sd.starting,
      (t, by) => withResistance(t, (r) => ({ breakaway: Math.max(r.rolling, r.breakaway * by) })),
      false,
    ),
    share("motor's resistance", winding, (t, by) => ({
      ...t,
      motor: { ...t.motor, resistance20_ohm: t.motor.resistance20_ohm * by },
    })),
    share("motor's flux", flux, fluxTimes),
    share("motor's drag", drag, (t, by) => ({
      ...t,
      motor: { ...t.motor, drag_Nm: t.motor.drag_Nm * by, dragPerSpeed_Nms: t.motor.dragPerSpeed_Nms * by },
    })),
    share("losses of chains and gears", losses, lossTimes),
    share("battery's resistance", battery, (t, by) => withBattery_ohm(t, t.battery.resistance_ohm * by)),
    share("battery's cable and joints", sd.cable, (t, by) => withCable_ohm(t, t.batteryCable_ohm * by)),
    share("motor's cable, joints and controller", sd.cable, (t, by) => ({
      ...t,
      motorPath_ohm: t.motorPath_ohm * by,
      motorCable_ohm: t.motorCable_ohm * by,
      controller: { ...t.controller, on_ohm: t.controller.on_ohm * by },
    })),
    share("mass", sd.mass, massTimes),
    share("grip", sd.grip, (t, by) => gripTimes(t, by), false),
    share(
      "brake force",
      sd.brake,
      (t, by) => ({
        ...t,
        brakes: t.brakes.map((b) => ({ ...b, rim_N: b.rim_N * by, shaft_N: b.shaft_N * by, axle_N: b.axle_N * by })),
      }),
      false,
    ),
    share("turning masses", sd.turning, turningTimes),
    share("air resistance", sd.air, (t, by) => ({ ...t, airFactor: t.airFactor * by })),
    share("motor's cooling", sd.cooling, (t, by) => ({
      ...t,
      heat: {
        ...t.heat,
        windingToCase_KpW: t.heat.windingToCase_KpW * by,
        caseToAir_KpW: t.heat.caseToAir_KpW * by,
      },
    })),
    {
      name: "charge",
      onLaps: true,
      apply: (m, z) => ({ ...m, charge: Math.min(1, Math.max(0.01, m.charge + m.chargeOff_sd * z)) }),
    },
    {
      name: "rested volts at a charge",
      onLaps: true,
      apply: (m, z) =>
        both(m, (t) => withRested(t, (volts) => volts * (1 + (z > 0 ? sure.rested.above : sure.rested.below) * z))),
    },
    { name: "level stretch", onLaps: false, apply: (m, z) => ({ ...m, level: m.level + sure.level * z }) },
    { name: "steepest place", onLaps: false, apply: (m, z) => ({ ...m, steep: m.steep + 0.0014 * z }) },
    { name: "wind", onLaps: false, apply: (m, z) => ({ ...m, wind_mps: m.wind_mps + sure.wind_mps * z }) },
    leverAt("stands", 0.03),
    leverAt("held", 0.08),
    leverAt("run", sure.lever),
    {
      name: "what an open output shows",
      onLaps: false,
      apply: (m, z) => ({ ...m, openShows: Math.min(1, Math.max(0, m.openShows + 0.35 * z)) }),
    },
  ];
}

const share = (name: string, sd: number, change: (train: Train, by: number) => Train, onLaps = true): Doubt => ({
  ...{ name, onLaps },
  apply: (m, z) => both(m, (train) => change(train, Math.exp(sd * z))),
});

const leverAt = (where: keyof Machine["leverOff"], sd: number): Doubt => ({
  name: `lever, ${where}`,
  onLaps: false,
  apply: (m, z) => ({ ...m, leverOff: { ...m.leverOff, [where]: m.leverOff[where] + sd * z } }),
});
