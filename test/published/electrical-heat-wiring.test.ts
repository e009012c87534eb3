import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { root } from "../../packages/sim-core/src/numeric/roots.js";
import { createBreaker, secondsToTrip } from "../../packages/sim-core/src/parts/breaker.js";
import {
  loopGain,
  settledWinding_degC,
  windingAfter_degC,
  windingRate_Kps,
} from "../../packages/sim-core/src/parts/heat.nodes.js";
import { cable_ohm, copper_ohm, shortCircuit_A, withstand_A2s } from "../../packages/sim-core/src/parts/wiring.js";
import { type Check, checks, HOUR_s, UNROUNDED } from "./check.js";

describe("one node", () => {
  // A winding of 1 K/W on a case too heavy to warm; the minutes of the books stand as seconds, and the air is at 0 °C.
  const node = (tau: number) => ({ winding_JpK: tau, case_JpK: 1e18, windingToCase_KpW: 1, caseToAir_KpW: 1 });
  const load = (final_K: number) => ({ copper20_W: 0, brush_W: final_K, drag_W: 0 });
  const warmed = (tau: number, final_K: number, from_K: number, time: number) =>
    windingAfter_degC(node(tau), load(final_K), from_K, 0, 0, time);
  const cycled = (on: number, off: number, tauOn: number, tauOff: number, final_K: number) => {
    let peak_K = 0;
    for (let n = 0; n < 200; n++) peak_K = warmed(tauOn, final_K, warmed(tauOff, 0, peak_K, off), on);
    return peak_K;
  };
  const source = (example: string) => `Scilab textbook companion no. 2123, example ${example}`;
  checks([
    { what: "at 40 min", source: source("4.1"), got: warmed(57.7078016, 60, 0, 40), expected: 30, ...UNROUNDED },
    { what: "at 80 min", source: source("4.1"), got: warmed(57.7078016, 60, 0, 80), expected: 45, ...UNROUNDED },
    {
      what: "rate at 20 K",
      source: source("4.5"),
      got: windingRate_Kps(node(400), 52, 20, 0),
      expected: 0.08,
      ...UNROUNDED,
    },
    {
      what: "rate at 28 K",
      source: source("4.5"),
      got: windingRate_Kps(node(400), 52, 28, 0),
      expected: 0.06,
      ...UNROUNDED,
    },
    {
      what: "15 on, 25 off",
      source: source("4.7"),
      got: cycled(15, 25, 100, 140, 55),
      expected: 27.3561948,
      ...UNROUNDED,
    },
    {
      what: "30 on, 45 off",
      source: source("4.4"),
      got: cycled(30, 45, 110, 150, 50),
      expected: 27.3728796,
      ...UNROUNDED,
    },
  ]);
});

describe("copper that warms and then makes more heat", () => {
  const source = "ΔT = Rth I²R20 (1 + α (Ta - 20))/(1 - α Rth I²R20), 0.5 K/W, 1/7 ohm, worked by hand";
  const heat = { winding_JpK: 700, case_JpK: 2000, windingToCase_KpW: 0.2, caseToAir_KpW: 0.3 };
  const load = (current_A: number) => ({ copper20_W: current_A ** 2 / 7, brush_W: 0, drag_W: 0 });
  const rise_K = (current_A: number) => settledWinding_degC(heat, load(current_A), 20) - 20;
  const currentFor = (limit_degC: number) => root((i) => rise_K(i) + 20 - limit_degC, 1, 50);
  checks([
    { what: "20 A", source, got: rise_K(20), expected: 32.1853878, ...UNROUNDED },
    { what: "28 A", source, got: rise_K(28), expected: 71.8022361, ...UNROUNDED },
    { what: "28 A, resistance", source, got: copper_ohm(1 / 7, rise_K(28) + 20), expected: 0.18316897, ...UNROUNDED },
    { what: "35 A", source, got: rise_K(35), expected: 133.358735, ...UNROUNDED },
    { what: "current for 155 °C", source, got: currentFor(155), expected: 35.1404356, ...UNROUNDED },
    { what: "current for 130 °C", source, got: currentFor(130), expected: 32.7901471, ...UNROUNDED },
    {
      what: "runs away",
      source,
      got: root((i) => loopGain(heat, i ** 2 / 7) - 1, 1, 100),
      expected: 59.6853497,
      ...UNROUNDED,
    },
  ]);
});

