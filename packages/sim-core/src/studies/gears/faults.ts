import { shown } from "../../errors.js";
import { FEWEST_TEETH, LEAST_WRAP_rad, MOST_RATIO, MOST_TEETH } from "../../parts/chain.js";
import { LEAST_MARGIN } from "../../parts/chain.load.js";
import type { Outcome } from "../../working.js";
import type { ChainRow } from "./chain.row.js";
import type { Restart } from "./steady.js";

/** Something wrong with a choice, in words, and a fixed code. */
export interface Fault {
  code: string;
  message: string;
}

/** It must start again at the worst place with the load it has. */
export function restartFault({ sine, ruling, limited_by, pull_N }: Restart): Fault[] {
  if (sine >= ruling) return [];
  const percent = (share: number) => shown(100 * share, "%");
  const why = limited_by === "adhesion" ? "the wheels slip" : `the motor pulls ${shown(pull_N, "N")}`;
  const most = sine < 0 ? "it does not start on the level" : `it starts on at most ${percent(sine)}`;
  const message = `${most}: ${why}; the worst place here is ${percent(ruling)} with its curves`;
  return [{ code: "no_restart", message }];
}

/** The rms of the working must be what the motor stands for ever. */
export function currentFault(rms_A: number, continuous_A: number): Fault[] {
  if (rms_A <= continuous_A) return [];
  const message = `${shown(rms_A, "A")} in the motor over the working (rms); it stands ${shown(continuous_A, "A")} for long`;
  return [{ code: "motor_current", message }];
}

export function heatFault(peak_degC: number, limit_degC: number): Fault[] {
  if (peak_degC <= limit_degC) return [];
  const message = `the winding reaches ${shown(peak_degC, "°C")}; its insulation stands ${shown(limit_degC, "°C")}`;
  return [{ code: "too_hot", message }];
}

/** Ends of a working that other gears might have spared it. */
const DEFEATS: readonly Outcome[] = ["stalled", "slipping", "tripped", "ran_away", "burnt_out"];

export function workingFault(outcome: Outcome, detail: string): Fault[] {
  if (!DEFEATS.includes(outcome)) return [];
  return [{ code: "not_completed", message: `the working ends ${outcome.replace("_", " ")}: ${detail}` }];
}

/** What is wrong with a chain, its sprockets and its layout. */
export function chainFaults(row: ChainRow, asked_m: number | undefined): Fault[] {
  const { teeth, chain } = row;
  const [driving, driven] = teeth;
  const ratio = Math.max(driving / driven, driven / driving);
  const faults: Fault[] = [];
  const fault = (code: string, found: string) => faults.push({ code, message: `${driving}/${driven}: ${found}` });
  if (Math.min(...teeth) < FEWEST_TEETH) {
    fault("few_teeth", `with fewer than ${FEWEST_TEETH} teeth a chain runs rough and wears fast`);
  }
  if (Math.max(...teeth) > MOST_TEETH) {
    fault("many_teeth", `on more than ${MOST_TEETH} teeth a worn chain climbs out`);
  }
  if (ratio > MOST_RATIO)
    fault("stage_ratio", `${shown(ratio)} to 1 in one stage; more than ${MOST_RATIO} to 1 wants two stages`);
  if (row.margin !== null && row.margin < LEAST_MARGIN) {
    const part = `1/${shown(Number(row.margin.toPrecision(2)))}`;
    fault(
      "chain_margin",
      `${shown(row.peak_tension_N, "N")} in the ${chain} chain is ${part} of its breaking load; at most 1/6`,
    );
  }
  if (row.rating_W !== null && row.rating_W < row.rating_wanted_W) {
    const wanted = shown(row.rating_wanted_W, "W");
    fault(
      "chain_rating",
      `the ${chain} chain is rated for ${shown(row.rating_W, "W")} there and should be for ${wanted}`,
    );
  }
  if (asked_m !== undefined && row.centres_m === null) {
    fault("sprockets_touch", `at ${shown(asked_m * 1000, "mm")} between centres the sprockets touch`);
  } else if (row.wrap_deg !== null && row.wrap_deg * (Math.PI / 180) < LEAST_WRAP_rad) {
    const least = shown(row.least_centres_m * 1000, "mm");
    fault(
      "little_wrap",
      `the chain wraps the small sprocket by ${shown(row.wrap_deg)}°; ${shown(LEAST_WRAP_rad * (180 / Math.PI))}° takes ${least} between centres`,
    );
  }
  return faults;
}

/** A sprocket on the axle must stay within the wheel, or it fouls the rail. */
export function belowRail({ teeth: [driving, driven], driven_across_m }: ChainRow, radius_m: number): Fault[] {
  if (driven_across_m < 2 * radius_m) return [];
  const sizes = `${shown(driven_across_m * 1000, "mm")} across with its chain, in a ${shown(2000 * radius_m, "mm")} wheel`;
  const message = `${driving}/${driven}: the sprocket on the axle is ${sizes}: it hangs below the rail`;
  return [{ code: "below_rail", message }];
}
