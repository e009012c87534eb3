import { describe } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { WorkingCurrents } from "../../packages/sim-core/src/studies/protection/answer.js";
import { protectionOf } from "../../packages/sim-core/src/studies/protection/protection.js";
import { clubPlan, LOCO } from "../support/club.js";
import { checks, UNROUNDED } from "./check.js";

type Wiring = NonNullable<LocoDefinition["wiring"]>;

/** The club's loco in air of a temperature, so that its cables are as warm, with other wiring and another battery. */
const protect = (air_degC: number, wiring: Wiring, currents: WorkingCurrents | null, resistance_ohm = 2.7e-3) =>
  protectionOf(
    clubPlan(
      undefined,
      { air_temperature_degC: air_degC },
      {
        wiring,
        battery: {
          ...LOCO.battery,
          each: {
            voltage_V: 12,
            capacity: [{ capacity_C: 1e6 }],
            resistance_ohm,
            rested_voltage: [
              [0, 11],
              [1, 12.7],
            ],
          },
        },
      },
    ),
    currents,
  );

const drawing = (battery_A: number, motor_A: number): WorkingCurrents => ({
  rms_battery_current_A: battery_A / 2,
  peak_battery_current_A: battery_A,
  rms_motor_current_A: motor_A / 2,
  peak_motor_current_A: motor_A,
});

describe("volts lost in cables", () => {
  const source = "IEC 60228 class 5 resistance × length × (1 + 0.00393 ΔT) × current, worked by hand";
  const thick = { battery_cable: { length_m: 3, area_mm2: 25 }, motor_cable: { length_m: 2.4, area_mm2: 16 } };
  const cool = protect(20, thick, drawing(80, 60)).battery_cable;
  const hot = protect(70, thick, drawing(80, 60)).battery_cable;
  const motor = protect(40, thick, drawing(80, 60)).motor_cable;
  const row = (what: string, got: number | null, expected: number) => ({
    what,
    source,
    got: got ?? Number.NaN,
    expected,
    ...UNROUNDED,
  });
  checks([
    row("25 mm², 3 m, 80 A at 20 °C, V", cool.drop_at_peak_V, 0.1872),
    row("at 70 °C, V", hot.drop_at_peak_V, 0.2239848),
    row("at 70 °C, percent of 24 V", hot.drop_at_peak_percent, 0.93327),
    row("at half the current, V", hot.drop_at_rms_V, 0.1119924),
    row("16 mm², 2.4 m, 60 A at 40 °C, V", motor.drop_at_peak_V, 0.187935264),
  ]);
});

describe("prospective short circuit", () => {
  const source = "25.4 V over two blocks of 2.7 mohm and 3 m of 25 mm² at 20 °C, worked by hand";
  const wiring = { battery_cable: { length_m: 3, area_mm2: 25 } };
  // 0.5 mohm of joints, half with each block.
  const joined = protect(20, wiring, null, 2.7e-3 + 0.25e-3).short_circuit;
  const bare = protect(20, wiring, null).short_circuit;
  checks([
    { what: "with 0.5 mohm of joints", source, got: joined.current_A, expected: 3082.52427, ...UNROUNDED },
    { what: "at the terminals", source, got: bare.at_terminals_A, expected: 4703.7037, ...UNROUNDED },
    {
      what: "time that the cable stands it",
      source: "IEC 60364-4-43, k = 115 for PVC (from memory), worked by hand for 3083.5 A",
      got: joined.cable_withstands_s,
      expected: 0.8693,
      within: 1e-3,
      because: "the current there is 0.3 per mille larger, and counts squared",
    },
  ]);
});

describe("breaker", () => {
  const of = (curve: "B" | "C") => protect(20, { breaker: { rating_A: 100, curve } }, null);
  const standard = "IEC 60898-1, table of tripping currents (a maker's manual)";
  const onDc = "magnetic bands on direct current, B 4 to 7, C 7 to 15 (from memory)";
  const whole = { within: 0.07, because: "given in whole multiples, and rounded outwards" };
  const row = (what: string, source: string, got: number | null, expected: number, tolerance = UNROUNDED) => ({
    what,
    source,
    got: got ?? Number.NaN,
    expected,
    ...tolerance,
  });
  checks([
    row("holds", standard, of("C").surely_holds_A, 113),
    row("trips", standard, of("C").surely_trips_A, 145),
    row("B from", standard, of("B").magnetic_from_A, 300),
    row("B to", standard, of("B").magnetic_to_A, 500),
    row("C from", standard, of("C").magnetic_from_A, 500),
    row("C to", standard, of("C").magnetic_to_A, 1000),
    row("B from", onDc, of("B").magnetic_on_dc_from_A, 400, whole),
    row("B to", onDc, of("B").magnetic_on_dc_to_A, 700, whole),
    row("C from", onDc, of("C").magnetic_on_dc_from_A, 700, whole),
    row("C to", onDc, of("C").magnetic_on_dc_to_A, 1500, whole),
  ]);
});

describe("fuse", () => {
  const fuse = protect(20, { fuse: { rating_A: 60 } }, null);
  const source = "UL 248-14: carries its rating, opens within an hour at 1.35 times (a maker's guide)";
  checks([
    { what: "holds", source, got: fuse.surely_holds_A ?? 0, expected: 60, ...UNROUNDED },
    { what: "opens", source, got: fuse.surely_trips_A ?? 0, expected: 81, ...UNROUNDED },
  ]);
});
