import { root } from "../numeric/roots.js";

/**
 * The shape of a chain drive: two sprockets with a chain round them. Pitches in m, angles in rad. A chain lies on its
 * sprocket as a polygon, so its links are counted by the share of the sprocket they wrap, never by the arc of the pitch circle.
 */

/** Teeth of both sprockets, either way round. */
export type Teeth = readonly [number, number];

/** Fewest teeth (below, the chain runs rough and wears fast) and most (above, a worn chain climbs the teeth). */
export const FEWEST_TEETH = 9;
export const MOST_TEETH = 120;
/** Makers advise at least this many teeth even at low speed (Diamond Chain: 12 slow, 17 medium, 25 high speed). */
export const ADVISED_TEETH = 12;
/** The greatest ratio of one stage; above it makers ask for two. */
export const MOST_RATIO = 7;
/** Least wrap on the small sprocket, rad: 120° (HKK, Diamond Chain); below 90° the chain jumps teeth. */
export const LEAST_WRAP_rad = (2 * Math.PI) / 3;

/** Pitch diameter, the circle through the pin centres: D = p / sin(180°/z). */
export const pitchDiameter_m = (pitch_m: number, teeth: number): number => pitch_m / Math.sin(Math.PI / teeth);

/** Diameter over the teeth, about: Do = p (0.6 + cot(180°/z)), from sprocket catalogues. */
export const outsideDiameter_m = (pitch_m: number, teeth: number): number =>
  pitch_m * (0.6 + 1 / Math.tan(Math.PI / teeth));

/** The circle at the bottom of the teeth, where the rollers sit: df = D - d1 (ISO 606). */
export const rootDiameter_m = (pitch_m: number, roller_m: number, teeth: number): number =>
  pitchDiameter_m(pitch_m, teeth) - roller_m;

/** Room that a sprocket takes with its chain on it: the plates stand half a pitch, about, outside the pitch circle (from memory). */
export const chainDiameter_m = (pitch_m: number, teeth: number): number => pitchDiameter_m(pitch_m, teeth) + pitch_m;

/** Mean speed of the chain, m/s: v = z p n, n in turns a second. */
export const chainSpeed_mps = (pitch_m: number, teeth: number, shaft_radps: number): number =>
  (teeth * pitch_m * shaft_radps) / (2 * Math.PI);

/**
 * How far the chain's speed falls below its highest as each link climbs on: 1 - cos(180°/z), since the radius it is drawn
 * at swings between R and R cos(180°/z).
 */
export const chordalVariation = (teeth: number): number => 1 - Math.cos(Math.PI / teeth);

/** Half the difference of the pitch diameters: how much a straight run closes in. */
const closing_m = (pitch_m: number, [a, b]: Teeth): number =>
  Math.abs(pitchDiameter_m(pitch_m, a) - pitchDiameter_m(pitch_m, b)) / 2;

/**
 * Links round two sprockets, not yet a whole number: L = 2 C cos α / p + z1 (1/2 - α/π) + z2 (1/2 + α/π) with
 * sin α = (D2 - D1) / (2 C). The textbooks' L = 2C + (z1 + z2)/2 + ((z2 - z1)/2π)²/C is its first terms.
 * NaN where the centres are closer than the sprockets could ever be.
 */
export function linksFor(pitch_m: number, teeth: Teeth, centres_m: number): number {
  const angle = Math.asin(closing_m(pitch_m, teeth) / centres_m);
  const small = Math.min(...teeth);
  const large = Math.max(...teeth);
  const wrapped = small * (1 / 2 - angle / Math.PI) + large * (1 / 2 + angle / Math.PI);
  return (2 * centres_m * Math.cos(angle)) / pitch_m + wrapped;
}

/** The nearest even number of links: an odd one needs a cranked link, which is weaker. */
export const evenLinks = (links: number): number => 2 * Math.round(links / 2);

/**
 * The centre distance at which that many links lie straight, neither slack nor tight, m.
 * @throws RangeError if the chain is too short to go round the sprockets at all
 */
export function centresFor_m(pitch_m: number, teeth: Teeth, links: number): number {
  const least_m = Math.max(closing_m(pitch_m, teeth), pitch_m / 2);
  if (!(linksFor(pitch_m, teeth, least_m) < links)) {
    throw new RangeError(`${links} links do not go round ${teeth.join(" and ")} teeth`);
  }
  return root((centres_m) => linksFor(pitch_m, teeth, centres_m) - links, least_m, links * pitch_m, 1e-12);
}

/** Angle over which the chain wraps the smaller sprocket, rad: 180° - 2 asin((D2 - D1) / (2 C)). */
export const wrap_rad = (pitch_m: number, teeth: Teeth, centres_m: number): number =>
  Math.PI - 2 * Math.asin(closing_m(pitch_m, teeth) / centres_m);

/** The centre distance that gives a wrap on the smaller sprocket, m; for 120° it is D2 - D1. */
export const centresForWrap_m = (pitch_m: number, teeth: Teeth, wrap = LEAST_WRAP_rad): number =>
  closing_m(pitch_m, teeth) / Math.sin((Math.PI - wrap) / 2);

/** Nearer than this the teeth of the two sprockets touch, m. */
export const touchingCentres_m = (pitch_m: number, [a, b]: Teeth): number =>
  (outsideDiameter_m(pitch_m, a) + outsideDiameter_m(pitch_m, b)) / 2;

/** Length of the straight run between the sprockets, m. */
export const span_m = (pitch_m: number, teeth: Teeth, centres_m: number): number =>
  Math.sqrt(centres_m ** 2 - closing_m(pitch_m, teeth) ** 2);
