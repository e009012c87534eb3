import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { CHAINS, stockedTeeth } from "../../packages/sim-core/src/parts/chain.data.js";
import {
  centresFor_m,
  centresForWrap_m,
  chainDiameter_m,
  chordalVariation,
  evenLinks,
  linksFor,
  outsideDiameter_m,
  pitchDiameter_m,
  span_m,
  touchingCentres_m,
  wrap_rad,
} from "../../packages/sim-core/src/parts/chain.js";
import { CHAIN_SIZES } from "../../packages/sim-core/src/parts/chain.keys.js";
import {
  areMixedUp,
  meanTension_N,
  peakTension_N,
  powerRating_W,
  slackOf,
} from "../../packages/sim-core/src/parts/chain.load.js";
import { createGears } from "../../packages/sim-core/src/parts/gears.js";

const teeth = fc.integer({ min: 7, max: 120 });
/** Two sprockets at centres, in pitches, at which they clear. */
const drive = fc
  .tuple(teeth, teeth, fc.double({ min: 1, max: 5, noNaN: true }))
  .map(([a, b, apart]) => ({ pair: [a, b] as const, centres: apart * touchingCentres_m(1, [a, b]) }));

describe("geometry", () => {
  it("joins the pins of a sprocket by straight links", () => {
    fc.assert(
      fc.property(teeth, (z) => {
        const radius = pitchDiameter_m(1, z) / 2;
        const [x, y] = [radius * Math.cos((2 * Math.PI) / z), radius * Math.sin((2 * Math.PI) / z)];
        expect(Math.hypot(x - radius, y)).toBeCloseTo(1, 12);
      }),
    );
  });

  it("clears the teeth outside the pins, and the chain outside both", () => {
    for (const z of [9, 15, 60]) {
      expect(outsideDiameter_m(1, z)).toBeGreaterThan(pitchDiameter_m(1, z));
      expect(chainDiameter_m(1, z)).toBeGreaterThan(outsideDiameter_m(1, z));
    }
  });

  it("counts links as z + 2 C for equal sprockets", () => {
    fc.assert(
      fc.property(teeth, fc.double({ min: 10, max: 80, noNaN: true }), (z, c) => {
        expect(linksFor(1, [z, z], c)).toBeCloseTo(z + 2 * c, 10);
      }),
    );
  });

  it("agrees with the textbooks' series to what its next term leaves off, (z2 - z1)⁴ / 192π⁴C³ and more", () => {
    fc.assert(
      fc.property(drive, ({ pair: [a, b], centres }) => {
        const c = 2 * centres;
        const apart = Math.abs(b - a) / (2 * Math.PI);
        const series = 2 * c + (a + b) / 2 + apart ** 2 / c;
        expect(Math.abs(linksFor(1, [a, b], c) - series)).toBeLessThan(0.02 + 0.2 * (apart ** 4 / c ** 3));
      }),
    );
  });

  it("finds the centres again from the links, and cares not which sprocket drives", () => {
    fc.assert(
      fc.property(drive, ({ pair: [a, b], centres }) => {
        const links = linksFor(1, [a, b], centres);
        expect(linksFor(1, [b, a], centres)).toBe(links);
        expect(centresFor_m(1, [a, b], links)).toBeCloseTo(centres, 9);
      }),
    );
  });

  it("refuses a chain too short to go round", () => {
    expect(() => centresFor_m(0.0127, [12, 60], 30)).toThrow(RangeError);
  });

  it("scales with the pitch", () => {
    fc.assert(
      fc.property(drive, ({ pair, centres }) => {
        expect(linksFor(0.0127, pair, 0.0127 * centres)).toBeCloseTo(linksFor(1, pair, centres), 9);
        expect(span_m(0.0127, pair, 0.0127 * centres)).toBeCloseTo(0.0127 * span_m(1, pair, centres), 12);
      }),
    );
  });

  it("wraps both sprockets once round together, the small one by 120° at D2 - D1", () => {
    fc.assert(
      fc.property(drive, ({ pair: [a, b], centres }) => {
        const small = wrap_rad(1, [a, b], centres);
        expect(small).toBeGreaterThan(0);
        expect(small).toBeLessThanOrEqual(Math.PI);
        fc.pre(a !== b);
        const needed = centresForWrap_m(1, [a, b]);
        expect(needed).toBeCloseTo(Math.abs(pitchDiameter_m(1, a) - pitchDiameter_m(1, b)), 10);
        expect(wrap_rad(1, [a, b], needed)).toBeCloseTo((2 * Math.PI) / 3, 10);
      }),
    );
  });

  it("takes the nearest even number of links", () => {
    expect([121.875, 114.8, 115.1, 116].map(evenLinks)).toEqual([122, 114, 116, 116]);
  });
});

