import { type Dimension, format, formatBoth, formatGradient, quantity, share, UnitError } from "@rideon/sim-core";
import fc from "fast-check";
import quantityOf from "js-quantities";
import { describe, expect, test } from "vitest";
import { UNIT_OF } from "../../packages/sim-core/src/keys.js";

/** Doubles carry 16 figures; a product of three factors may lose one. */
const near = (found: number, wanted: number) =>
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(4e-15 * Math.abs(wanted));

describe("exact sizes, from the publications that fix them", () => {
  // International yard and pound agreement (1959); Weights and Measures Act 1985 (UK), schedule 1.
  test.each<[string, Dimension, number]>([
    ["1 in", "length", 0.0254],
    ["1 yd", "length", 0.9144],
    ["1 mile", "length", 1609.344],
    ["1 chain", "length", 20.1168],
    ["1 lb", "mass", 0.45359237],
    ["1 st", "mass", 6.35029318],
    ["2 cwt", "mass", 101.60469088],
    ["1 ton", "mass", 1016.0469088],
    // NIST Special Publication 811, appendix B.8: mile per hour, pound-force, pound-force foot.
    ["1 mph", "speed", 0.44704],
    ["1 lbf", "force", 4.4482216152605],
    ["1 lbf ft", "torque", 4.4482216152605 * 0.3048],
    // The same: horsepower (550 ft lbf/s) 7.456 999 E+02 and metric horsepower 735.498 75 W.
    ["1 PS", "power", 735.49875],
    // SI Brochure, table 8: hour; ampere hour follows.
    ["1 Ah", "charge", 3600],
  ])("%s", (text, dimension, size) => near(quantity(text, dimension), size));

  test("1 hp to the seven figures NIST SP 811 prints", () => {
    expect(quantity("1 hp", "power").toFixed(4)).toBe("745.6999");
  });

  // ASTM B258, table 1: diameters 4/0 0.4600 in, 6 0.1620 in, 10 0.1019 in, 36 0.0050 in (rounded to 0.0001 in).
  test.each([
    ["4/0 AWG", 0.46],
    ["0000 AWG", 0.46],
    ["6 AWG", 0.162],
    ["AWG 10", 0.1019],
    ["36 AWG", 0.005],
  ])("%s", (text, diameter_in) => {
    const found_in = Math.sqrt((quantity(text, "cable_area") * 4) / Math.PI) / 25.4;
    expect(Math.abs(found_in - diameter_in)).toBeLessThanOrEqual(0.00005);
  });
});

describe("against an independent library", () => {
  const asTheLibrarySays: [string, Dimension, string][] = [
    ["186 kg", "mass", "186 kg"],
    ["3 oz", "mass", "3 oz"],
    ["12 lb", "mass", "12 lb"],
    ["1.2 t", "mass", "1.2 tonne"],
    ["165 mm", "length", "165 mm"],
    ["12 ft", "length", "12 ft"],
    ["4 mph", "speed", "4 mph"],
    ["10 km/h", "speed", "10 kph"],
    ["0.8 m^2", "area", "0.8 m^2"],
    ["8 sq ft", "area", "8 ft^2"],
    ["2600 rpm", "shaft_speed", "2600 rpm"],
    ["0.15 m/s^2", "acceleration", "0.15 m/s^2"],
    ["0.05 g", "acceleration", "0.05 gee"],
    ["35 Ah", "charge", "35 Ah"],
    ["6 mohm", "resistance", "6 mohm"],
    ["3 N·m", "torque", "3 N*m"],
    ["2 lbf ft", "torque", "2 lbf*ft"],
    ["4 lbf in", "torque", "4 lbf*in"],
    ["0.12 kg·m²", "inertia", "0.12 kg*m^2"],
    ["3 lb ft²", "inertia", "3 lb*ft^2"],
    ["0.5 hp", "power", "0.5 hp"],
    ["8 V/krpm", "torque_constant", "0.008 V/rpm"],
    ["0.9 1/h", "rate", "0.9 1/h"],
  ];
  test.each(asTheLibrarySays)("%s", (text, dimension, theirs) => {
    const found = quantity(text, dimension);
    // The library keeps some sizes to seven figures (its pound-force is 4.448222 N).
    expect(found / quantityOf(theirs).baseScalar).toBeCloseTo(1, 6);
  });
});

