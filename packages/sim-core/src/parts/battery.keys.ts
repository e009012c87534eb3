import { CP, derived, fixed, taken } from "../defaults.js";
import type { Keys } from "../keys.js";

const HOUR = 3600;
const AH = HOUR;

export const batteryKeys = {
  chemistry: {
    kind: "choice",
    choices: ["lead-acid", "lifepo4"],
    meaning: "chemistry; for any other give each.rested_voltage",
  },
  in_series: {
    kind: "count",
    min: 1,
    max: 40,
    meaning: "batteries in series",
    default: fixed(1, { range: "exact", source: "one unless told" }),
    usual: [1, 16],
  },
  in_parallel: {
    kind: "count",
    min: 1,
    max: 20,
    meaning: "strings in parallel",
    default: fixed(1, { range: "exact", source: "one unless told" }),
    usual: [1, 6],
  },
  each: {
    kind: "map",
    required: true,
    meaning: "one battery as bought; in_series and in_parallel multiply",
    oneOf: [{ of: ["capacity", "kinetic"], required: true }],
    keys: {
      voltage: {
        kind: "quantity",
        dimension: "voltage",
        min: 0.5,
        max: 1000,
        required: true,
        meaning: "nominal voltage",
        example: "12 V",
        usual: [2, 80],
      },
      cells: {
        kind: "count",
        min: 1,
        max: 400,
        meaning: "cells in series inside it",
        example: "6",
        default: derived(
          { leadAcid_V: 2, lifepo4In12V: 4 },
          {
            range: { leadAcid_V: "exact", lifepo4In12V: "exact" },
            words: ({ leadAcid_V, lifepo4In12V }) =>
              `lead-acid volts / ${leadAcid_V}; lifepo4 ${[1, 2, 3, 4].map((n) => `${12 * n} V ${lifepo4In12V * n}`).join(", ")}`,
            source: "2 V and 3.2 V cells: common practice, no source",
          },
        ),
        usual: [1, 24],
      },
      capacity: {
        kind: "capacity",
        min: 360,
        max: 3.6e8,
        meaning: "capacity, as one figure or at several hour rates, at 25 °C",
        example: "75 Ah or { 20 h: 75 Ah, 5 h: 64 Ah, 1 h: 45 Ah }",
        usual: [2 * AH, 600 * AH],
      },
      peukert: {
        kind: "number",
        min: 1,
        max: 2,
        meaning: "Peukert exponent, with one rate only",
        default: derived(1.2, {
          range: [1.05, 1.6],
          words: (exponent) => `${exponent} for lead-acid`,
          source: "flooded 1.2 to 1.6, AGM 1.05 to 1.15: battery suppliers' figures",
        }),
        example: "1.2",
        usual: [1, 1.6],
      },
      kinetic: {
        kind: "map",
        meaning: "the two wells given",
        keys: {
          capacity: {
            kind: "quantity",
            dimension: "charge",
            min: 36,
            max: 3.6e8,
            required: true,
            meaning: "charge in both wells",
            example: "85 Ah",
            usual: [2 * AH, 900 * AH],
          },
          available_share: {
            kind: "number",
            min: 0.01,
            max: 1,
            required: true,
            meaning: "share of it in the available well",
            example: "0.4",
            usual: [0.05, 0.95],
          },
          exponent_rate: {
            kind: "quantity",
            dimension: "rate",
            min: 0,
            max: 1,
            required: true,
            meaning: "exponent rate at which the wells level",
            example: "0.9 1/h",
            usual: [0.05 / HOUR, 20 / HOUR],
          },
        },
      },
      rested_voltage: {
        kind: "voltage_table",
        meaning: "rested volts against state of charge",
        // Sealed lead-acid rests 0.1 to 0.3 V a battery higher than wet, full (makers' sheets, from memory).
        default: taken("by chemistry", {
          range: [0.992, 1.016],
          source:
            "lead-acid: a battery maker's table; lifepo4: a C/32 test of a cell (open data), full 3.40 V a cell after a night's rest (D. Burkitt's collection)",
        }),
        example: "[[0, 11.9 V], [0.5, 12.2 V], [1, 12.7 V]]",
        usual: [1, 110],
      },
      resistance: {
        kind: "quantity",
        dimension: "resistance",
        min: 1e-6,
        max: 100,
        meaning: "internal resistance at 25 °C; cold raises it by chemistry, lead-acid 1.4 and lifepo4 2 times at 0 °C",
        // Lead-acid: 0.16 to 0.54 ohm Ah in the datasheets of 12 V blocks of 7 to 200 Ah. Lithium iron phosphate with the
        // management: at most 2 ohm Ah in one 12.8 V, and 1 in one 24 V pack's datasheet. The choice: common practice.
        default: derived(
          { "lead-acid": 0.3, lifepo4: 1 },
          {
            range: { "lead-acid": [0.16, 0.54], lifepo4: [0.5, 2] },
            words: (ohmAh) =>
              `lead-acid ${ohmAh["lead-acid"]} ohm Ah / capacity per 12 V; lifepo4 with its management ${ohmAh.lifepo4} ohm Ah / capacity per 12.8 V`,
            source: "span of makers' figures: common practice, no source",
          },
        ),
        example: "6 mohm",
        usual: [0.0002, 0.3],
      },
      polarisation: {
        kind: "map",
        meaning: "slow part of the voltage drop",
        keys: {
          resistance: {
            kind: "quantity",
            dimension: "resistance",
            min: 1e-6,
            max: 10,
            required: true,
            meaning: "polarisation resistance",
            example: "4 mohm",
            usual: [0.0001, 0.5],
          },
          time: {
            kind: "quantity",
            dimension: "time",
            min: 0.1,
            max: 1e6,
            required: true,
            meaning: "time constant",
            example: "60 s",
            usual: [1, 3600],
          },
        },
      },
    },
  },
  health: {
    kind: "number",
    min: 0.01,
    max: 1.2,
    meaning: "share of the label's capacity left",
    default: fixed(1, { range: [0.7, 1.05], source: "as new unless told" }),
    example: "80 %",
    usual: [0.3, 1.1],
  },
  use_down_to: {
    kind: "number",
    min: 0,
    below: 1,
    meaning: "the reserve: share of the charge to keep",
    default: derived(
      { "lead-acid": 0.5, lifepo4: 0.2 },
      {
        range: { "lead-acid": "exact", lifepo4: "exact" },
        words: (kept) => `${kept["lead-acid"]} lead-acid, ${kept.lifepo4} lifepo4`,
        source: "battery suppliers' advice on depth of discharge",
      },
    ),
    example: "50 %",
    usual: [0, 0.8],
  },
  protection: {
    kind: "map",
    meaning: "a lithium battery's own cut-off, for the whole battery",
    keys: {
      current: {
        kind: "quantity",
        dimension: "current",
        min: 0.1,
        max: 10000,
        meaning: "battery current above which it disconnects",
        example: "100 A",
        usual: [5, 1000],
      },
      delay: {
        kind: "quantity",
        dimension: "time",
        min: 0,
        max: 3600,
        meaning: "how long current or voltage must stay beyond its limit",
        default: fixed(2, { range: [0.1, 5], source: CP }),
        example: "2 s",
        usual: [0.005, 60, "or 0"],
      },
      low_voltage: {
        kind: "quantity",
        dimension: "voltage",
        min: 0.1,
        max: 2000,
        meaning: "volts below which it disconnects",
        example: "20 V",
        usual: [2, 100],
      },
      high_voltage: {
        kind: "quantity",
        dimension: "voltage",
        min: 0.1,
        max: 2000,
        meaning: "volts above which it disconnects",
        example: "29.2 V",
        usual: [3, 130],
      },
    },
  },
  charger: {
    kind: "map",
    meaning: "the charger, for the whole battery",
    keys: {
      current: {
        kind: "quantity",
        dimension: "current",
        min: 0.01,
        max: 10000,
        required: true,
        meaning: "most current it gives",
        example: "10 A",
        usual: [0.5, 100],
      },
      voltage: {
        kind: "quantity",
        dimension: "voltage",
        min: 0.5,
        max: 2000,
        required: true,
        meaning: "volts it goes up to and holds",
        example: "28.8 V",
        usual: [3, 130],
      },
    },
  },
} as const satisfies Keys;
