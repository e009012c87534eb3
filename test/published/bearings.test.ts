import { describe, expect, it } from "vitest";
import {
  equivalentLoad_N,
  hours,
  life_Mrev,
  meanLoad_N,
  ratingFor_N,
  turns_Mrev,
} from "../../packages/sim-core/src/strength/bearing.js";
import { type Check, checks, RPM_radps } from "./check.js";

const POUND_N = 4.4482216152605;
const printed = (expected: number, within: number): Pick<Check, "expected" | "within" | "because"> => ({
  expected,
  within: within / expected,
  because: "half of the last digit that is printed",
});

describe("basic rating life (ISO 281)", () => {
  const skf = "SKF, Rolling bearings, calculation example 1, p. 92: 6309, 55.3 kN, 10 kN, 3000 r/min";
  const skf_Mrev = life_Mrev(55_300, 10_000, "ball");
  const xy = "U. C. Jindal, Machine Design, ex. 18-2, p. 508";
  const fixed_N = equivalentLoad_N(1250, 625, { x: 0.56, y: 1.2 });
  const turning_N = equivalentLoad_N(1250, 625, { x: 0.56, y: 1.2, v: 1.2 });
  const jindal4 = "U. C. Jindal, Machine Design, ex. 18-4, p. 509";
  const wentzell = "T. H. Wentzell, Machine Design, ex. 20.1 and 20.2, p. 431-432";
  const wanted_Mrev = turns_Mrev(200, 1750 * RPM_radps);
  checks([
    { source: skf, what: "million turns", got: skf_Mrev, ...printed(169, 0.5) },
    { source: skf, what: "hours", got: hours(skf_Mrev, 3000 * RPM_radps), ...printed(940, 5) },
    {
      source: xy,
      what: "inner ring turning, million turns",
      got: life_Mrev(5590, fixed_N, "ball"),
      ...printed(57.3, 0.05),
    },
    {
      source: xy,
      what: "outer ring turning, million turns",
      got: life_Mrev(5590, turning_N, "ball"),
      ...printed(43.46, 0.005),
    },
    {
      source: jindal4,
      what: "hours",
      got: hours(life_Mrev(41_000, 20_000, "ball"), 720 * RPM_radps),
      ...printed(199.424, 0.0005),
    },
    {
      source: wentzell,
      what: "hours",
      got: hours(life_Mrev(5050, 2400, "ball"), 1750 * RPM_radps),
      ...printed(88.73, 0.005),
    },
    { source: wentzell, what: "million turns of 200 h", got: wanted_Mrev, ...printed(21, 0.5) },
    {
      source: wentzell,
      what: "rating for them, lbf",
      got: ratingFor_N(2400 * POUND_N, wanted_Mrev, "ball") / POUND_N,
      ...printed(6621.42, 0.005),
    },
  ]);
});

describe("loads that change", () => {
  // 3, 4 and 5 kN at 1440, 1080 and 720 r/min for a quarter, a half and a quarter of the time; 10 000 h.
  const source = "U. C. Jindal, Machine Design, ex. 18-9, p. 512";
  const mean_N = meanLoad_N(
    [
      { load_N: 3000, turns: 1440 / 4 },
      { load_N: 4000, turns: 1080 / 2 },
      { load_N: 5000, turns: 720 / 4 },
    ],
    "ball",
  );
  const asked_Mrev = turns_Mrev(10_000, 1080 * RPM_radps);
  checks([
    { source, what: "million turns", got: asked_Mrev, ...printed(648, 0.5) },
    { source, what: "rating, N", got: ratingFor_N(mean_N, asked_Mrev, "ball"), ...printed(34_219, 0.5) },
  ]);
});

describe("prints that are wrong", () => {
  it("a life at another shaft's speed is half or twice what it should be", () => {
    // U. C. Jindal, Machine Design, ex. 18-6, p. 511: the shaft turns at 1440 r/min, and 14 585 and 24 216 h are for 720.
    const life = (rating_N: number, a_N: number, b_N: number, rpm: number) =>
      hours(life_Mrev(rating_N, 1.4 * Math.hypot(a_N, b_N), "ball"), rpm * RPM_radps);
    expect(life(3120, 236.2, 108.56, 1440)).toBeCloseTo(7293, -1);
    expect(life(2700, 186.5, 36.2, 1440)).toBeCloseTo(12_108, -1);
    expect(life(3120, 236.2, 108.56, 720) / 14_585).toBeCloseTo(1, 3);
  });

  it("radial and axial loads do not add like arrows", () => {
    // A web page makes 711 h of 20 kN, 3 kN radial and 4 kN axial at 1500 r/min, with 5 kN.
    expect(hours(life_Mrev(20_000, 5000, "ball"), 1500 * RPM_radps)).toBeCloseTo(711.1, 1);
    expect(equivalentLoad_N(3000, 4000, { x: 0.56, y: 1 })).toBe(0.56 * 3000 + 4000);
    expect(equivalentLoad_N(3000, 4000, { x: 0.56, y: 1 })).not.toBe(5000);
  });

  it("rollers last longer under less than their rating, by the exponent 10/3", () => {
    expect(life_Mrev(20_000, 10_000, "roller")).toBeCloseTo(2 ** (10 / 3), 9);
    expect(ratingFor_N(10_000, life_Mrev(20_000, 10_000, "roller"), "roller")).toBeCloseTo(20_000, 6);
  });
});