describe("as people write it", () => {
  test.each<[string, Dimension, number]>([
    ["7 1/4 in", "length", 7.25 * 0.0254],
    ['7 1/4"', "length", 7.25 * 0.0254],
    ["7¼ in", "length", 7.25 * 0.0254],
    ["7-1/4 in", "length", 7.25 * 0.0254],
    ["5' 7 1/2\"", "length", 67.5 * 0.0254],
    ["5′ 7½″", "length", 67.5 * 0.0254],
    ["5'3\"", "length", 63 * 0.0254],
    ["5ft2in", "length", 62 * 0.0254],
    ["1/2 mile", "length", 804.672],
    ["1 in", "length", 0.0254],
    ["11 st 4 lb", "mass", 158 * 0.45359237],
    ["1,000 kg", "mass", 1000],
    ["1,250.5 KG", "mass", 1250.5],
    ["50 mΩ", "resistance", 0.05],
    ["50 m\u2126", "resistance", 0.05],
    ["16 mm²", "cable_area", 16],
    ["16 sq mm", "cable_area", 16],
    ["16 mm2", "cable_area", 16],
    ["3 Nm", "torque", 3],
    ["3 N m", "torque", 3],
    ["3 N.m", "torque", 3],
    ["1 h 20 min", "time", 4800],
    ["1h20min", "time", 4800],
    ["4 h", "time", 14400],
    ["15 °C", "temperature", 15],
    ["59 °F", "temperature", 15],
    ["-40 °F", "temperature", -40],
    ["288.15 K", "temperature", 15],
    ["0.15 m s⁻²", "acceleration", 0.15],
    ["0.076 V s", "torque_constant", 0.076],
    ["0.076 N m/A", "torque_constant", 0.076],
    ["125 rpm/V", "torque_constant", 60 / (2 * Math.PI * 125)],
    ["8 V/krpm", "torque_constant", (8 * 60) / (2 * Math.PI * 1000)],
    ["0.0001 N m/(rad/s)", "viscous_drag", 0.0001],
    ["0.9 per hour", "rate", 0.9 / 3600],
    ["0.001 s/m", "per_speed", 0.001],
    ["0.2 °C/W", "thermal_resistance", 0.2],
    ["-2 m/s", "speed", -2],
  ])("%s", (text, dimension, value) => near(quantity(text, dimension), value));

  test.each([
    ["0.010", 0.01],
    ["80 %", 0.8],
    ["1 in 110", 1 / 110],
    ["1:110", 1 / 110],
    ["-1 in 80", -1 / 80],
    ["9 N/kN", 0.009],
    ["6.75 to 1", 6.75],
    // Pounds a ton, the old measure of train resistance: 2240 lb to the British ton.
    ["9 lb/ton", 9 / 2240],
  ])("share %s", (text, value) => near(share(text), value));
});

