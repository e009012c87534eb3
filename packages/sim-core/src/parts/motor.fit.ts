import { linearRegression } from "simple-statistics";
import { neverFalling } from "../numeric/isotonic.js";
import { leastSquares } from "../numeric/least-squares.js";
import type { MotorFigures } from "./motor.rating.js";
import type { CurveRow } from "./motor.tables.js";

type Fit = Omit<MotorFigures, "rated">;

/** Which of the two drags may differ from 0. */
const DRAGS = [
  [1, 1],
  [1, 0],
  [0, 1],
  [0, 0],
] as const;

/**
 * The permanent magnet motor nearest to the rows: k ω + R I = V and k I - T_drag - b ω = T at every row, misses as shares
 * of the volts and of the greatest torque. Neither drag may come out below 0: of the fits with both, one or none of
 * them it is the nearest that keeps to that.
 * @param supply_V the curve's volts less the brushes'
 * @returns nothing where no resistance above 0 fits
 */
export function fitMagnet(rows: readonly CurveRow[], supply_V: number): Fit | undefined {
  const greatest_Nm = Math.max(...rows.map(([torque_Nm]) => torque_Nm));
  // Speed against current is the line V/k - (R/k) I: near enough to start from.
  const line = linearRegression(rows.map(([, speed_radps, current_A]) => [current_A, speed_radps]));
  const start_NmpA = supply_V / line.b;
  if (!(line.b > 0 && line.m < 0)) return undefined;
  const fits = DRAGS.map(([constant, perSpeed]) => {
    const places = constant + perSpeed;
    const figures = (p: Float64Array) => ({
      flux_NmpA: p[0],
      resistance_ohm: p[1],
      drag_Nm: constant ? p[2] : 0,
      dragPerSpeed_Nms: perSpeed ? p[1 + places] : 0,
    });
    const miss = (p: Float64Array, out: Float64Array) => {
      const { flux_NmpA, resistance_ohm, drag_Nm, dragPerSpeed_Nms } = figures(p);
      for (const [i, [torque_Nm, speed_radps, current_A]] of rows.entries()) {
        out[2 * i] = (flux_NmpA * speed_radps + resistance_ohm * current_A) / supply_V - 1;
        out[2 * i + 1] = (flux_NmpA * current_A - drag_Nm - dragPerSpeed_Nms * speed_radps - torque_Nm) / greatest_Nm;
      }
    };
    const start = [start_NmpA, -line.m * start_NmpA, ...Array<number>(places).fill(0)];
    const { parameters, sumOfSquares } = leastSquares(miss, start, 2 * rows.length);
    return { ...figures(parameters), sumOfSquares };
  });
  const possible = fits.filter((fit) => fit.drag_Nm >= 0 && fit.dragPerSpeed_Nms >= 0);
  const { flux_NmpA, sumOfSquares: _, ...best } = possible.reduce((a, b) => (b.sumOfSquares < a.sumOfSquares ? b : a));
  return best.resistance_ohm > 0 && flux_NmpA > 0 ? { ...best, flux: [[0, flux_NmpA]] } : undefined;
}

/**
 * A series motor without drag: flux is torque over current at each row, from nothing at 0 A, and smoothed where it would
 * fall; the resistance is the least-squares one of V - k ω = R I.
 */
export function fitSeries(rows: readonly CurveRow[], supply_V: number): Fit | undefined {
  const byCurrent = [...rows].sort((a, b) => a[2] - b[2]);
  const flux_NmpA = neverFalling(byCurrent.map(([torque_Nm, , current_A]) => torque_Nm / current_A));
  let [across, square] = [0, 0];
  for (const [i, [, speed_radps, current_A]] of byCurrent.entries()) {
    across += (supply_V - flux_NmpA[i] * speed_radps) * current_A;
    square += current_A ** 2;
  }
  if (!(across > 0)) return undefined;
  const points = byCurrent.map(([, , current_A], i) => [current_A, flux_NmpA[i]] as const);
  return { resistance_ohm: across / square, flux: [[0, 0], ...points], drag_Nm: 0, dragPerSpeed_Nms: 0 };
}
