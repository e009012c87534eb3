/** Roller chain sizes that are known here, by the numbers the trade orders them by: ISO 606 / BS 228, then ASME B29.1. */
export const CHAIN_SIZES = [
  "04B",
  "05B",
  "06B",
  "08B",
  "081",
  "10B",
  "12B",
  "25",
  "35",
  "40",
  "41",
  "50",
  "60",
] as const;

export type ChainSize = (typeof CHAIN_SIZES)[number];
