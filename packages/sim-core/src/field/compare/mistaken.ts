/** A wheel's odometer and a phone are nearer than this; farther off it is another unit. */
export const SCALES = [0.8, 1.25] as const;
/** Units that are taken for one another, and what they are apart. */
const MISTAKEN: readonly (readonly [scale: number, words: string])[] = [
  [0.6214, "km/h read as mph, or kilometres as miles"],
  [1.6093, "mph read as km/h, or miles as kilometres"],
  [0.3048, "feet read as metres"],
  [3.2808, "metres read as feet"],
  [0.2778, "km/h read as m/s"],
  [3.6, "m/s read as km/h"],
  [0.447, "mph read as m/s"],
  [2.2369, "m/s read as mph"],
  [0.9144, "yards read as metres"],
];
export const NEAR = 0.06;

/** The units that a ratio looks like; empty where none. */
export function mistakenFor(scale: number): string {
  const found = MISTAKEN.find(([each]) => Math.abs(scale / each - 1) < NEAR);
  return found ? `; that looks like ${found[1]}` : "";
}