describe("copper against temperature", () => {
  // Bird takes the coefficient at 0 °C in places; ours is at 20 °C: α20 = α0/(1 + 20 α0), R20 = R0 (1 + 20 α0).
  const from0 = (at0_ohm: number, perKelvin0_pK: number, copper_degC: number) =>
    copper_ohm(at0_ohm * (1 + 20 * perKelvin0_pK), copper_degC, perKelvin0_pK / (1 + 20 * perKelvin0_pK));
  const bird = "Bird, Electrical Circuit Theory and Technology (title from memory), problem";
  const factor = { within: 5e-3, because: "the standard's table takes 250/(230 + T), ours 0.00393 per kelvin" };
  checks([
    { what: "0 to 70 °C", source: `${bird} 3.8`, got: from0(100, 0.0043, 70), expected: 130.1, ...UNROUNDED },
    { what: "20 to 100 °C", source: `${bird} 3.11`, got: copper_ohm(10, 100, 0.004), expected: 13.2, ...UNROUNDED },
    {
      what: "20 to 90 °C, coefficient at 0 °C",
      source: `${bird} 3.13`,
      got: from0(200 / 1.08, 0.004, 90),
      expected: 252,
      within: 1e-3,
      because: "printed to three figures",
    },
    {
      what: "field coil, 15 to 45 °C",
      source: "Scilab textbook companion no. 1544, example 1.18",
      got: from0(250 / (1 + 15 * 0.00428), 0.00428, 45),
      expected: 280.163503,
      ...UNROUNDED,
    },
    ...(
      [
        [30, 0.962],
        [50, 0.893],
        [60, 0.862],
        [70, 0.833],
        [90, 0.781],
      ] as const
    ).map(([copper_degC, k]) => ({
      what: `factor to 20 °C from ${copper_degC} °C`,
      source: "IEC 60228, table of temperature factors",
      got: 1 / copper_ohm(1, copper_degC),
      expected: k,
      ...factor,
    })),
  ]);
});

