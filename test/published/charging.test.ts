import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { type ChargeData, chargeDataOf } from "../../packages/sim-core/src/parts/battery.charge.data.js";
import { chargeFrom, passes_s } from "../../packages/sim-core/src/parts/battery.charge.js";
import {
  airWanted_m3ph,
  freeVolume_m3,
  gassing_Ap100Ah,
  hydrogen_m3pC,
  openings_cm2,
} from "../../packages/sim-core/src/parts/battery.gas.js";
import { createBattery } from "../../packages/sim-core/src/parts/battery.js";
import { checks, HOUR_s, UNROUNDED } from "./check.js";

const block = (capacity_Ah: number, chemistry: "lead-acid" | "lifepo4" = "lead-acid") =>
  createBattery(
    { chemistry, each: { voltage_V: 12, capacity: [{ capacity_C: capacity_Ah * HOUR_s }] } },
    25,
    newNotes(),
  );

/** A 12 V block at 25 °C, charged to the usual volts of its chemistry. */
const charged = (
  capacity_Ah: number,
  current_A: number,
  from: number,
  data: ChargeData = chargeDataOf("lead-acid"),
  chemistry: "lead-acid" | "lifepo4" = "lead-acid",
) => {
  const charge = chargeFrom(
    block(capacity_Ah, chemistry),
    data,
    { current_A, voltage_V: chemistry === "lead-acid" ? 14.4 : 14.2 },
    from,
  );
  const last = charge.moments.at(-1)!;
  return {
    charge,
    last,
    hours: last.time_s / HOUR_s,
    tapers_h: charge.tapers_s / HOUR_s,
    given_Ah: charge.given_C / HOUR_s,
  };
};

describe("constant current and then an exponential taper, in closed form", () => {
  /**
   * 100 Ah from one half at 10 A up to 80 %, and then 10 e^(-t/k) A down to 1 A with exactly the missing 20 Ah: k = 20 Ah/9 A.
   * The same as a battery that takes 0.45 A for each missing Ah and wants 2.222 Ah more than it is given: 10 A at 22.222 Ah.
   */
  const missing = 50 + 20 / 9;
  const law = (efficiency: number): ChargeData => ({
    ...chargeDataOf("lead-acid"),
    factor: 1 / efficiency,
    acceptance_ph: 0.45,
    fullShare: 1,
    cut_ph: 0.01,
  });
  const got = (efficiency: number) => charged(100, 10, 1 - missing / 100, law(efficiency)).hours;
  const source = "constant current and exponential taper, worked in closed form";
  // The steps are a minute, and change the current by a hundredth at most: midpoint rule, some 1e-5.
  const steps = { within: 1e-4, because: "by steps of a hundredth of the current" };
  checks([
    { what: "Ah efficiency 1", source, got: got(1), expected: 8.1169, ...steps },
    { what: "Ah efficiency 0.9 throughout", source, got: got(0.9), expected: 9.0188, ...steps },
    {
      // A flat battery at 10 A: 80 % by constant current; 20 to 1 Ah by 0.5/h; each times the factor of 1.15.
      what: "our own law, flat to 99 %",
      source,
      got: charged(100, 10, 0).hours,
      expected: 1.15 * (8 + 2 * Math.log(20)),
      ...steps,
    },
    {
      what: "and to 90 %",
      source,
      got: passes_s(charged(100, 10, 0).charge, 0.9) / HOUR_s,
      expected: 1.15 * (8 + 2 * Math.log(2)),
      ...steps,
    },
    { what: "ampere-hours given", source, got: charged(100, 10, 0.5).given_Ah, expected: 1.15 * 49, ...UNROUNDED },
  ]);

  it("constant current alone: 82 Ah, 40 % out, 20 A, efficiency 80 % take 2.05 h (Xantrex, Truecharge 20+ guide, prints 2 h)", () => {
    // The print leaves the taper out: what it gives is how long the current would last.
    const whole = { ...chargeDataOf("lead-acid"), factor: 1 / 0.8, acceptance_ph: 1e9, fullShare: 1 };
    const { hours } = charged(82, 20, 0.6, whole);
    expect(hours).toBeCloseTo(2.05, 6);
    expect(Math.round(hours)).toBe(2);
    // With its taper the battery is far from full by then.
    expect(charged(82, 20, 0.6).hours).toBeGreaterThan(3 * hours);
  });

  it("and 800 Ah, half out, 100 A, 0.8 take 5 h (toyotaforklift-battery.com, formula worked)", () => {
    const whole = { ...chargeDataOf("lead-acid"), factor: 1 / 0.8, acceptance_ph: 1e9, fullShare: 1 };
    expect(charged(800, 100, 0.5, whole).hours).toBeCloseTo(5, 6);
  });
});

