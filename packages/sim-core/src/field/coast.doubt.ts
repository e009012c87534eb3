import { G_mps2 } from "../parts/constants.js";
import type { Fit } from "./coast.fit.js";
import { meanSquare_m2ps2, type Run } from "./coast.run.js";

/**
 * What rolling resistance is in doubt by, nineteen in twenty, each by itself and as a share of weight. Together they are their
 * root sum of squares (JCGM 100:2008, 5.1.2).
 */
export interface CoastDoubts {
  /** How unlike pairs of runs are. */
  pairs: number;
  /** Of what turns. */
  turning: number;
  /** Of speedometer, or tape and watch. */
  instrument: number;
  /** Of a slope that is not as even as was taken, or of the profile. */
  slope: number;
  /** Of the air: wind, and all of it where the runs cannot tell it. */
  air: number;
  /** Of the drag that was taken off. */
  drag: number;
}

/** From light wheels to heavy ones and a drive in mesh, 1.02 to 1.10: common practice, no source. */
export const TURNING = { factor: 1.05, doubt: 0.04 / 1.05 } as const;
/** A wheel's counter or a phone, as a balance's 3 %; marks by a tape, passed by a watch: common practice, no source. */
const INSTRUMENT = { speed: 0.03, marks: 0.01 } as const;
/** Where no profile is told, mean slopes of the two ways may differ by twice this: common practice, no source. */
const UNEVEN = 0.001;
/** A day that is called calm has light air, up to Beaufort 1 (World Meteorological Organization: 0.3 to 1.5 m/s). */
const WIND_mps = 1.5;
/** Of a light train, retardation with the square of the speed: 0.7 m² before 200 kg. */
const LIGHT_pm = 0.002;
/** A motor's drag is known to a quarter: common practice, no source. */
const DRAG = 0.25;
/** Common practice, no source: one pair on another day is so much off, nineteen in twenty. */
const ONE_PAIR = 0.2;

interface Known {
  readonly rotating: number;
  /** Share of the factor. */
  readonly turning: number;
  readonly dragged: number;
  /** Of the slope; undefined where nothing is known of it. */
  readonly slope?: number | undefined;
  /** The plan's air, 1/m; undefined without a plan. */
  readonly air_pm?: number | undefined;
  /** Half-width by the pairs, m/s²; NaN of one pair. */
  readonly pairs_mps2: number;
  readonly air_told: boolean;
}

/**
 * Along the line a wind w is met as v + w one way and v - w the other: in the mean of both as v² + w², so that it adds the same
 * at every speed.
 */
export function coastDoubts(runs: readonly Run[], best: Fit, known: Known): CoastDoubts {
  const { rotating, turning, dragged, slope = UNEVEN, air_pm = LIGHT_pm, pairs_mps2, air_told } = known;
  const share = (of_mps2: number) => (rotating * of_mps2) / G_mps2;
  const whole = Math.abs(share(best.a0));
  const speed_m2ps2 = runs.reduce((sum, run) => sum + meanSquare_m2ps2(run), 0) / runs.length;
  const marked = runs.every(({ rows }) => rows[0].speed_mps === null);
  return {
    // One pair says nothing of how unlike the next would be.
    pairs: Number.isNaN(pairs_mps2) ? ONE_PAIR * Math.abs(whole - dragged) : share(pairs_mps2),
    turning: turning * whole,
    instrument: (marked ? INSTRUMENT.marks : INSTRUMENT.speed) * whole,
    slope,
    air: share((air_told ? best.a2 : air_pm) * (WIND_mps ** 2 + (air_told ? 0 : speed_m2ps2))),
    drag: DRAG * dragged,
  };
}
