import { mean } from "simple-statistics";

/** A reading that has both. */
interface Load {
  readonly current_A: number | null;
  readonly voltage_V: number | null;
}

/** Volts against amps, straight; from one load through the rested volts. */
export function lineOf(loads: readonly Load[], rested_V: number | null): { ohm: number; rms: number } | null {
  const points = loads.map(({ current_A, voltage_V }) => [current_A as number, voltage_V as number] as const);
  if (points.length === 1 && rested_V !== null) return { ohm: (rested_V - points[0][1]) / points[0][0], rms: 0 };
  if (points.length < 2) return null;
  const [i, v] = [mean(points.map(([each]) => each)), mean(points.map(([, each]) => each))];
  const spread = points.reduce((sum, [each]) => sum + (each - i) ** 2, 0);
  const slope = points.reduce((sum, [amps, volts]) => sum + (amps - i) * (volts - v), 0) / spread;
  const off = points.map(([amps, volts]) => volts - v - slope * (amps - i));
  return { ohm: -slope, rms: Math.sqrt(mean(off.map((each) => each * each))) };
}
