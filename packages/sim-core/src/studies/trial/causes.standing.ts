import type { Train } from "../../train/train.js";
import type { Cause, Variant } from "./causes.kinds.js";
import { ALONE, evenly } from "./causes.ranges.js";
import { dragged, driveDragged } from "./changes.js";
import { both, type Look, type Machine, type Open } from "./machine.js";
import type { Setting } from "./setting.js";

// What keeps a loco from moving at all: something that holds it fast, or a circuit that is open. Each way has its look.

/** Someone whose train does not move leaves the lever anywhere from here to full. */
const LEAST_LEVER = 0.08;
const LEVERS = 7;

/** More than any drive here pulls: the driven wheels cannot turn, N at the rims. */
const JAMMED_N = 1e6;

/**
 * On the day it does not move nobody has had time for the battery either: one time in five it is far down (no source), and
 * that is no reason to blame it.
 */
const NEGLECTED = { weight: 0.2, down: 0.4, sd: 0.15 };

/** A way with the battery as the plan has it, and the same with it far down. */
export const orNeglected = (way: Variant): Variant[] => {
  const { weight = 1, apply } = way;
  const neglected = (m: Machine): Machine => {
    const charge = Math.max(2 * NEGLECTED.sd, m.charge - NEGLECTED.down);
    return { ...m, charge, chargeOff_sd: NEGLECTED.sd };
  };
  return [
    { ...way, weight: weight * (1 - NEGLECTED.weight) },
    { ...way, weight: weight * NEGLECTED.weight, apply: (m, size) => apply(neglected(m), size) },
  ];
};

export function standingCauses({ machine: { train, inSeries }, told }: Setting): Cause[] {
  const levers = told.lever === undefined ? evenly(LEAST_LEVER, 1, LEVERS) : [told.lever];
  const held = (where: string, amiss: Look, weight: number, hold: (m: Machine) => Machine): Variant => ({
    ...{ where, weight, sizes: levers },
    apply: (m, leftAt) => ({ ...hold(m), leftAt, amiss }),
  });
  const blocked = (m: Machine): Machine => ({ ...m, blocked: true });
  const open = (where: string, at: Open, amiss?: Look, weight = 1): Variant => ({
    ...{ where, weight, sizes: ALONE },
    apply: (m) => ({ ...m, open: at, amiss }),
  });
  const isBraked = (on: (vehicle: number) => boolean) => train.brakes.some(({ vehicle }) => on(vehicle));
  return [
    {
      cause: "held_wheel",
      unit: "none",
      // Chocks and brakes are left on oftener than wheels jam: common practice, no source, as the weights below.
      variants: [
        held("chocks left under the wheels", "look_chocks", 3, blocked),
        held("something under a wheel", "look_clear", 2, blocked),
        ...(isBraked((v) => v === 0) ? [held("the loco's brake left on", "look_brake", 3, locoBraked)] : []),
        ...(isBraked((v) => v > 0) ? [held("a brake left on a car", "look_brake", 2, carsBraked)] : []),
        held("the driven wheels cannot turn", "look_clear", 2, (m) => driveDragged(m, JAMMED_N)),
      ].flatMap(orNeglected),
    },
    {
      cause: "open_circuit",
      unit: "none",
      variants: [
        open("at the isolator", "battery", "look_isolator"),
        ...(train.breaker.kind === "none" ? [] : [open(`at the ${train.breaker.kind}`, "battery", "look_breaker")]),
        open(`between ${inSeries > 1 ? "the batteries" : "battery"} and controller`, "battery"),
        open("at the dead-man's switch", "control", "look_dead_man"),
        open("at the reverser", "control", "look_reverser"),
        open("at the lever, or in the controller", "control", "look_lever"),
        open("between controller and motor", "motor"),
        open("in the motor, at its brushes", "brushes"),
      ].flatMap(orNeglected),
    },
  ];
}

/** The loco's own brakes on, on its driven axles and its others. */
function locoBraked(m: Machine): Machine {
  const own = m.train.brakes.filter(({ vehicle }) => vehicle === 0);
  const rims_N = own.reduce((sum, { rim_N }) => sum + rim_N, 0);
  const axles_N = own.reduce((sum, { axle_N }) => sum + axle_N, 0);
  return both(driveDragged(m, rims_N), (t) => dragged(t, slid_N(t, t.loco, axles_N), t.loco));
}

/** The brakes of every car that has one on. */
function carsBraked(m: Machine): Machine {
  const on = (t: Train, vehicle: number) =>
    t.brakes.filter((b) => b.vehicle === vehicle).reduce((sum, { axle_N }) => sum + axle_N, 0);
  const cars = m.train.vehicles.map((_, v) => v).filter((v) => v !== m.train.loco);
  return { ...m, train: cars.reduce((t, v) => dragged(t, slid_N(t, v, on(t, v)), v), m.train) };
}

/** A brake that would lock its wheels drags no harder than these slide. */
const slid_N = ({ adhesion, brakedAxles_N }: Train, vehicle: number, brake_N: number): number =>
  Math.min(brake_N, adhesion.sliding * (brakedAxles_N[vehicle] ?? 0));
