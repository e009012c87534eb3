/** A row of a maker's data sheet: the direct current that a contact may switch, at so many volts. */
export type RatedAt = readonly [voltage_V: number, current_A: number];

/**
 * What a data sheet says of a contact on direct current at some volts: the row of the next volts listed, on the safe side;
 * null above the last. Nothing is read off between two rows. An arc that goes out by itself at 30 V burns on at 110 V, and
 * where between these it begins to stand depends on the gap: of ten amperes at 30 V a third of one is left.
 */
export const ratedAt_A = (rows: readonly RatedAt[], voltage_V: number): number | null =>
  rows.find(([listed_V]) => listed_V >= voltage_V)?.[1] ?? null;

/** 10 A at 250 V of alternating current; on direct current, resistive: data sheet of a limit switch, Omron D4MC. */
export const LIMIT_SWITCH = {
  ac: [250, 10],
  dc: [
    [8, 10],
    [14, 10],
    [30, 6],
    [125, 0.5],
    [250, 0.25],
  ],
} as const satisfies { ac: RatedAt; dc: readonly RatedAt[] };