describe("cables", () => {
  const awg_mm2 = (gauge: number) => (Math.PI / 4) * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2;
  const table = "IEC 60228, class 5, plain copper";
  const gauges = "American wire gauge (ASTM B258, from memory) at 17.241 ohm mm²/km (IEC 60028)";
  const worked = "resistance × length × (1 + 0.00393 ΔT), worked by hand";
  checks([
    ...(
      [
        [1.5, 13.3],
        [2.5, 7.98],
        [4, 4.95],
        [6, 3.3],
        [10, 1.91],
        [16, 1.21],
        [25, 0.78],
        [35, 0.554],
        [50, 0.386],
        [70, 0.272],
      ] as const
    ).map(([area_mm2, ohms]) => ({
      what: `${area_mm2} mm²`,
      source: table,
      got: cable_ohm(1000, area_mm2, 20),
      expected: ohms,
      ...UNROUNDED,
    })),
    ...(
      [
        [10, 3.277037],
        [6, 1.296144],
        [4, 0.815153],
        [2, 0.512655],
        [0, 0.322412],
        [-1, 0.255684],
        [-3, 0.160801],
      ] as const
    ).map(([gauge, ohms]) => ({
      what: `AWG ${gauge}`,
      source: gauges,
      got: cable_ohm(1000, awg_mm2(gauge), 20),
      expected: ohms,
      within: 4e-6,
      because: "kept to six decimals",
    })),
    { what: "25 mm², 3 m, 80 A", source: worked, got: 80 * cable_ohm(3, 25, 20), expected: 0.1872, ...UNROUNDED },
    { what: "the same at 70 °C", source: worked, got: 80 * cable_ohm(3, 25, 70), expected: 0.2239848, ...UNROUNDED },
    { what: "16 mm², 2.4 m, 40 °C", source: worked, got: cable_ohm(2.4, 16, 40), expected: 3.1322544e-3, ...UNROUNDED },
    {
      what: "short of two blocks of 2.7 mohm through it, 0.5 mohm of joints",
      source: worked,
      got: shortCircuit_A(25.4, 2 * 2.7e-3 + cable_ohm(3, 25, 20) + 0.5e-3),
      expected: 3082.52427,
      ...UNROUNDED,
    },
    {
      what: "short at the terminals",
      source: worked,
      got: shortCircuit_A(25.4, 2 * 2.7e-3),
      expected: 4703.7037,
      ...UNROUNDED,
    },
    {
      what: "measured short of two strings of golf-cart batteries",
      source: "C. Freitas, Home Power 27 (1992) p. 26",
      got: shortCircuit_A(12.6, 1.81e-3),
      expected: 6960,
      within: 5e-4,
      because: "resistance to three figures",
    },
    {
      what: "short of a 12.6 V battery of 42 mohm",
      source: "Scilab textbook companion no. 1628, example 4.8",
      got: shortCircuit_A(12.6, 0.042),
      expected: 300,
      ...UNROUNDED,
    },
    {
      what: "25 mm² in PVC",
      source: "IEC 60364-4-43, k = 115 (from memory)",
      got: withstand_A2s(25),
      expected: 8.265625e6,
      ...UNROUNDED,
    },
  ]);
});

describe("breaker and fuse", () => {
  const breaker = (rating_A: number, curve: "B" | "C" | "D" = "C") =>
    createBreaker({ breaker: { rating_A, curve } }, newNotes());
  const fuse = createBreaker({ fuse: { rating_A: 30 } }, newNotes());
  const cold = "thermal image of 1.28², 120 s: τ ln(s/(s - m²)), worked by hand";
  const times: [number, number][] = [
    [1.45, 1.5107823],
    [2, 0.5269551],
    [2.55, 0.290305],
  ];
  checks(
    times.map(
      ([multiple, taus]): Check => ({
        what: `${multiple} In`,
        source: cold,
        got: secondsToTrip(breaker(63), multiple * 63),
        expected: 120 * taus,
        within: 1e-6,
        because: "kept to seven digits",
      }),
    ),
  );

  it.each([16, 32, 63, 100])("%d A keeps to IEC 60898-1 (table of a maker's manual)", (rating_A) => {
    const b = breaker(rating_A);
    expect(secondsToTrip(b, 1.13 * rating_A)).toBe(Number.POSITIVE_INFINITY);
    expect(secondsToTrip(b, 1.45 * rating_A)).toBeLessThan(HOUR_s);
    expect(secondsToTrip(b, 2.55 * rating_A)).toBeGreaterThan(1);
    expect(secondsToTrip(b, 2.55 * rating_A)).toBeLessThan(rating_A <= 32 ? 60 : 120);
  });

  it.each([
    ["B", 3, 5],
    ["C", 5, 10],
    ["D", 10, 20],
  ] as const)("trips magnetically inside band %s of IEC 60898-1", (curve, low, high) => {
    const b = breaker(20, curve);
    expect(secondsToTrip(b, low * 20)).toBeGreaterThan(0.1);
    expect(secondsToTrip(b, high * 20)).toBeLessThan(0.1);
  });

  it("a fuse keeps to UL 248-14 (a maker's guide): carries 1.00, opens at 1.35 in an hour, at 2 in two minutes", () => {
    expect(secondsToTrip(fuse, 30)).toBe(Number.POSITIVE_INFINITY);
    expect(secondsToTrip(fuse, 1.35 * 30)).toBeLessThan(HOUR_s);
    expect(secondsToTrip(fuse, 60)).toBeLessThan(120);
  });
});
