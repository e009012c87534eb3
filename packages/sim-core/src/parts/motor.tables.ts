/** A row of `motor.curve.file`, at the curve's voltage: torque at the shaft, speed and current. */
export type CurveRow = readonly [torque_Nm: number, speed_radps: number, current_A: number];

/** A row of `motor.saturation.file`, at its speed: current and the e.m.f. it excites. */
export type SaturationRow = readonly [current_A: number, emf_V: number];

/** What the files that the motor names hold, in SI and in the order of their rows; absent where it names none. */
export interface MotorTables {
  readonly curve?: readonly CurveRow[];
  readonly saturation?: readonly SaturationRow[];
}
