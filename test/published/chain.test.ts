import { describe, expect, it } from "vitest";
import { CHAINS } from "../../packages/sim-core/src/parts/chain.data.js";
import {
  centresFor_m,
  centresForWrap_m,
  chainSpeed_mps,
  evenLinks,
  linksFor,
  pitchDiameter_m,
  touchingCentres_m,
} from "../../packages/sim-core/src/parts/chain.js";
import {
  breakingMargin,
  meanTension_N,
  peakTension_N,
  powerRating_W,
  slackOf,
} from "../../packages/sim-core/src/parts/chain.load.js";
import { assembleGears, rim_N, type Stage } from "../../packages/sim-core/src/parts/gears.js";
import { checks, RPM_radps } from "./check.js";

const HP_W = 745.699872;
const HALF_INCH_m = 0.0127;
const FIVE_FIGURES = { within: 5e-5, because: "printed to five figures" };
const SERIES = {
  within: 1e-4,
  because: "the book's series for the links stops at its third term; the answer is printed to five figures",
};

describe("shape of a drive", () => {
  const catalogue = "Cross+Morse, 06B taper-bore sprockets (docslib.org/doc/7694706)";
  const D_mm: [number, number][] = [
    [17, 51.83],
    [19, 57.87],
    [25, 76],
    [38, 115.35],
    [57, 172.91],
    [95, 288.08],
    [114, 345.68],
  ];
  checks(
    D_mm.map(([teeth, expected]) => ({
      source: catalogue,
      what: `pitch diameter of ${teeth} teeth, mm`,
      got: pitchDiameter_m(0.009525, teeth) * 1000,
      expected,
      within: 0.01 / expected,
      because: "printed to 0.01 mm, 17 and 38 teeth not to the nearest",
    })),
  );

  const bhandari = "V. B. Bhandari, Design of Machine Elements, ex. 14.3";
  const links143 = linksFor(HALF_INCH_m, [21, 63], 0.5);
  const jindal = "U. C. Jindal, Machine Design, ex. 30-3, p. 779";
  const khurmi = "Khurmi and Gupta, Theory of Machines, ex. 11.23, p. 376";
  const PITCH_m = 0.0471;
  const page = "a worked page on chain length, 20 and 63 teeth";
  checks([
    { source: bhandari, what: "links", got: links143, expected: 121.875, ...SERIES },
    { source: bhandari, what: "even links", got: evenLinks(links143), expected: 122, within: 0, because: "whole" },
    {
      source: bhandari,
      what: "centres, mm",
      got: centresFor_m(HALF_INCH_m, [21, 63], 122) * 1000,
      expected: 500.8047,
      ...SERIES,
    },
    // The book works with 9.52 mm, as some catalogues print 9.525.
    {
      source: jindal,
      what: "chain, mm",
      got: linksFor(0.00952, [21, 42], 50 * 0.00952) * 9.52,
      expected: 1254.01,
      ...SERIES,
    },
    // The book finds the pitch from a wheel of 600 mm with 40 teeth and goes on with it as printed, 47.1 mm.
    {
      source: khurmi,
      what: "wheel of that pitch, mm",
      got: pitchDiameter_m(PITCH_m, 40) * 1000,
      expected: 600,
      within: 0.05 / 47.1,
      because: "the pitch is printed to 0.1 mm",
    },
    {
      source: khurmi,
      what: "chain, m",
      got: linksFor(PITCH_m, [20, 40], 0.8) * PITCH_m,
      expected: 3.0402,
      within: 4e-4,
      because: "the book's form of the last term, worked in steps rounded to four figures",
    },
    // The same page quotes another formula as exact, which gives 114.305 and 35.845: half a link out, and not used here.
    { source: page, what: "links at 36 pitches", got: linksFor(1, [20, 63], 36), expected: 114.8, ...SERIES },
    {
      source: page,
      what: "pitches between centres for 114 links",
      got: centresFor_m(1, [20, 63], 114),
      expected: 35.6,
      within: 0.05 / 35.6,
      because: "printed to one decimal",
    },
  ]);

  it("wraps the small sprocket by 120° at 3 to 1 or less, wherever the sprockets clear (Diamond Chain)", () => {
    for (let small = 9; small <= 40; small++) {
      for (let large = small; large <= 3 * small; large++) {
        expect(centresForWrap_m(1, [small, large])).toBeLessThan(touchingCentres_m(1, [small, large]));
      }
    }
    expect(centresForWrap_m(1, [9, 60])).toBeGreaterThan(touchingCentres_m(1, [9, 60]));
  });
});

