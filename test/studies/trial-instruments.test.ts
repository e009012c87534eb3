import { describe, expect, test } from "vitest";
import {
  errorOnScale,
  gainOnScale,
  INSTRUMENT,
  offScale,
  onScale,
} from "../../packages/sim-core/src/studies/trial/instruments.js";

const VALUES = [-30, -0.01, 0, 0.004, 1, 24, 300];

describe.each(Object.entries(INSTRUMENT))("the scale of %s", (_, instrument) => {
  test("goes there and back", () => {
    for (const value of VALUES) expect(offScale(instrument, onScale(instrument, value))).toBeCloseTo(value, 9);
  });

  test("rises, and carries small errors by its slope", () => {
    for (const value of VALUES) {
      const step = 1e-5 * Math.max(1, Math.abs(value));
      const slope = (onScale(instrument, value + step) - onScale(instrument, value - step)) / (2 * step);
      expect(slope).toBeGreaterThan(0);
      const error = Math.hypot(instrument.share * value, instrument.besides);
      expect(errorOnScale(instrument, value) / (slope * error)).toBeCloseTo(1, 4);
      expect(gainOnScale(instrument, value)).toBeCloseTo(slope * instrument.gain * value, 6);
    }
  });
});
