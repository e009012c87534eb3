/** Room for figures to the left of a picture. */
export const LABEL_columns = 7;
export const MPS_PER = { mph: 0.44704, "km/h": 1 / 3.6 } as const;
