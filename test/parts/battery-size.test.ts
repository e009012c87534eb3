/// <reference path="../../packages/sim-core/src/ode-rk4.d.ts" />
import rk4 from "ode-rk4";
import { describe, expect, it } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import {
  createBattery,
  emfLoaded_V,
  flow_A,
  labelShare,
  startingWells_C,
} from "../../packages/sim-core/src/parts/battery.js";
import { batteryFor, type Draw } from "../../packages/sim-core/src/parts/battery.size.js";

const HOUR_s = 3600;
const CUTOUT = { "lead-acid": 1.75, lifepo4: 2.8 } as const;
const CABLE_ohm = 0.003;

/** The same day by another integrator: the battery's differential equations at a steady power. */
function emptied(chemistry: "lead-acid" | "lifepo4", label_C: number, draw: Draw, air_degC: number) {
  const b = createBattery(
    { chemistry, each: { voltage_V: 24, capacity: [{ capacity_C: label_C }] } },
    air_degC,
    newNotes(),
  );
  const full_C = b.availableShare * b.wells_C;
  const emf_V = (available_C: number) => emfLoaded_V(b, labelShare(b, available_C / full_C));
  const current_A = (E: number, ohm: number, P: number) => (E - Math.sqrt(E * E - 4 * ohm * P)) / (2 * ohm);
  const y = Float64Array.of(...startingWells_C(b, 1), 0);
  const steps = 4000;
  rk4(
    y,
    (dydt, at) => {
      const drawn_A = current_A(emf_V(at[0]!), draw.unevenness * b.resistance_ohm, draw.mean_W);
      const flow = flow_A(b, at[0]!, at[1]!);
      dydt[0] = flow - drawn_A;
      dydt[1] = -flow;
      dydt[2] = drawn_A;
    },
    0,
    draw.time_s / steps,
  ).steps(steps);
  const volts = (power_W: number) => {
    const drawn_A = current_A(emf_V(y[0]!), b.resistance_ohm, power_W);
    return emf_V(y[0]!) - (b.resistance_ohm + CABLE_ohm) * drawn_A;
  };
  return { share: 1 - y[2]! / b.label_C, mean_V: volts(draw.mean_W), peak_V: volts(draw.peak_W), cells: b.cells };
}

const sized = (chemistry: "lead-acid" | "lifepo4", draw: Draw, air_degC = 25) =>
  batteryFor(chemistry, 24, draw, CUTOUT[chemistry], CABLE_ohm, air_degC);

describe.each(["lead-acid", "lifepo4"] as const)("a %s battery for a day", (chemistry) => {
  const reserve = chemistry === "lead-acid" ? 0.5 : 0.2;

  it.each([25, -5])("of three hours has its reserve left, in air of %d °C", (air_degC) => {
    const draw = { time_s: 3 * HOUR_s, mean_W: 200, unevenness: 1.4, peak_W: 350 };
    const { label_C, decidedBy } = sized(chemistry, draw, air_degC);
    const left = emptied(chemistry, label_C, draw, air_degC);
    expect(decidedBy).toBe("reserve");
    // Emptied in 120 parts, each at the e.m.f. it begins with.
    expect(Math.abs(left.share - reserve)).toBeLessThan(1e-3);
    expect(left.peak_V).toBeGreaterThan(CUTOUT[chemistry] * left.cells);
  });

  it("drawn fast is larger than the reserve asks for, so that its volts just hold", () => {
    const draw = { time_s: HOUR_s / 20, mean_W: 400, unevenness: 1, peak_W: 400 };
    const { label_C, decidedBy } = sized(chemistry, draw);
    const left = emptied(chemistry, label_C, draw, 25);
    expect(decidedBy).toBe("rate");
    expect(left.share).toBeGreaterThan(reserve);
    expect(left.mean_V / (CUTOUT[chemistry] * left.cells)).toBeCloseTo(1, 2);
  });

  it("with a peak at the end is larger yet, and the cut-out told", () => {
    const draw = { time_s: HOUR_s, mean_W: 100, unevenness: 1, peak_W: 2500 };
    const { label_C, decidedBy } = sized(chemistry, draw);
    const left = emptied(chemistry, label_C, draw, 25);
    expect(decidedBy).toBe("cut_out");
    expect(left.share).toBeGreaterThan(reserve);
    expect(left.peak_V / (CUTOUT[chemistry] * left.cells)).toBeCloseTo(1, 3);
  });

  it("more power, more hours and more cold ask for more", () => {
    const draw = { time_s: 2 * HOUR_s, mean_W: 150, unevenness: 1.3, peak_W: 500 };
    const least = sized(chemistry, draw).label_C;
    expect(sized(chemistry, { ...draw, mean_W: 160 }).label_C).toBeGreaterThan(least);
    expect(sized(chemistry, { ...draw, time_s: 2.2 * HOUR_s }).label_C).toBeGreaterThan(least);
    expect(sized(chemistry, { ...draw, unevenness: 1.5 }).label_C).toBeGreaterThan(least);
    expect(sized(chemistry, draw, 0).label_C).toBeGreaterThan(least);
  });
});

it("there is none where the cable alone takes the volts", () => {
  const draw = { time_s: HOUR_s, mean_W: 100, unevenness: 1, peak_W: 24 * 2000 };
  expect(sized("lead-acid", draw).label_C).toBe(Number.POSITIVE_INFINITY);
});
