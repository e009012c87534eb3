import { G_mps2 } from "../../parts/constants.js";
import type { BrakeSet } from "./sets.js";

export type DecelerationCode = "standing_recovers" | "standing_transit" | "standing_steps" | "seated";

/** What people aboard were found to stand, and which sets of brakes ask more of them somewhere. */
export interface DecelerationLimit {
  code: DecelerationCode;
  limit_mps2: number;
  source: string;
  exceeded_by: BrakeSet[];
}

/** Published; from gentle to hard. */
const LIMITS: readonly Omit<DecelerationLimit, "exceeded_by">[] = [
  {
    code: "standing_recovers",
    limit_mps2: 1.0,
    source:
      "standing volunteers on a sled recovered without stepping at 1.0 m/s² (abstract at discovery.researcher.life)",
  },
  {
    code: "standing_transit",
    limit_mps2: 2.44,
    source: "8 ft/s², most for standing passengers of transit (TxDOT Roadway Design Manual 22.3.4)",
  },
  {
    code: "standing_steps",
    limit_mps2: 2.5,
    source: "the same volunteers had to step at 2.5 m/s²",
  },
  {
    code: "seated",
    limit_mps2: 0.36 * G_mps2,
    source:
      "0.36 g: 84 % of people seated facing forward, unbelted, kept their seats (Jacobs et al., Proc. HFES 24, 1980)",
  },
];

/** @param peaks the hardest retardation of each set of brakes */
export const decelerationLimits = (peaks: ReadonlyMap<BrakeSet, number>): DecelerationLimit[] =>
  LIMITS.map((limit) => ({
    ...limit,
    exceeded_by: [...peaks].filter(([, peak_mps2]) => peak_mps2 > limit.limit_mps2).map(([set]) => set),
  }));
