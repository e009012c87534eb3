import type { NotRun } from "./day.js";
import type { SupplyRow } from "./supply.js";

/** What a train wants of its loco, worked out from the train, the line, the speed and the hours alone. */
export interface SizeAnswer {
  speed_mps: number;
  duration_h: number;
  train_mass_kg: number;
  /** With all that turns, the rotor of the motor sized below included. */
  effective_mass_kg: number;
  /** As the train feels them over its own length; the second with curves counted in, whichever way it runs. */
  ruling_gradient_percent: number;
  ruling_gradient_compensated_percent: number;
  ruling_gradient_at_m: number;
  steepest_descent_percent: number;
  rail_force_level_N: number;
  /** At the plan's speed on the ruling gradient, curves counted in. */
  rail_force_ruling_N: number;
  rail_power_ruling_W: number;
  /** Steadily round the lap, pulling only; energy of one lap, out and back on an end-to-end line. */
  rail_force_mean_N: number;
  rail_force_rms_N: number;
  rail_power_rms_W: number;
  rail_energy_per_lap_Wh: number;
  /** To get moving at all on the ruling gradient, and to start away there at the plan's acceleration. */
  restart_force_N: number;
  starting_force_N: number;
  /** Turns of the motor for one of the axle. */
  ratio: number;
  gear_stages: number;
  gear_efficiency: number;
  motor_speed_rpm: number;
  motor_efficiency: number;
  /** At the shaft, all motors together. */
  motor_continuous_power_W: number;
  motor_continuous_torque_Nm: number;
  motor_peak_power_W: number;
  motor_peak_torque_Nm: number;
  /** A builders' rule to compare with. */
  rule_of_thumb_power_W: number;
  /** Null where mean current and ampere-hours are of the loco built to these figures and run here; else what ended that run. */
  day_not_run: NotRun | null;
  supplies: SupplyRow[];
  sight_m: number;
  /**
   * Steady force at the rail that stops the train within the sight distance from everywhere on this line, run as `brakes`
   * and `limits` run it, on the safe side; of a loco that cannot be built, down the steepest fall. Null where none does.
   */
  brake_force_line_N: number | null;
  /** The same by the rule, on the level and for as long as the steepest fall goes on; null where nothing does. */
  brake_force_level_N: number | null;
  brake_retardation_level_mps2: number | null;
  brake_force_descent_N: number | null;
  brake_retardation_descent_mps2: number | null;
  /** Weight on braked wheels that passes it on when the rail is wet; more than the train weighs: slower there. */
  braked_weight_wet_N: number | null;
  train_weight_N: number;
  /** On the driven axles, level. */
  adhesive_weight_N: number;
  adhesive_weight_restart_dry_N: number;
  adhesive_weight_restart_wet_N: number;
  adhesive_weight_starting_dry_N: number;
  adhesive_weight_starting_wet_N: number;
  /** Do the driven wheels grip for the restart, with the weight that pulling moves on or off them? */
  restarts_dry: boolean;
  restarts_wet: boolean;
  /** How each figure was worked out, and who says so. */
  rules: string[];
}
