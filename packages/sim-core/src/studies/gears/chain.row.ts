import { CHAINS } from "../../parts/chain.data.js";
import {
  centresFor_m,
  centresForWrap_m,
  chainDiameter_m,
  chainSpeed_mps,
  chordalVariation,
  evenLinks,
  linksFor,
  span_m,
  touchingCentres_m,
  wrap_rad,
} from "../../parts/chain.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import {
  breakingMargin,
  meanTension_N,
  peakTension_N,
  powerRating_W,
  SERVICE_FACTOR,
  slackOf,
} from "../../parts/chain.load.js";
import type { Pair } from "./choices.js";

/** One chain of a choice. What hangs on the centre distance is null where the loco file does not give it. */
export interface ChainRow {
  teeth: Pair;
  chain: ChainSize;
  /** Running at the wanted speed on the level: mean speed, and mean tension of the tight side. */
  chain_speed_mps: number;
  mean_tension_N: number;
  /** Pulling its hardest, as at a restart: as the smallest radius draws it. */
  peak_tension_N: number;
  /** Breaking load over that tension. */
  margin: number | null;
  /** Share by which the chain's speed falls as each link climbs on the smaller sprocket. */
  chordal_variation: number;
  /** What it is rated for at the motor's rated speed, and what it must be: rated power times the service factor. */
  rating_W: number | null;
  rating_wanted_W: number;
  /** Room that the driven sprocket takes, across the chain on it. */
  driven_across_m: number;
  /** For 120° of wrap, and so that the sprockets clear. */
  least_centres_m: number;
  wrap_deg: number | null;
  links: number | null;
  /** At which the links lie straight. */
  centres_m: number | null;
  /** Movement to set in the middle of the slack side, how much longer than straight that is, and the tension it makes. */
  slack_m: number | null;
  slack_extra_m: number | null;
  slack_tension_N: number | null;
}

/** Torque and speed of the shaft that drives a chain. */
export interface Shaft {
  running_Nm: number;
  hardest_Nm: number;
  running_radps: number;
  rated_radps: number;
}

export function chainRow(
  teeth: Pair,
  size: ChainSize,
  asked_m: number | undefined,
  shaft: Shaft,
  rated_W: number,
): ChainRow {
  const chain = CHAINS[size];
  const { pitch_m } = chain;
  const [driving, driven] = teeth;
  const small = Math.min(driving, driven);
  const peak_N = peakTension_N(pitch_m, driving, shaft.hardest_Nm);
  return {
    teeth,
    chain: size,
    chain_speed_mps: chainSpeed_mps(pitch_m, driving, shaft.running_radps),
    mean_tension_N: meanTension_N(pitch_m, driving, shaft.running_Nm),
    peak_tension_N: peak_N,
    margin: peak_N > 0 ? breakingMargin(chain, peak_N) : null,
    chordal_variation: chordalVariation(small),
    // Geared down, the small sprocket is the driving one.
    rating_W: powerRating_W(chain, small, (shaft.rated_radps * driving) / small) ?? null,
    rating_wanted_W: rated_W * SERVICE_FACTOR.high_impact_or_reversing,
    driven_across_m: chainDiameter_m(pitch_m, driven),
    least_centres_m: Math.max(centresForWrap_m(pitch_m, teeth), touchingCentres_m(pitch_m, teeth)),
    ...layout(teeth, size, asked_m),
  };
}

/** What follows from the centre distance: the links nearest to it, and the drive that they make. */
function layout(teeth: Pair, size: ChainSize, asked_m: number | undefined) {
  const chain = CHAINS[size];
  const { pitch_m } = chain;
  if (asked_m === undefined || asked_m < touchingCentres_m(pitch_m, teeth)) {
    return {
      wrap_deg: null,
      links: null,
      centres_m: null,
      slack_m: null,
      slack_extra_m: null,
      slack_tension_N: null,
    };
  }
  const links = evenLinks(linksFor(pitch_m, teeth, asked_m));
  const centres_m = centresFor_m(pitch_m, teeth, links);
  const slack = slackOf(chain, span_m(pitch_m, teeth, centres_m));
  return {
    wrap_deg: (wrap_rad(pitch_m, teeth, centres_m) * 180) / Math.PI,
    links,
    centres_m,
    slack_m: slack.movement_m,
    slack_extra_m: slack.extra_m,
    slack_tension_N: slack.tension_N,
  };
}
