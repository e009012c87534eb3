import type { SteelName } from "../parts/shaft.keys.js";

/** Least yield (ReH or Rp0.2) and least tensile strength, Pa. */
export interface Strength {
  readonly yield_Pa: number;
  readonly ultimate_Pa: number;
}

/** A steel as its standard has it: thinner is stronger, each row up to a diameter and that included. */
export interface Steel {
  readonly standard: string;
  readonly source: string;
  readonly rows: readonly (Strength & { readonly upTo_m: number })[];
}

const MPa = 1e6;

/** @param rows diameter up to, mm; yield and tensile strength, N/mm² */
const steel = (standard: string, source: string, rows: readonly (readonly [number, number, number])[]): Steel => ({
  standard,
  source,
  rows: rows.map(([upTo_mm, yield_MPa, ultimate_MPa]) => ({
    upTo_m: upTo_mm / 1000,
    yield_Pa: yield_MPa * MPa,
    ultimate_Pa: ultimate_MPa * MPa,
  })),
});

const HOT_ROLLED = "table 7 of EN 10025-2, as readle.co.uk reproduces it";
const DRAWN = "EN 10277, from memory";
const SAARSTAHL = "EN 10083, as Saarstahl's sheet of this steel prints it";

/** Beyond the last row a bar is thicker than anything here, and counts as the last. */
export const STRENGTHS: Readonly<Record<SteelName, Steel>> = {
  S235JR: steel("EN 10025-2", HOT_ROLLED, [
    [16, 235, 360],
    [40, 225, 360],
    [100, 215, 360],
  ]),
  S275JR: steel("EN 10025-2", HOT_ROLLED, [
    [16, 275, 410],
    [40, 265, 410],
    [63, 255, 410],
    [80, 245, 410],
    [100, 235, 410],
  ]),
  S355J2: steel("EN 10025-2", HOT_ROLLED, [
    [16, 355, 470],
    [40, 345, 470],
    [63, 335, 470],
    [80, 325, 470],
    [100, 315, 470],
  ]),
  "S235JRC+C": steel("EN 10277", DRAWN, [
    [10, 355, 470],
    [16, 300, 420],
    [40, 260, 390],
    [63, 235, 380],
    [100, 215, 360],
  ]),
  "11SMn30+C": steel("EN 10277", "EN 10277, as Lucefin's technical card of this steel prints it", [
    [10, 440, 510],
    [16, 410, 490],
    [40, 375, 460],
    [63, 305, 400],
    [100, 245, 360],
  ]),
  "C45+N": steel("EN ISO 683-1", SAARSTAHL, [
    [16, 340, 620],
    [100, 305, 580],
    [250, 275, 560],
  ]),
  "C45+C": steel("EN 10277", DRAWN, [
    [10, 565, 750],
    [16, 500, 710],
    [40, 410, 650],
    [63, 360, 630],
    [100, 310, 580],
  ]),
  "C45+QT": steel("EN ISO 683-1", SAARSTAHL, [
    [16, 490, 700],
    [40, 430, 650],
    [100, 370, 630],
  ]),
  "42CrMo4+QT": steel("EN ISO 683-2", SAARSTAHL, [
    [16, 900, 1100],
    [40, 750, 1000],
    [100, 650, 900],
    [160, 550, 800],
    [250, 500, 750],
  ]),
};

/** What a bar of this steel stands at a diameter. */
export function strengthAt({ rows }: Steel, diameter_m: number): Strength {
  return rows.find(({ upTo_m }) => diameter_m <= upTo_m) ?? rows[rows.length - 1];
}

/**
 * The least diameter of a bar that is weaker the thicker it is, m: in each range of sizes what its own strength wants, if
 * that lies in the range.
 * @param wanted_m the diameter that a strength wants
 */
export function leastOf(steel: Steel, wanted_m: (strength: Strength) => number): number {
  let above_m = 0;
  for (const row of steel.rows) {
    const diameter_m = Math.max(above_m, wanted_m(row));
    if (diameter_m <= row.upTo_m) return diameter_m;
    above_m = row.upTo_m;
  }
  return wanted_m(steel.rows[steel.rows.length - 1]);
}