describe("hours to full as makers print them", () => {
  // Victron's two examples contradict their own definition of bulk, as the part below 80 %: read by it they end sooner than
  // printed. Between the two readings lies all that they say. They are what the acceptance is chosen by.
  it.each([
    ["Victron IP67 manual, section 3.4: 100 Ah flat, 10 A", 100, 10, 16, 18],
    ["Victron IP22 manual, section 3.5: 220 Ah flat, 30 A", 220, 30, (0.8 * 220) / 30 + 8, 15.3],
  ])("%s", (_, ah, amps, least_h, most_h) => {
    const { hours } = charged(ah, amps, 0);
    // Half an hour on either side: the second has no taper before 73 %, where the print counts the current from 80 %.
    expect(hours).toBeGreaterThanOrEqual(least_h - 0.5);
    expect(hours).toBeLessThanOrEqual(most_h);
  });

  it("sealed, half out at a tenth: out/A and 3 to 5 h, or 6 to 10 h after a slow discharge (velapower.com)", () => {
    const { hours } = charged(100, 10, 0.5);
    expect(hours).toBeGreaterThanOrEqual(5 + 3);
    expect(hours).toBeLessThanOrEqual(5 + 10);
  });

  it("sealed, flat, 0.1 C and 2.40 V a cell at 25 °C: all that was taken is back within 24 h (fjdouble.com, section 5.1)", () => {
    const { charge } = charged(100, 10, 0);
    expect(charge.moments.at(-1)!.time_s).toBeLessThan(24 * HOUR_s);
    expect(charge.given_C).toBeGreaterThan(0.99 * 100 * HOUR_s);
  });

  it("lithium: over 95 % in at the start of absorption, and half an hour more (Victron IP22 manual, section 3.5)", () => {
    const { charge, hours, tapers_h } = charged(100, 20, 0.2, chargeDataOf("lifepo4"), "lifepo4");
    const atTaper = charge.moments.find(({ time_s }) => time_s >= charge.tapers_s)!;
    expect(charge.endedBy).toBe("current");
    expect(atTaper.share).toBeGreaterThan(0.95);
    expect(hours - tapers_h).toBeLessThanOrEqual(0.5);
    // Cut at C/20 (data sheet of a 304 Ah cell, EVE).
    expect(charge.moments.at(-1)!.current_A).toBeCloseTo(5, 0);
  });
});

describe("charge put back against taken out", () => {
  const factor = chargeDataOf("lead-acid").factor;
  it.each([
    [
      "ampere-hour efficiency of 0.9: 30 A 6 h out, 40 A 5 h in (FOSSEE companion 2138, example 9.7)",
      (40 * 5) / (30 * 6),
    ],
    ["and of 15 V 10 A 8 h in, 14 V 5 A 15 h out (askfilo.com)", (10 * 8) / (5 * 15)],
    ["0.85 of a textbook (thegrandparadise.com)", 1 / 0.85],
    ["1.10 (remcobattery.com)", 1.1],
    ["sealed 1.05 (velapower.com)", 1.05],
  ])("%s lies in the range", (_, times) => {
    const [low, high] = chargeDataOf("lead-acid").factorRange as readonly [number, number];
    expect(times).toBeGreaterThanOrEqual(low);
    expect(times).toBeLessThanOrEqual(high);
    expect(Math.abs(times / factor - 1)).toBeLessThan(0.1);
  });
});

describe("gas", () => {
  const exide = "EN 50272-3 as set out by Exide for traction batteries";
  const air = (gassing: number) => airWanted_m3ph(12, gassing, 100);
  const leaflet = { within: 5e-3, because: "the standard rounds 0.0504 to 0.05, and leaflets litres to two figures" };
  checks([
    {
      what: "24 × 0.42e-3 × 5",
      source: exide,
      got: airWanted_m3ph(1, 1, 100),
      expected: 24 * 0.42e-3 * 5,
      within: 0.01,
      because: "0.0504 rounded to 0.05",
    },
    { what: "24 V 100 Ah, wet", source: exide, got: air(gassing_Ap100Ah(2.4).vented), expected: 1.2, ...UNROUNDED },
    { what: "24 V 100 Ah, sealed", source: exide, got: air(gassing_Ap100Ah(2.4).sealed), expected: 0.6, ...UNROUNDED },
    { what: "taper charger, wet", source: exide, got: air(gassing_Ap100Ah(2.6).vented), expected: 3.6, ...UNROUNDED },
    { what: "openings, wet", source: exide, got: openings_cm2(1.2), expected: 33.6, ...UNROUNDED },
    { what: "openings, sealed", source: exide, got: openings_cm2(0.6), expected: 16.8, ...UNROUNDED },
    { what: "room", source: exide, got: freeVolume_m3(1.2), expected: 3, ...UNROUNDED },
    {
      what: "litres per Ah at 0 °C",
      source: "Faraday's law",
      got: 1000 * HOUR_s * hydrogen_m3pC(0),
      expected: 0.4181,
      within: 2e-4,
      because: "four figures",
    },
    {
      what: "litres per Ah at 25 °C",
      source: "Faraday's law",
      got: 1000 * HOUR_s * hydrogen_m3pC(25),
      expected: 0.4564,
      within: 2e-4,
      because: "four figures",
    },
    { what: "litres per Ah at 0 °C", source: exide, got: 1000 * HOUR_s * hydrogen_m3pC(0), expected: 0.42, ...leaflet },
  ]);
});
