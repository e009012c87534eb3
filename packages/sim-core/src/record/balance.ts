import { energy_J } from "../parts/battery.js";
import { heightAreaTo_m2 } from "../parts/track.js";
import * as at from "../state.js";
import type { Working } from "../working.js";

/**
 * The whole working's books, J. What the battery's chemistry gave up went into losses, which only grow, and into motion
 * and height, which come back. Drawn and returned are the battery's terminals, never netted.
 */
export interface EnergyBalance {
  drawn_J: number;
  returned_J: number;
  chemical_J: number;
  battery_recovery_J: number;
  battery_knee_J: number;
  battery_polarisation_J: number;
  battery_polarisation_stored_J: number;
  battery_resistance_J: number;
  battery_cable_J: number;
  standing_J: number;
  controller_J: number;
  motor_cable_J: number;
  copper_J: number;
  brushes_J: number;
  motor_drag_J: number;
  gears_J: number;
  slip_J: number;
  brake_resistor_J: number;
  brakes_J: number;
  rolling_J: number;
  curves_J: number;
  air_J: number;
  kinetic_train_J: number;
  kinetic_rim_J: number;
  potential_J: number;
  /** Lifted by hand: vehicles that changed places at the end of a line. */
  shifted_J: number;
  /** What is left unexplained, as a share of the energy drawn; where more than that changed hands, of the turnover. */
  residual_share: number;
}

/**
 * What changes hands is taken as this at least, or a share of it would be a share of nothing: what moves a train by a step,
 * and, for the sake of rounding, a small share of what a huge battery holds.
 */
const LEAST_J = 100;
const LEAST_SHARE = 1e-7;

/** Height energy of the whole train, each vehicle at the mean height of its length, J. */
export function potential_J(w: Pick<Working, "train" | "track" | "y">): number {
  const { train, track } = w;
  const head_m = w.y[at.POSITION];
  let sum_J = 0;
  for (let i = 0; i + 1 < train.ends_m.length; i++) {
    const area_m2 =
      heightAreaTo_m2(track, head_m - train.ends_m[i]) - heightAreaTo_m2(track, head_m - train.ends_m[i + 1]);
    sum_J += train.gravity_Npm[i] * area_m2;
  }
  return sum_J;
}

/** Begins new books under way: all that was written is gone, and the working is looked at from here. */
export function reopenBooks(w: Working): void {
  const { y, start, plan } = w;
  y.fill(0, at.RUN);
  start.set(y);
  w.shifted_J = potential_J(w) - potential_J({ train: plan.train, track: plan.track, y });
}

/** The books of a working from its start, or from where they were opened anew. */
export function energyBalance(w: Working): EnergyBalance {
  const { plan, train, start, y } = w;
  const { battery } = train;
  const held_J = energy_J(battery, start[at.AVAILABLE], start[at.BOUND]);
  const chemical_J = held_J - energy_J(battery, y[at.AVAILABLE], y[at.BOUND]);
  const rim_mps = w.mode.wheels === 0 ? y[at.SPEED] : y[at.RIM_SPEED];
  const terms = {
    battery_recovery_J: y[at.RECOVERY],
    battery_knee_J: y[at.KNEE],
    battery_polarisation_J: y[at.POLARISATION_LOSS],
    battery_polarisation_stored_J:
      0.5 * battery.polarisation_ohm * battery.polarisation_s * (y[at.POLARISATION] ** 2 - start[at.POLARISATION] ** 2),
    battery_resistance_J: battery.resistance_ohm * y[at.BATTERY_SQUARE],
    battery_cable_J: train.batteryCable_ohm * y[at.BATTERY_SQUARE],
    standing_J: y[at.STANDING],
    controller_J: train.controller.on_ohm * y[at.MOTOR_SQUARE],
    motor_cable_J: train.motorCable_ohm * y[at.MOTOR_SQUARE],
    copper_J: y[at.COPPER],
    brushes_J: y[at.BRUSHES],
    motor_drag_J: y[at.MOTOR_DRAG],
    gears_J: y[at.GEARS],
    slip_J: y[at.SLIP],
    brake_resistor_J: y[at.BRAKE_RESISTOR],
    brakes_J: y[at.BRAKES],
    rolling_J: y[at.ROLLING],
    curves_J: y[at.CURVES],
    air_J: y[at.AIR],
    kinetic_train_J: 0.5 * train.translating_kg * (y[at.SPEED] ** 2 - start[at.SPEED] ** 2),
    kinetic_rim_J: 0.5 * train.rim_kg * (rim_mps ** 2 - start[at.RIM_SPEED] ** 2),
    potential_J: potential_J(w) - potential_J({ train: plan.train, track: plan.track, y: start }) - w.shifted_J,
    shifted_J: w.shifted_J,
  };
  const amounts_J = Object.values({ ...terms, shifted_J: 0 });
  const explained_J = amounts_J.reduce((sum, amount_J) => sum + amount_J, 0);
  // Every joule is counted twice: where it comes from, and where it goes.
  const turnover_J = amounts_J.reduce((sum, amount_J) => sum + Math.abs(amount_J), Math.abs(chemical_J)) / 2;
  return {
    drawn_J: y[at.DRAWN],
    returned_J: y[at.RETURNED],
    chemical_J,
    ...terms,
    residual_share: (chemical_J - explained_J) / Math.max(y[at.DRAWN], turnover_J, LEAST_J, LEAST_SHARE * held_J),
  };
}
