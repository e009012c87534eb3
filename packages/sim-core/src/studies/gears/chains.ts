import { USUAL_CHAIN } from "../../parts/chain.data.js";
import type { Gears } from "../../parts/gears.js";
import { type ChainRow, chainRow } from "./chain.row.js";
import { belowRail, chainFaults, type Fault } from "./faults.js";

/** What a drive has to carry, at the driven rims and at the motor. */
export interface Duty {
  running_N: number;
  running_mps: number;
  /** Most that motor and grip can bring to the rims. */
  hardest_N: number;
  rated_W: number;
  rated_radps: number;
  radius_m: number;
}

/** Every chain of a drive under its duty, and what is wrong with it. */
export function chainsOf(gears: Gears, duty: Duty): { chains: ChainRow[]; faults: Fault[] } {
  const chains: ChainRow[] = [];
  const faults: Fault[] = [];
  const toMotor = duty.radius_m / (gears.ratio * gears.efficiency);
  let speedUp = gears.ratio;
  let passed = 1;
  gears.stages.forEach((stage, i) => {
    if (stage.teeth) {
      const shaft = {
        running_Nm: duty.running_N * toMotor * passed,
        hardest_Nm: duty.hardest_N * toMotor * passed,
        running_radps: (duty.running_mps * speedUp) / duty.radius_m,
        rated_radps: (duty.rated_radps * speedUp) / gears.ratio,
      };
      const row = chainRow(stage.teeth, stage.chain ?? USUAL_CHAIN, stage.centres_m, shaft, duty.rated_W);
      chains.push(row);
      faults.push(...chainFaults(row, stage.centres_m));
      if (i === gears.stages.length - 1) faults.push(...belowRail(row, duty.radius_m));
    }
    speedUp /= stage.ratio;
    passed *= stage.ratio * stage.efficiency;
  });
  return { chains, faults };
}