describe("load on the chain", () => {
  const row = (source: string, what: string, got: number, expected: number) => ({
    source,
    what,
    got,
    expected,
    ...FIVE_FIGURES,
  });
  /** Chain speed, tension and margin of a textbook drive that gives its power. */
  function drive(teeth: number, rpm: number, pitch_m: number, power_W: number) {
    const radps = rpm * RPM_radps;
    return {
      speed: chainSpeed_mps(pitch_m, teeth, radps),
      tension: meanTension_N(pitch_m, teeth, power_W / radps),
    };
  }
  const ex147 = "Bhandari, ex. 14.7";
  const tenB = drive(19, 1400, 0.015875, 11_670 * 1.11);
  const ex141 = "Bhandari, ex. 14.1";
  const twelveA = drive(17, 1000, 0.01905, 14_320);
  const jindal = "Jindal, Machine Design, ex. 30-3, p. 779";
  const six = drive(21, 1000, 0.00952, 2030 * 1.26);
  const withBreaking = (breaking_N: number) => ({ ...CHAINS["10B"], breaking_N });
  checks([
    row(ex147, "chain speed, m/s", tenB.speed, 7.0379),
    row(ex147, "tension, N", tenB.tension, 1840.56),
    {
      ...row(ex147, "margin", breakingMargin(CHAINS["10B"], tenB.tension), 12.06),
      within: 5e-4,
      because: "four figures",
    },
    row(ex141, "margin", breakingMargin(withBreaking(31_100), twelveA.tension), 11.722),
    row(jindal, "chain speed, m/s", six.speed, 3.332),
    { ...row(jindal, "tension, N", six.tension, 767.6), within: 1e-4, because: "four figures" },
    {
      ...row(jindal, "margin", breakingMargin(withBreaking(10_700), six.tension), 13.94),
      within: 5e-4,
      because: "four figures",
    },
  ]);

  // Derived, not published: 10 N m at the motor, 12/36 on 06B then 15/45 on 08B, 0.97 a stage, 200 mm wheels.
  const derived = "derived";
  const layshaft_Nm = 10 * 3 * 0.97;
  const atSmallest = (pitch_m: number, teeth: number, torque_Nm: number) =>
    peakTension_N(pitch_m, teeth, torque_Nm) * Math.cos(Math.PI / teeth);
  const first_N = atSmallest(0.009525, 12, 10);
  const second_N = atSmallest(HALF_INCH_m, 15, layshaft_Nm);
  checks([
    row(derived, "first chain, 2T/D", first_N, 543.45),
    row(derived, "first chain, mean", meanTension_N(0.009525, 12, 10), 549.71),
    row(derived, "first chain, peak", peakTension_N(0.009525, 12, 10), 562.62),
    row(derived, "its speed at 1800 rpm", chainSpeed_mps(0.009525, 12, 1800 * RPM_radps), 3.429),
    row(derived, "second chain, 2T/D", second_N, 952.79),
    row(derived, "its speed", chainSpeed_mps(HALF_INCH_m, 15, 600 * RPM_radps), 1.905),
    {
      ...row(derived, "margin of the first", breakingMargin(CHAINS["06B"], first_N), 16.4),
      within: 4e-3,
      because: "three figures",
    },
    {
      ...row(derived, "margin of the second", breakingMargin(CHAINS["08B"], second_N), 18.7),
      within: 4e-3,
      because: "three figures",
    },
    // 150 kg, all on driven wheels, grips 294.20 N at 0.20: seen from the axle's sprocket.
    row(derived, "second chain as the wheels slip", atSmallest(HALF_INCH_m, 45, 29.42), 323.19),
  ]);

  const hkk = slackOf(CHAINS["08B"], 46.5 * 0.0254, 0.04);
  const own = slackOf(CHAINS["08B"], 0.4, 0.04);
  checks([
    row("HKK, installation", "slack of a 46.5 in run at 4 %, in", hkk.movement_m / 0.0254, 1.86),
    { ...row(derived, "extra chain in 400 mm, mm", own.extra_m * 1000, 0.43), within: 0.012, because: "two figures" },
    { ...row(derived, "tension of the sag, N", own.tension_N, 17.2), within: 3e-3, because: "three figures" },
  ]);
});

