import { describe, expect, test } from "vitest";
import type { Book } from "../../packages/sim-core/src/studies/trial/book.js";
import { MISREAD } from "../../packages/sim-core/src/studies/trial/instruments.js";
import type { Rival } from "../../packages/sim-core/src/studies/trial/next.js";
import { gain_bits } from "../../packages/sim-core/src/studies/trial/next.js";
import type { ReadingUnit } from "../../packages/sim-core/src/studies/trial/readings.kinds.js";

/** What one reading is expected to tell of two causes, each with its probability, what it has there, and how surely. */
function bits(unit: ReadingUnit, ...rivals: [probability: number, value: number | null, sd: number][]): number {
  const book = { readings: [{ unit, instrument: undefined }] } as unknown as Book;
  const ways = rivals.map(([probability, value, sd]) => {
    const prediction = { values: [value], scaled: [value], covariance: Float64Array.of(sd ** 2) };
    return { probability, prediction } as unknown as Rival;
  });
  return gain_bits(book, [], ways, 0);
}

const entropy = (p: number) => -p * Math.log2(p) - (1 - p) * Math.log2(1 - p);

describe("what a reading is expected to tell of two causes", () => {
  test("is all there is to know where they are well apart", () => {
    expect(bits("V", [0.5, 0, 1], [0.5, 100, 1])).toBeCloseTo(1, 3);
    expect(bits("V", [0.1, 0, 1], [0.3, 100, 1])).toBeCloseTo(entropy(0.25), 3);
  });

  test("is nothing where they are alike", () => {
    expect(bits("V", [0.5, 24, 1], [0.5, 24, 1])).toBeCloseTo(0, 9);
    expect(bits("yes/no", [0.5, 2, 1], [0.5, 2, 1])).toBeCloseTo(0, 9);
    expect(bits("V", [0.5, null, 1], [0.5, null, 1])).toBe(0);
  });

  // Two signs in Gaussian noise carry half a bit at this spread: the limit of codes of rate one half, 0.187 dB
  // (Richardson and Urbanke, Modern Coding Theory, give 0.9787; from memory).
  test("is half a bit for causes at -1 and 1 of a spread of 0.9787", () => {
    expect(bits("V", [0.5, -1, 0.9787], [0.5, 1, 0.9787])).toBeCloseTo(0.5, 3);
  });

  test("of a sure yes against a sure no is one bit less what slips of the pen take", () => {
    expect(bits("yes/no", [0.5, 1e9, 1], [0.5, -1e9, 1])).toBeCloseTo(1 - entropy(MISREAD), 9);
  });

  test("counts that there is nothing to read as much as any value", () => {
    expect(bits("V", [0.5, 24, 1], [0.5, null, 1])).toBeCloseTo(1, 3);
  });
});
