import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { createBreaker, MAGNETIC_BAND, secondsToTrip } from "../../packages/sim-core/src/parts/breaker.js";
import {
  LASTING_SHARE,
  smallestBreaker,
  surelyHolds_A,
  surelyTrips_A,
} from "../../packages/sim-core/src/parts/breaker.ratings.js";
import { secondsToLimit } from "../../packages/sim-core/src/parts/heat.limit.js";
import { settledWinding_degC, windingAfter_degC } from "../../packages/sim-core/src/parts/heat.nodes.js";
import { carries_A } from "../../packages/sim-core/src/parts/wiring.js";
import { smallestCable_mm2 } from "../../packages/sim-core/src/parts/wiring.sizes.js";

const FITTED = [
  { breaker: { rating_A: 63, curve: "C" as const } },
  { breaker: { rating_A: 16, curve: "B" as const } },
  { fuse: { rating_A: 60 } },
];

describe("sure to hold and sure to trip", () => {
  it.each(FITTED)("stand on either side of the trip that is simulated: %o", (definition) => {
    const b = createBreaker(definition, newNotes());
    expect(secondsToTrip(b, surelyHolds_A(b))).toBe(Number.POSITIVE_INFINITY);
    expect(secondsToTrip(b, surelyTrips_A(b))).toBeLessThan(3600);
  });

  it("are out of reach with nothing fitted", () => {
    const none = createBreaker(undefined, newNotes());
    expect([surelyHolds_A(none), surelyTrips_A(none)]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});

describe("the smallest breaker", () => {
  const loads: [number, number, number][] = [];
  for (const rms of [3, 9, 20, 39, 70, 99]) {
    for (const lasting of [0.8 * rms, rms, 1.6 * rms])
      for (const peak of [1.1, 3, 6]) loads.push([rms, lasting, peak * lasting]);
  }

  it.each(loads)("for %d A rms, %d A up the climb and %d A at most keeps all three rules", (rms, lasting, peak) => {
    const chosen = smallestBreaker(rms, lasting, peak);
    if (!chosen) {
      // Then not even the largest, 125 A with curve D, would do.
      expect(rms > 100 || lasting > 1.13 * 125 || peak >= 1250).toBe(true);
      return;
    }
    const b = createBreaker({ breaker: chosen }, newNotes());
    expect(rms).toBeLessThanOrEqual(LASTING_SHARE * chosen.rating_A);
    expect(lasting).toBeLessThanOrEqual(surelyHolds_A(b));
    expect(secondsToTrip(b, lasting)).toBe(Number.POSITIVE_INFINITY);
    expect(peak).toBeLessThan(b.magneticBand_A[0]);
  });

  it("is bought no larger than need be", () => {
    expect(smallestBreaker(40, 30, 100)).toEqual({ rating_A: 50, curve: "B" });
    expect(smallestBreaker(40.1, 30, 100)).toEqual({ rating_A: 63, curve: "B" });
    expect(smallestBreaker(40, 56.6, 100)).toEqual({ rating_A: 63, curve: "B" });
    expect(smallestBreaker(40, 30, 150)).toEqual({ rating_A: 50, curve: "C" });
    expect(smallestBreaker(101, 0, 0)).toBeNull();
  });

  it("has the simulated magnetic trip inside its band", () => {
    for (const curve of ["B", "C", "D"] as const) {
      const b = createBreaker({ breaker: { rating_A: 40, curve } }, newNotes());
      expect(b.magneticBand_A).toEqual(MAGNETIC_BAND[curve].map((multiple) => 40 * multiple));
      expect(b.magnetic_A).toBeGreaterThan(b.magneticBand_A[0]);
      expect(b.magnetic_A).toBeLessThan(b.magneticBand_A[1]);
    }
  });
});

it("the smallest cable carries the current and the next smaller does not", () => {
  const areas_mm2 = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70];
  for (let current_A = 1; current_A <= 149; current_A++) {
    const area_mm2 = smallestCable_mm2(current_A)!;
    expect(carries_A(area_mm2)).toBeGreaterThanOrEqual(current_A);
    const smaller_mm2 = areas_mm2[areas_mm2.indexOf(area_mm2) - 1];
    if (smaller_mm2 !== undefined) expect(carries_A(smaller_mm2)).toBeLessThan(current_A);
  }
  expect(smallestCable_mm2(150)).toBeNull();
});

describe("time until a winding is too hot", () => {
  const heat = { winding_JpK: 500, case_JpK: 3000, windingToCase_KpW: 0.3, caseToAir_KpW: 0.5, limit_degC: 130 };
  const load = (copper20_W: number) => ({ copper20_W, brush_W: 4, drag_W: 0 });

  it.each([160, 300, 900, 5000])("%d W: the winding is then just at its limit", (copper20_W) => {
    const time_s = secondsToLimit(heat, load(copper20_W), 20, 20, 20);
    expect(windingAfter_degC(heat, load(copper20_W), 20, 20, 20, time_s)).toBeCloseTo(130, 1);
  });

  it("never comes where the winding settles below", () => {
    expect(settledWinding_degC(heat, load(60), 20)).toBeLessThan(130);
    expect(secondsToLimit(heat, load(60), 20, 20, 20)).toBe(Number.POSITIVE_INFINITY);
  });

  it("is over at once where it is hot already, and in moments where the load has no bounds", () => {
    expect(secondsToLimit(heat, load(100), 140, 60, 20)).toBe(0);
    expect(secondsToLimit(heat, load(1e15), 20, 20, 20)).toBeLessThan(0.02);
  });
});