describe("refused, saying what was found and what is wanted", () => {
  test.each<[string, Dimension, RegExp]>([
    ["", "mass", /nothing is written here; write it like 140 kg/],
    ["NaN kg", "mass", /does not begin with a number/],
    ["inf kg", "mass", /does not begin with a number/],
    ["1e999 kg", "mass", /too large/],
    ["4 mhp", "speed", /"mhp" in "4 mhp" is not a known unit; write it like 4 mph/],
    ["110 volts", "mass", /is a voltage where a mass is wanted/],
    ["75 Wh", "charge", /is an energy .* where a charge is wanted/],
    ["140", "mass", /has no unit; write it like 140 kg/],
    ["2,5 kg", "mass", /comma where a point is wanted: 2\.5/],
    ["0,750 kg", "mass", /comma where a point is wanted: 0\.750/],
    ["5' 7", "length", /does not end as a quantity should/],
    ["1 in 80", "length", /does not end as a quantity should/],
    ["50 MOHM", "resistance", /"MOHM" .* not a known unit/],
    ["0 rpm/V", "torque_constant", /beyond all bounds/],
    ["3 constructor", "mass", /not a known unit/],
    ["15", "temperature", /has no unit; write it like 15 °C/],
    ["157 1/s", "shaft_speed", /is a rate where a speed of rotation is wanted/],
  ])("%s as %s", (text, dimension, message) => {
    expect(() => quantity(text, dimension)).toThrow(UnitError);
    expect(() => quantity(text, dimension)).toThrow(message);
  });

  test.each(["", "x", "1 in", "9 kg", "1 in 0", "NaN", "0,8", "80 %%%x"])("share %s", (text) => {
    expect(() => share(text)).toThrow(UnitError);
  });
});

describe("laws", () => {
  const dimensions = Object.keys(UNIT_OF) as Dimension[];

  test("what is printed reads back as the same, to the three figures printed", () => {
    const amount = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(
        amount,
        fc.constantFrom(...dimensions),
        fc.constantFrom("metric", "imperial"),
        (value, dimension, units) => {
          const back = quantity(format(value, dimension, units), dimension);
          // Three figures are within 0.5 %; durations go to the whole second or minute, temperatures to 0.05 or 0.5 of a degree.
          const slack = dimension === "time" ? (value < 3600 ? 0.5 : 30) : dimension === "temperature" ? 0.5 : 0;
          expect(Math.abs(back - value)).toBeLessThanOrEqual(0.005 * value + slack + 1e-12);
        },
      ),
    );
  });

  test("any text is either a finite number or a UnitError", () => {
    const scraps = fc.constantFrom(
      "4",
      "1/2",
      " ",
      "mph",
      "kg",
      "/",
      "(",
      ")",
      "^",
      "2",
      "'",
      '"',
      "e",
      ",",
      ".",
      "-",
      "°C",
      "in",
      "½",
      "sq ",
      "1/",
    );
    const text = fc.oneof(
      fc.string({ unit: "grapheme" }),
      fc.array(scraps, { maxLength: 8 }).map((parts) => parts.join("")),
    );
    fc.assert(
      fc.property(text, fc.constantFrom(...dimensions), (typed, dimension) => {
        for (const read of [() => quantity(typed, dimension), () => share(typed)]) {
          try {
            expect(Number.isFinite(read())).toBe(true);
          } catch (error) {
            if (!(error instanceof UnitError)) throw error;
          }
        }
      }),
      { numRuns: 2000 },
    );
  });
});

test("printed for people", () => {
  expect(format(1.78816, "speed", "imperial")).toBe("4 mph");
  expect(formatBoth(1.78816, "speed", "imperial")).toBe("4 mph (1.79 m/s)");
  expect(formatBoth(1.78816, "speed", "metric")).toBe("6.44 km/h (1.79 m/s)");
  expect(formatBoth(0.18415, "length", "imperial")).toBe("7.25 in (184 mm)");
  expect(formatBoth(832.4, "mass", "metric")).toBe("832 kg (1835 lb)");
  expect(format(270000, "charge", "metric")).toBe("75 Ah");
  expect(format(4800, "time", "metric")).toBe("1 h 20 min");
  expect(format(0.006, "resistance", "metric")).toBe("6 mohm");
  expect(format(15, "temperature", "imperial")).toBe("59 °F");
  expect(formatGradient(1 / 52)).toBe("1 in 52");
  expect(formatGradient(-1 / 52)).toBe("-1 in 52");
  expect(formatGradient(0)).toBe("level");
});