describe("power rating", () => {
  const RPM = [50, 100, 200, 300, 400, 500, 700, 900, 1000, 1200, 1400, 1600, 1800];
  const NUMBER_40: Record<number, number[]> = {
    11: [0.23, 0.43, 0.8, 1.16, 1.5, 1.83, 2.48, 3.11, 3.42, 4.03, 4.63, 5.22, 4.66],
    12: [0.25, 0.47, 0.88, 1.27, 1.65, 2.01, 2.73, 3.42, 3.76, 4.43, 5.09, 5.74, 5.31],
    15: [0.32, 0.6, 1.12, 1.62, 2.1, 2.56, 3.47, 4.35, 4.78, 5.64, 6.47, 7.3, 7.43],
    17: [0.37, 0.69, 1.29, 1.85, 2.4, 2.93, 3.97, 4.98, 5.48, 6.45, 7.41, 8.36, 8.96],
  };
  const hp = (size: "40" | "41" | "50" | "25" | "10B", teeth: number, rpm: number) =>
    (powerRating_W(CHAINS[size], teeth, rpm * RPM_radps) ?? Number.NaN) / HP_W;
  const source = "horsepower ratings of number 40, engineersedge.com";
  checks(
    Object.entries(NUMBER_40).flatMap(([teeth, row]) =>
      row.map((expected, i) => ({
        source,
        what: `${teeth} teeth at ${RPM[i]} rpm`,
        got: hp("40", Number(teeth), RPM[i]!),
        expected,
        within: 0.0051 / expected + 0.002,
        because: "printed to 0.01 hp; the factors K1 and K2 are two figures in print, worth about 0.2 %",
      })),
    ),
  );
  const others = "horsepower ratings of numbers 41 and 50, engineersedge.com";
  checks(
    (
      [
        ["41", 11, 1000, 1.88],
        ["41", 11, 1400, 1.36],
        ["50", 17, 700, 7.73],
        ["50", 17, 1600, 12.8],
      ] as const
    ).map(([size, teeth, rpm, expected]) => ({
      source: others,
      what: `number ${size}, ${teeth} teeth at ${rpm} rpm`,
      got: hp(size, teeth, rpm),
      expected,
      within: 5e-3,
      because: "printed to three figures",
    })),
  );

  describe("number 25, whose newer table (ASME B29.1 by amesweb.info) the formula does not give back", () => {
    const plates: [number, number, number][] = [
      [11, 500, 0.3],
      [11, 1200, 0.7],
      [17, 900, 0.82],
      [20, 1800, 1.88],
      [25, 2500, 3.22],
      [11, 3000, 1.69],
      [11, 3500, 1.69],
    ];
    it.each(plates)("%i teeth at %i rpm: on the safe side of %f hp, by a third at most", (teeth, rpm, printed) => {
      expect(hp("25", teeth, rpm)).toBeLessThan(printed);
      expect(hp("25", teeth, rpm)).toBeGreaterThan(printed * 0.66);
    });
    checks(
      (
        [
          [11, 4000, 1.38],
          [11, 4500, 1.16],
          [14, 4500, 1.66],
        ] as const
      ).map(([teeth, rpm, expected]) => ({
        source: "the same table, where the rollers decide",
        what: `${teeth} teeth at ${rpm} rpm`,
        got: hp("25", teeth, rpm),
        expected,
        within: 0.005 / expected + 0.002,
        because: "printed to 0.01 hp",
      })),
    );
  });

  it("does not rate 10B above Bhandari's table (ex. 14.7: 11.67 kW, 17 teeth, 1400 rpm), and not far below", () => {
    const rated_W = powerRating_W(CHAINS["10B"], 17, 1400 * RPM_radps) ?? Number.NaN;
    expect(rated_W).toBeLessThan(11_670);
    expect(rated_W).toBeGreaterThan(0.9 * 11_670);
  });
});

describe("from motor to rail", () => {
  const stage = (ratio: number, efficiency: number): Stage => ({
    ratio,
    efficiency,
    teeth: undefined,
    drivenInertia_kgm2: 0,
    chain: undefined,
    centres_m: undefined,
  });
  // 117 596 N at the rails of eight geared motors, 2067 N m each; what asks for that force is tried in size.test.ts.
  checks([
    {
      source: "J. B. Gupta, Utilization of Electric Power and Electric Traction, ex. 7.8",
      what: "force of eight motors of 2067 N m, N",
      got: 8 * rim_N(assembleGears([stage(4, 0.8)]), 0.45, 2067, 1),
      expected: 117_596,
      within: 2.5e-4,
      because: "the torque is printed to four figures",
    },
  ]);

  // Gears 71/21 and 0.85 m wheels changed for 74/19 and 0.90 m: the speed and pull of the same motor at each current.
  const ex87 = "J. B. Gupta, the same, ex. 8.7, p. 244";
  const V_kmh = [80, 50, 45, 42, 38, 35];
  const newV = [73.53, 45.96, 41.36, 38.6, 34.93, 32.17];
  const F_kN = [1.7, 5, 10, 14, 16, 20];
  const newF = [1.85, 5.44, 10.88, 15.23, 17.41, 21.76];
  const was = assembleGears([stage(71 / 21, 1)]);
  const is = assembleGears([stage(74 / 19, 1)]);
  checks(
    V_kmh.flatMap((speed, i) => {
      const motor_radps = (speed * was.ratio) / 0.425;
      const shaft = F_kN[i]! / rim_N(was, 0.425, 1, 1);
      return [
        { source: ex87, what: `${speed} km/h becomes`, got: (motor_radps * 0.45) / is.ratio, expected: newV[i]! },
        { source: ex87, what: `${F_kN[i]} kN becomes`, got: rim_N(is, 0.45, shaft, 1), expected: newF[i]! },
      ].map((each) => ({ ...each, within: 0.006 / each.expected, because: "printed to two decimals" }));
    }),
  );
});
