import { describe, expect, test } from "vitest";
import { readDoubtful } from "../../packages/sim-core/src/units/doubtful.js";
import { UnitError } from "../../packages/sim-core/src/units/units.js";

const KG = "mass" as const;

describe("doubt that is typed beside a figure", () => {
  test.each([
    ["75 ± 10 kg", KG, 75, 10],
    ["75 kg ± 10 kg", KG, 75, 10],
    ["75 kg ± 10", KG, 75, 10],
    ["75 +- 10 kg", KG, 75, 10],
    ["75 +/- 10 kg", KG, 75, 10],
    ["160 kg ± 2 %", KG, 160, 3.2],
    ["10 st ± 1 st", KG, 63.5029318, 6.35029318],
    ["12.4 ± 0.1 V", "voltage", 12.4, 0.1],
    ["15 ± 3 °C", "temperature", 15, 3],
    ["59 ± 9 °F", "temperature", 15, 5],
    ["0.010 ± 0.002", undefined, 0.01, 0.002],
    ["10 ± 2 N/kN", undefined, 0.01, 0.002],
    ["0.01 ± 20 %", undefined, 0.01, 0.002],
    ["80 % ± 5 %", undefined, 0.8, 0.05],
    ["80 ± 5 %", undefined, 0.8, 0.05],
  ] as const)("%s", (text, dimension, value, half) => {
    const read = readDoubtful(text, dimension);
    expect(read.value).toBeCloseTo(value, 8);
    expect(read.doubt?.spread).toBe("normal");
    expect((read.doubt as { half: number }).half).toBeCloseTo(half, 8);
  });

  test.each([
    ["4 to 6 mohm", "resistance", 0.004, 0.006],
    ["4 mohm to 6 mohm", "resistance", 0.004, 0.006],
    ["8 to 12 N/kN", undefined, 0.008, 0.012],
    ["0.008 to 0.012", undefined, 0.008, 0.012],
    ["0.9 to 1", undefined, 0.9, 1],
    ["1 in 80 to 1 in 75", undefined, 1 / 80, 1 / 75],
    ["6 ft 2 in to 6 ft 4 in", "length", 1.8796, 1.9304],
  ] as const)("%s lies anywhere between, its middle half way", (text, dimension, low, high) => {
    const read = readDoubtful(text, dimension);
    expect(read.value).toBeCloseTo((low + high) / 2, 9);
    const { doubt } = read as { doubt: { low: number; high: number } };
    expect(doubt.low).toBeCloseTo(low, 9);
    expect(doubt.high).toBeCloseTo(high, 9);
  });

  test.each([
    ["8 to 1", 8],
    ["1 to 110", 1 / 110],
    ["15.5 to 1", 15.5],
    ["12:48", 0.25],
    ["1 in 110", 1 / 110],
  ])("%s is a ratio, and in no doubt", (text, value) => {
    const read = readDoubtful(text, undefined);
    expect(read.value).toBeCloseTo(value, 9);
    expect(read.doubt).toBeUndefined();
  });

  test.each([
    ["12 to 8 N/kN", undefined, "is turned round; write the smaller first, 8 to 12 N/kN"],
    ["1 in 75 to 1 in 80", undefined, "write the smaller first, 1 in 80 to 1 in 75"],
    ["100 to 100 kg", KG, "two ends that are the same"],
    ["150 kg to 400 lb", KG, "mixes units"],
    ["150 kg ± 10 lb", KG, "mixes units"],
    ["150 ± kg", KG, "breaks off at its ±"],
    ["± 3 kg", KG, "breaks off at its ±"],
    ["3 ± 1 ± 2 kg", KG, "± more than once"],
    ["3 ± -1 kg", KG, "a sign after its ±"],
    ["150 ± 3 N", KG, "is a force where a mass is wanted"],
  ] as const)("%s is refused, with what would do", (text, dimension, message) => {
    expect(() => readDoubtful(text, dimension)).toThrow(UnitError);
    expect(() => readDoubtful(text, dimension)).toThrow(message);
  });
});