describe("load", () => {
  it("swings between 2T/D and the peak, with the mean between, the more the fewer the teeth", () => {
    fc.assert(
      fc.property(teeth, (z) => {
        const least = 2 / pitchDiameter_m(1, z);
        expect(meanTension_N(1, z, 1)).toBeGreaterThan(least);
        expect(peakTension_N(1, z, 1)).toBeGreaterThan(meanTension_N(1, z, 1));
        expect(1 - least / peakTension_N(1, z, 1)).toBeCloseTo(chordalVariation(z), 12);
        expect(chordalVariation(z + 1)).toBeLessThan(chordalVariation(z));
      }),
    );
  });

  it("rates fatigue up to a speed and wear beyond, and nothing where nobody rates the size", () => {
    const at = (rpm: number) => powerRating_W(CHAINS["40"], 12, (rpm * Math.PI) / 30) ?? Number.NaN;
    expect(at(800) / at(400)).toBeCloseTo(2 ** 0.9, 10);
    expect(at(8000) / at(4000)).toBeCloseTo(2 ** -1.5, 10);
    for (const size of ["04B", "05B", "081", "12B"] as const) {
      expect(powerRating_W(CHAINS[size], 15, 100)).toBeUndefined();
    }
  });

  it("halves the sag's tension for twice the slack, and takes four times the chain", () => {
    const [tight, loose] = [slackOf(CHAINS["08B"], 0.4, 0.02), slackOf(CHAINS["08B"], 0.4, 0.04)];
    expect(tight.tension_N / loose.tension_N).toBeCloseTo(2, 12);
    expect(loose.extra_m / tight.extra_m).toBeCloseTo(4, 12);
  });

  it("sags as a catenary of the same depth does, to the shallow parabola's thousandth", () => {
    // A catenary of parameter a: depth a (cosh(x/a) - 1), length 2 a sinh(x/a), tension q g a at its foot.
    const a = 2;
    const x = 0.2;
    const depth = a * (Math.cosh(x / a) - 1);
    const { extra_m, tension_N } = slackOf(CHAINS["08B"], 2 * x, (2 * depth) / (2 * x));
    expect(extra_m / (2 * a * Math.sinh(x / a) - 2 * x) - 1).toBeCloseTo(0, 2);
    expect(tension_N / (0.7 * 9.80665 * a) - 1).toBeCloseTo(0, 2);
  });
});

describe("sizes", () => {
  it("are all there, whole and plausible", () => {
    for (const size of CHAIN_SIZES) {
      const chain = CHAINS[size];
      expect(chain.size).toBe(size);
      expect(chain.roller_m).toBeLessThan(chain.pitch_m);
      expect(chain.innerWidth_m).toBeLessThan(chain.pitch_m);
      expect(stockedTeeth(size)).toEqual([...new Set(stockedTeeth(size))].sort((a, b) => a - b));
    }
  });

  it("American ones but 41 break at 12 500 lb times the pitch in inches squared (the series' own rule)", () => {
    for (const size of ["25", "35", "40", "50", "60"] as const) {
      const { pitch_m, breaking_N } = CHAINS[size];
      expect(breaking_N / (12_500 * 4.4482216 * (pitch_m / 0.0254) ** 2) - 1).toBeCloseTo(0, 2);
    }
  });

  it("are mixed up where the pitch is the same and the roller is not", () => {
    const pairs = CHAIN_SIZES.flatMap((a, i) =>
      CHAIN_SIZES.slice(i + 1)
        .filter((b) => areMixedUp(CHAINS[a], CHAINS[b]))
        .map((b) => `${a} ${b}`),
    );
    expect(pairs).toContain("08B 40");
    expect(pairs).toContain("06B 35");
    expect(pairs).not.toContain("10B 50");
    expect(pairs.every((pair) => !pair.includes("04B"))).toBe(true);
  });
});

describe("in the loco file", () => {
  const problemsOf = (stage: Parameters<typeof createGears>[0][number]) => {
    const notes = newNotes();
    const gears = createGears([stage], notes);
    return { stage: gears.stages[0]!, problems: notes.problems };
  };
  it("a known size is taken, in small letters too", () => {
    expect(problemsOf({ teeth: [12, 36], chain: "08b", centres_m: 0.3 })).toMatchObject({
      stage: { chain: "08B", centres_m: 0.3 },
      problems: [],
    });
  });
  it("an unknown one is refused with the sizes there are", () => {
    const { problems } = problemsOf({ teeth: [12, 36], chain: "420" });
    expect(problems).toEqual([{ path: "loco.gears.1.chain", message: expect.stringContaining("04B, 05B, 06B") }]);
  });
  it("a closed gearbox has neither chain nor centres", () => {
    expect(problemsOf({ ratio: 6, chain: "08B", centres_m: 0.3 }).problems.map(({ path }) => path)).toEqual([
      "loco.gears.1.chain",
      "loco.gears.1.centres",
    ]);
  });
});
