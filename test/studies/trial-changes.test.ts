import { describe, expect, test } from "vitest";
import { gravity_N } from "../../packages/sim-core/src/drive/pull.js";
import { G_mps2 } from "../../packages/sim-core/src/parts/constants.js";
import {
  massTimes,
  withBattery_ohm,
  withCable_ohm,
  withResistance,
} from "../../packages/sim-core/src/studies/trial/changes.js";
import { clubOuting } from "../support/club.js";

const { train } = clubOuting().train;

describe("a train of twice the mass", () => {
  const heavy = massTimes(train, 2);

  test("weighs, rolls, starts and is drawn downhill twice as hard", () => {
    for (const key of ["mass_kg", "rolling_N", "rolling_Nspm", "breakaway_N"] as const)
      expect(heavy[key], key).toBeCloseTo(2 * train[key], 9);
    expect(gravity_N(heavy, 0.02)).toBeCloseTo(2 * gravity_N(train, 0.02), 9);
  });

  test("is the sum of its vehicles, and turns no more than before", () => {
    const weight_N = heavy.vehicles.reduce((sum, { length_m }, i) => sum + heavy.gravity_Npm[i]! * length_m, 0);
    expect(weight_N).toBeCloseTo(heavy.mass_kg * G_mps2, 9);
    // Wheels turn as they did: what moves along has grown by the mass alone.
    expect(heavy.translating_kg - train.translating_kg).toBeCloseTo(train.mass_kg, 9);
    expect(heavy.effective_kg - heavy.translating_kg).toBeCloseTo(train.rim_kg, 9);
  });
});

describe("one thing changed", () => {
  test("leaves the others: resistance of the last vehicle", () => {
    const last = train.vehicles.length - 1;
    const { mass_kg } = train.vehicles[last]!;
    const more = withResistance(train, (r, _, i) => (i === last ? { rolling: r.rolling + 0.01 } : {}));
    expect(more.rolling_N - train.rolling_N).toBeCloseTo(0.01 * mass_kg * G_mps2, 9);
    expect(more.breakaway_N).toBeCloseTo(train.breakaway_N, 9);
    expect(more.mass_kg).toBe(train.mass_kg);
  });

  test("battery and cable are in series", () => {
    expect(withBattery_ohm(train, 0.1).source_ohm).toBeCloseTo(0.1 + train.batteryCable_ohm, 12);
    expect(withCable_ohm(train, 0.1).source_ohm).toBeCloseTo(0.1 + train.battery.resistance_ohm, 12);
  });
});
