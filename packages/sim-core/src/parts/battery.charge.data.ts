import type { Range } from "../defaults.js";
import type { Chemistry } from "./battery.data.js";

/** What charging a chemistry comes to. */
export interface ChargeData {
  /** Ampere-hours put back for each that was taken out, and where that lies in nine batteries of ten. */
  readonly factor: number;
  readonly factorRange: Range;
  /** At the charger's volts it takes so many amperes for each ampere-hour that it lacks, 1/h; Infinity: any. */
  readonly acceptance_ph: number;
  /** Counted as full from this share of the label on. */
  readonly fullShare: number;
  /** It is full, too, where its current at the limit of volts has fallen to this, for each ampere-hour of the label, 1/h. */
  readonly cut_ph: number;
  /** Near full a cell stands so much higher while charge still flows than after a rest. */
  readonly rise_V: number;
  /** Volts of a cell that a charger goes up to: unless told, and the least and the most of data sheets. */
  readonly cell_V: number;
  readonly cellAtLeast_V: number;
  readonly cellAtMost_V: number;
  /** Most current for each ampere-hour of the label, 1/h. */
  readonly most_ph: number;
}

export const CHARGE: { readonly [C in Exclude<Chemistry, "other">]: ChargeData } = {
  "lead-acid": {
    // Flooded 1.1 to 1.2: 1.11 of a textbook's ampere-hour efficiency of 0.9 (FOSSEE companion 2138, example 9.7), 1.18 of the
    // 0.85 that another gives (thegrandparadise.com); a maker's 1.10 (remcobattery.com). Sealed 1.02 to 1.05 (velapower.com).
    factor: 1.15,
    factorRange: [1.03, 1.2],
    // At a tenth of the capacity some 80 % goes in before the volts are reached, and the rest takes up to 8 h (manuals of
    // Victron's IP22 and IP67 chargers): 20 Ah at 10 A, of which 0.5/h brings in 19 in 7 h. Woodbridge's law of 1935, no more
    // amperes than ampere-hours are missing lest it gasses (manualika.com), has 1/h: the most, which chargers stay below.
    acceptance_ph: 0.5,
    // The last hundredth goes in ever more slowly, and no charger waits for it: common practice, no source.
    fullShare: 0.99,
    cut_ph: 0,
    rise_V: 0,
    // 2.40 V in the instructions of a maker of sealed blocks (fjdouble.com); from 2.30 V of gel to 2.50 V of wet ones: common
    // practice, no source.
    cell_V: 2.4,
    cellAtLeast_V: 2.3,
    cellAtMost_V: 2.5,
    // 25 % as advised, 30 % at most (Fullriver, AGM).
    most_ph: 0.3,
  },
  lifepo4: {
    factor: 1,
    factorRange: "exact",
    acceptance_ph: Number.POSITIVE_INFINITY,
    fullShare: 1,
    // Charged to 3.65 V and until 0.05 C (data sheet of a 304 Ah cell, EVE).
    cut_ph: 0.05,
    // Full it stands at those 3.65 V with next to no current left, and at 3.40 V after a night (the table of rested volts): so
    // the taper ends there, and sooner with a charger of fewer volts. At C/32 one cell stood at 3.598 V at the end of a test
    // that stopped there (S. Sunil, "Piecewise Battery OCV"). Chargers for lithium may hold their volts for half an hour more
    // to level the cells (Victron, IP22 manual): not counted.
    rise_V: 0.25,
    cell_V: 3.65,
    cellAtLeast_V: 3.45,
    cellAtMost_V: 3.65,
    // 0.5 C from 25 to 50 °C in ordinary use (manual of a 48 V 50 Ah pack, Alpha APL48-50LFP).
    most_ph: 0.5,
  },
};

/** Of a chemistry that is not known nothing is known of its charging: it takes back what was taken, and is cut like lithium. */
const UNKNOWN: ChargeData = {
  factor: 1,
  factorRange: [1, 1.2],
  acceptance_ph: Number.POSITIVE_INFINITY,
  fullShare: 1,
  cut_ph: 0.05,
  rise_V: 0,
  cell_V: Number.NaN,
  cellAtLeast_V: Number.NaN,
  cellAtMost_V: Number.NaN,
  most_ph: Number.POSITIVE_INFINITY,
};

export const chargeDataOf = (chemistry: Chemistry): ChargeData => (chemistry === "other" ? UNKNOWN : CHARGE[chemistry]);

/** From this share of the label up a lithium cell's volts rise by `rise_V`. */
export const RISE_FROM = 0.99;

/**
 * Most current that a lithium iron phosphate battery is charged with, for each ampere-hour, by the temperature of its cells:
 * none below 0 °C, and 0.1 C below 10 °C in ordinary use (Alpha APL48-50LFP, table 4.3; a second guide, atoallinks.com, has
 * at most 0.2 C there and none below 0 °C). From 10 to 25 °C that table has 0.2 C in ordinary use and 1 C in haste: 0.5 C as
 * above lies between.
 */
export const lithiumMost_ph = (cell_degC: number): number =>
  cell_degC <= 0 ? 0 : cell_degC < 10 ? 0.1 : cell_degC <= 50 ? 0.5 : cell_degC <= 60 ? 0.1 : 0;

/** Below this lead-acid takes charge back more slowly than at 25 °C: common practice, and no figure for it was found. */
export const LEAD_ACID_COLD_degC = 10;
