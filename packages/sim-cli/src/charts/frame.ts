import { KMH_mps, MPH_mps } from "@rideon/sim-core";

/** Room for figures to the left of a picture. */
export const LABEL_columns = 7;
export const MPS_PER = { mph: MPH_mps, "km/h": KMH_mps } as const;
