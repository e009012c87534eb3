import { type Table, table } from "../numeric/tables.js";

export type Chemistry = "lead-acid" | "lifepo4" | "other";

interface ChemistryData {
  /** Rested volts of `restedCells` cells against state of charge. */
  readonly rested: readonly (readonly [share: number, volts: number])[];
  readonly restedCells: number;
  /** Capacity in the cold, as a share of that at 25 °C, against air temperature in °C. */
  readonly warmth: Table;
  /** Internal resistance in the cold, over that at 25 °C, against air temperature in °C. */
  readonly resistanceInAir: Table;
  /** Volts a cell, rated; and the span within which a label can be right. */
  readonly cell_V: number;
  readonly cellAtLeast_V: number;
  readonly cellAtMost_V: number;
  /** Cells in series that the key table's internal resistance is for. */
  readonly resistanceCells: number;
  /** At the volts that charging stops at it takes so many amperes for each ampere-hour that it lacks, 1/h. */
  readonly acceptance_ph: number;
}

export const CHEMISTRY: { readonly [C in "lead-acid" | "lifepo4"]: ChemistryData } = {
  "lead-acid": {
    // Discover Battery, table of open-circuit voltage and specific gravity of a 12 V block.
    rested: [
      [0, 11.89],
      [0.25, 12.06],
      [0.5, 12.24],
      [0.75, 12.45],
      [1, 12.65],
    ],
    restedCells: 6,
    // Datasheet of a 12 V 40 Ah starved valve-regulated block (Vinachem).
    warmth: table([
      [-10, 0.74],
      [10, 0.9],
      [25, 1],
      [30, 1.03],
    ]),
    // A fifth to two fifths more at 0 °C: from memory, the upper end. Colder, twice at -18 °C: TM 5-1185 has 40 % of its
    // cranking power left there, which would be 2.5 times, but counts the sag of those seconds in.
    resistanceInAir: table([
      [-18, 2],
      [0, 1.4],
      [25, 1],
    ]),
    cell_V: 2,
    cellAtLeast_V: 1.95,
    cellAtMost_V: 2.15,
    resistanceCells: 6,
    // Woodbridge's ampere-hour law of 1935: lest it gasses, no more amperes than ampere-hours are missing (manualika.com).
    acceptance_ph: 1,
  },
  lifepo4: {
    // S. Sunil, "Piecewise Battery OCV" (open data, MIT licence): a C/32 discharge and charge of one 1.2 Ah cell. Full, that
    // stands at 3.5981 V while charge still flows; after a night's rest 3.40 V (D. Burkitt, cell-monitor library, 2017, after
    // A123's and Sinopoly's data; 3.33 to 3.45 V elsewhere).
    rested: [
      [0, 2.0102],
      [0.01, 2.7019],
      [0.02, 2.8644],
      [0.05, 3.0721],
      [0.1, 3.2029],
      [0.2, 3.2413],
      [0.3, 3.2778],
      [0.4, 3.2948],
      [0.5, 3.2991],
      [0.6, 3.3032],
      [0.7, 3.3163],
      [0.8, 3.3371],
      [0.9, 3.3411],
      [0.95, 3.3429],
      [0.99, 3.3703],
      [1, 3.4],
    ],
    restedCells: 1,
    // Manual of a 24 V 25 Ah pack (UE-24Li25): "at least" figures.
    warmth: table([
      [-20, 0.7],
      [0, 0.8],
      [25, 1],
      [55, 0.95],
    ]),
    // 10 °C: a 26650 cell half charged, 1.45 times (Naumann's data in the open SimSES library). 0 and -10 °C: between 1.71
    // and 2.61 times of a small cell (SatoshiLabs' battery data) and 2.83 and 4.84 of another chemistry (R. Herbrich,
    // betteries AMPS, 2022); -20 °C: 7.85 times of the latter, taken down as much. The choice among them: ours, no source.
    resistanceInAir: table([
      [-20, 4.5],
      [-10, 3],
      [0, 2],
      [10, 1.45],
      [25, 1],
    ]),
    cell_V: 3.2,
    cellAtLeast_V: 2.95,
    cellAtMost_V: 3.4,
    resistanceCells: 4,
    // As much as its resistance lets it, nearly to the end.
    acceptance_ph: Number.POSITIVE_INFINITY,
  },
};

/** With its available well this full, the volts of a lead-acid battery under load begin to fall to the end voltage. Common practice, no source. */
export const KNEE_FILL = 0.15;

/** End voltage of a lead-acid cell discharged at its 20-hour rate: usual in datasheets. */
export const END_OF_CELL_V = 1.75;

export const HOUR_s = 3600;

/** Full, a battery takes nothing back until its available well is down to this. */
export const ROOM_FILL = 0.995;
