import { hours, life_Mrev, lifeExponent, ratingFor_N, turns_Mrev } from "../../strength/bearing.js";
import type { ShaftBearing } from "./answer.js";
import type { LaidShaft } from "./layout.js";
import type { Worked } from "./working.js";

/** The more loaded bearing: its life under the working, or the rating that it wants for a life. */
export function bearingOf(
  { shaft }: LaidShaft,
  worst_load_N: number,
  { turned_rad, worn }: Worked,
  time_s: number,
  wanted_life_h: number,
): ShaftBearing {
  const { type, rating_N, spacing_m } = shaft.bearings;
  const mean_speed_radps = time_s > 0 ? turned_rad / time_s : 0;
  const mean_load_N = turned_rad > 0 ? (worn / turned_rad) ** (1 / lifeExponent(type)) : null;
  const loaded = mean_load_N !== null && mean_load_N > 0 && mean_speed_radps > 0;
  const life = loaded && rating_N !== null ? life_Mrev(rating_N, mean_load_N, type) : null;
  return {
    spacing_m,
    type,
    worst_load_N,
    mean_load_N,
    mean_speed_radps,
    rating_N,
    life_Mrev: life,
    life_h: life === null ? null : hours(life, mean_speed_radps),
    wanted_life_h,
    rating_wanted_N: loaded ? ratingFor_N(mean_load_N, turns_Mrev(wanted_life_h, mean_speed_radps), type) : null,
  };
}
