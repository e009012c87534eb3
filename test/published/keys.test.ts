import { describe, expect, it } from "vitest";
import { type KeyStresses, keyHolds, keyLength_m } from "../../packages/sim-core/src/strength/key.js";
import { screwHolds_N, screwHolds_Nm } from "../../packages/sim-core/src/strength/set-screw.js";
import { type Check, checks, RPM_radps } from "./check.js";

const MPa = 1e6;
const INCH_m = 0.0254;
const POUND_N = 4.4482216152605;
const PSI_Pa = POUND_N / INCH_m ** 2;
const HP_W = 745.699872;

const mm = (width: number, height: number) => ({ width_m: width / 1000, height_m: height / 1000 });
const stresses = (shear: number, crushing: number): KeyStresses => ({
  shear_Pa: shear * MPa,
  crushing_Pa: crushing * MPa,
});
const printed = (expected: number, within: number): Pick<Check, "expected" | "within" | "because"> => ({
  expected,
  within: within / expected,
  because: "half of the last digit that is printed",
});

describe("the length of a key", () => {
  const strong_Nm = (diameter_m: number, shear: number) => (Math.PI * diameter_m ** 3 * shear * MPa) / 16;
  const singh7 = "Sadhu Singh, Machine Design-I, ex. 7.7, p. 208";
  const as_shaft = keyLength_m(strong_Nm(0.05, 42), mm(15, 17.5), 0.05, stresses(42, 72));
  const singh8 = "Sadhu Singh, Machine Design-I, ex. 7.8, p. 208";
  const square = keyLength_m(12e3 / (550 * RPM_radps), mm(7, 7), 0.025, stresses(80, 160));
  const wentzell = "T. H. Wentzell, Machine Design, ex. 15.1, p. 332";
  const eighth = keyLength_m(180 * POUND_N * INCH_m, { width_m: INCH_m / 8, height_m: INCH_m / 8 }, 0.5 * INCH_m, {
    shear_Pa: (30_500 / 2.5) * PSI_Pa,
    crushing_Pa: (51_000 / 2.5) * PSI_Pa,
  });
  const askfilo = "a worked key of 800 N m on 40 mm, 58 and 110 MPa, both ways round";
  const flat = keyLength_m(800, mm(15, 12), 0.04, stresses(58, 110));
  const upright = keyLength_m(800, mm(12, 15), 0.04, stresses(58, 110));
  checks([
    { source: singh7, what: "by shear, mm", got: as_shaft.byShear_m * 1000, ...printed(65.45, 0.005) },
    {
      source: singh7,
      what: "crushed, of the height that makes both alike, 2 τ / σ times the width, mm",
      got: as_shaft.byCrushing_m * 1000,
      ...printed(65.45, 0.005),
    },
    { source: singh8, what: "by shear, mm", got: square.byShear_m * 1000, ...printed(29.76, 0.005) },
    { source: singh8, what: "crushed, mm", got: square.byCrushing_m * 1000, ...printed(29.76, 0.005) },
    {
      source: wentzell,
      what: "torque of 5 hp, lbf in",
      got: (5 * HP_W) / (1750 * RPM_radps) / (POUND_N * INCH_m),
      ...printed(180, 0.5),
    },
    { source: wentzell, what: "by shear, in", got: eighth.byShear_m / INCH_m, ...printed(0.47, 0.005) },
    {
      source: wentzell,
      what: "crushed, in",
      got: eighth.byCrushing_m / INCH_m,
      expected: 0.56,
      within: 0.01 / 0.56,
      because: "the book cuts 0.5647 to 0.56",
    },
    { source: askfilo, what: "15 × 12, mm", got: flat.length_m * 1000, ...printed(60.61, 0.005) },
    { source: askfilo, what: "12 × 15, mm", got: upright.length_m * 1000, ...printed(57.47, 0.005) },
  ]);

  it("is governed by the height in the one and by the width in the other", () => {
    expect(flat.length_m).toBe(flat.byCrushing_m);
    expect(upright.length_m).toBe(upright.byShear_m);
  });

  it("is not what makes shear and crushing equal: a worked 16 × 10 on 50 mm prints 47.5 mm so", () => {
    // With 42 and 70 MPa and all that the shaft carries it takes more than twice that.
    const found = keyLength_m(strong_Nm(0.05, 42), mm(16, 10), 0.05, stresses(42, 70));
    expect(found.byShear_m * 1000).toBeCloseTo(61.36, 2);
    expect(found.length_m * 1000).toBeCloseTo(117.81, 2);
  });
});

describe("the section of a key", () => {
  // 36 kW at 200 r/min on 60 mm, 105 mm long, 40 and 90 MPa: the width and height at which its length is just enough.
  const source = "U. C. Jindal, Machine Design, ex. 14-5, p. 403";
  const torque_Nm = 36e3 / (200 * RPM_radps);
  const { byShear_m, byCrushing_m } = keyLength_m(torque_Nm, mm(13.6, 12), 0.06, stresses(40, 90));
  checks([
    { source, what: "width, mm", got: 13.6 * (byShear_m / 0.105), ...printed(13.6, 0.05) },
    { source, what: "height, mm", got: 12 * (byCrushing_m / 0.105), ...printed(12, 0.5) },
  ]);

  it("holds the torque that its length was found for, and no more", () => {
    for (const section of [mm(8, 7), mm(7, 8), mm(6, 6)]) {
      const { length_m } = keyLength_m(torque_Nm, section, 0.06, stresses(40, 90));
      expect(keyHolds({ ...section, length_m }, 0.06, stresses(40, 90)).torque_Nm).toBeCloseTo(torque_Nm, 6);
    }
  });
});

describe("cup-point set screws", () => {
  // Torsional holds are printed for a shaft as thick as the screw, within 2 % of axial hold times half of that.
  const source = "ficientdesign.com, set screw torque chart";
  const rows: [number, number, number][] = [
    [0.19, 200, 20],
    [1 / 4, 400, 50],
    [5 / 16, 700, 110],
    [3 / 8, 1000, 190],
    [1 / 2, 1500, 375],
  ];
  checks(
    rows.flatMap(([thread_in, axial_lbf, torsional_lbfin]) => [
      {
        source,
        what: `${thread_in} in, axial, lbf`,
        got: (screwHolds_N(thread_in * INCH_m) ?? 0) / POUND_N,
        ...printed(axial_lbf, 0.5),
      },
      {
        source,
        what: `${thread_in} in, torsional, lbf in`,
        got: (screwHolds_Nm(thread_in * INCH_m, thread_in * INCH_m) ?? 0) / (POUND_N * INCH_m),
        expected: torsional_lbfin,
        within: 0.051,
        because: "printed to 5 or 10 lbf in",
      },
    ]),
  );

  it("hold by the shaft's own radius: twice as much where it is twice as thick", () => {
    expect(screwHolds_Nm(0.008, 0.02)).toBeCloseTo(2 * (screwHolds_Nm(0.008, 0.01) ?? 0), 9);
  });

  it("of a metric size count as the thickest inch one no thicker; below all of them nothing is known", () => {
    expect(screwHolds_N(0.006)).toBe(screwHolds_N(0.19 * INCH_m));
    expect(screwHolds_N(0.008)).toBe(screwHolds_N((5 / 16) * INCH_m));
    expect(screwHolds_N(0.004)).toBeNull();
  });
});
