/// <reference path="../../packages/sim-core/src/ode-rk4.d.ts" />
import rk4 from "ode-rk4";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { createBreaker, imageRate_ps, secondsToTrip } from "../../packages/sim-core/src/parts/breaker.js";
import { cable_ohm, createWiring } from "../../packages/sim-core/src/parts/wiring.js";

describe("wiring", () => {
  it("takes and lists its defaults", () => {
    const notes = newNotes();
    const w = createWiring(undefined, 20, notes);
    expect(notes.assumed.map((a) => `${a.key.replace("loco.wiring.", "")} ${a.value}`)).toEqual([
      "battery_cable.length 2 m",
      "battery_cable.area 16 mm²",
      "motor_cable.length 1.5 m",
      "motor_cable.area 16 mm²",
      "accessories 0 W",
    ]);
    expect(w.batteryCable_ohm).toBeCloseTo(2 * 1.21e-3, 12);
    expect(w.motorCable_ohm).toBeCloseTo(1.5 * 1.21e-3, 12);
  });

  it("takes what is given", () => {
    const notes = newNotes();
    const cables = { battery_cable: { length_m: 3, area_mm2: 25 }, motor_cable: { length_m: 1, area_mm2: 13.3 } };
    const w = createWiring({ ...cables, accessories_W: 10 }, 50, notes);
    expect(notes.assumed).toEqual([]);
    expect(w.batteryCable_ohm).toBe(cable_ohm(3, 25, 50));
    expect([w.batteryCable_mm2, w.motorCable_mm2, w.accessories_W]).toEqual([25, 13.3, 10]);
  });

  it.each([0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120])(
    "%d mm² of strands resists 5 to 18 %% more than solid copper of that area",
    (area_mm2) => {
      // The standard's greatest resistance allows for strand and lay; a misprint in the table would stand out.
      const more = cable_ohm(1000, area_mm2, 20) / cable_ohm(1000, area_mm2 + 1e-9, 20);
      expect(more).toBeGreaterThan(1.05);
      expect(more).toBeLessThan(1.18);
    },
  );
});

describe("breaker", () => {
  it("with none fitted nothing ever warms or trips", () => {
    const none = createBreaker(undefined, newNotes());
    expect(none.kind).toBe("none");
    expect(imageRate_ps(none, 0, 1e6)).toBe(0);
    expect(secondsToTrip(none, 1e6)).toBe(Number.POSITIVE_INFINITY);
  });

  it("takes curve C and says so", () => {
    const notes = newNotes();
    const b = createBreaker({ breaker: { rating_A: 63 } }, notes);
    expect(notes.assumed).toMatchObject([{ key: "loco.wiring.breaker.curve", value: "C" }]);
    expect(b.magnetic_A).toBeCloseTo(63 * Math.sqrt(50), 10);
  });

  it("both at once are refused", () => {
    const notes = newNotes();
    createBreaker({ breaker: { rating_A: 63 }, fuse: { rating_A: 60 } }, notes);
    expect(notes.problems.map((p) => p.path)).toEqual(["loco.wiring.fuse"]);
  });

  it.each([
    ["breaker", { breaker: { rating_A: 63, curve: "C" as const } }],
    ["fuse", { fuse: { rating_A: 63 } }],
  ])("a %s part warm trips when its image, integrated, says so", (_, definition) => {
    const b = createBreaker(definition, newNotes());
    const time_s = secondsToTrip(b, 130, 0.4);
    const image = Float64Array.of(0.4);
    const steps = 200;
    rk4(
      image,
      (dydt, at) => {
        dydt[0] = imageRate_ps(b, at[0]!, 130);
      },
      0,
      time_s / steps,
    ).steps(steps);
    expect(image[0]).toBeCloseTo(1, 10);
    expect(time_s).toBeLessThan(secondsToTrip(b, 130));
    expect(secondsToTrip(b, 130, 1)).toBe(0);
  });
});
