import type { Chain } from "./chain.data.js";
import { pitchDiameter_m } from "./chain.js";
import { G_mps2 } from "./constants.js";

/** A chain's tight side is loaded to at most 1/6 of its breaking load (Diamond Chain; even links, none of them cranked). */
export const LEAST_MARGIN = 6;

/** Mean pull in the tight side, N: power over chain speed, 2π T / (z p). Use it for energy: no power is lost on the way. */
export const meanTension_N = (pitch_m: number, teeth: number, torque_Nm: number): number =>
  (2 * Math.PI * torque_Nm) / (teeth * pitch_m);

/** Highest pull at a steady torque, N, as the chain is drawn at its smallest radius: 2 T / (D cos(180°/z)). */
export const peakTension_N = (pitch_m: number, teeth: number, torque_Nm: number): number =>
  (2 * torque_Nm) / (pitchDiameter_m(pitch_m, teeth) * Math.cos(Math.PI / teeth));

/** How many times the tension goes into the breaking load; to be compared with LEAST_MARGIN. */
export const breakingMargin = (chain: Chain, tension_N: number): number => chain.breaking_N / tension_N;

/** Watts in a mechanical horsepower, 550 ft lbf/s. */
const HORSEPOWER_W = 745.699872;
const INCH_m = 0.0254;

/**
 * Power that a single strand carries for some 15 000 hours with good lubrication, W; undefined where nobody rates the size.
 * The lesser of two, with N teeth on the smaller sprocket turning n times a minute and the pitch p in inches:
 *
 *     fatigue of the plates      hp = K1 N^1.08 n^0.9 p^(3 - 0.07 p)
 *     wear of roller and bush    hp = 1000 K2 N^1.5 p^0.8 / n^1.5
 *
 * A maker's sheet, fr.scribd.com/doc/232681759. It gives back the printed tables of numbers 40, 41 and 50 to their rounding;
 * the newer table of number 25 lies up to 47 % above it, so for 25 and 35 it is only a safe lower bound. The 15 000 hours
 * are from memory.
 */
export function powerRating_W(chain: Chain, teeth: number, shaft_radps: number): number | undefined {
  if (!chain.rating) return undefined;
  const rpm = (shaft_radps * 30) / Math.PI;
  const pitch_in = chain.pitch_m / INCH_m;
  const plates = chain.rating.plates * teeth ** 1.08 * rpm ** 0.9 * pitch_in ** (3 - 0.07 * pitch_in);
  const rollers = (1000 * chain.rating.rollers * teeth ** 1.5 * pitch_in ** 0.8) / rpm ** 1.5;
  return Math.min(plates, rollers) * HORSEPOWER_W;
}

/** What the power is multiplied by before a chain is rated for it, driven by an electric motor (US Tsubaki, table 4.2). */
export const SERVICE_FACTOR = { smooth: 1, some_impact: 1.3, high_impact_or_reversing: 1.5 } as const;

/** Do two chains look alike without running on one another's sprockets: one pitch, but another roller? */
export const areMixedUp = (a: Chain, b: Chain): boolean => a.pitch_m === b.pitch_m && a.roller_m !== b.roller_m;

/** Slack of the slack side as it should be set, and what follows from it. */
export interface Slack {
  /** From one extreme to the other in the middle of the run, m. */
  readonly movement_m: number;
  /** How much longer the run is than straight, m: 8 s²/(3 span), s being the sag of half the movement. */
  readonly extra_m: number;
  /** Tension that the chain's own weight makes in it, N: q g span²/(8 s); a flat parabola. */
  readonly tension_N: number;
}

/** Movement of the middle as a share of the run (HKK): in general, and where it starts, stops and reverses under load. */
export const SLACK = { general: 0.04, reversing: 0.02 } as const;

/** Slack of a run near the level. */
export function slackOf(chain: Chain, span_m: number, share: number = SLACK.reversing): Slack {
  const sag_m = (share * span_m) / 2;
  return {
    movement_m: 2 * sag_m,
    extra_m: (8 * sag_m ** 2) / (3 * span_m),
    tension_N: (chain.mass_kgpm * G_mps2 * span_m ** 2) / (8 * sag_m),
  };
}
