import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { batteryReadings } from "../../packages/sim-core/src/field/battery.js";
import type { BatteryRow } from "../../packages/sim-core/src/field/battery.rows.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";
import { HOUR_s } from "./check.js";

type Definition = LocoDefinition["battery"];

/** A battery on the invented loco, for figures that are its own alone. */
const filesOf = (battery: Definition, air_degC = 25) => ({
  plan: { ...PLAN, air_temperature_degC: air_degC },
  loco: { ...LOCO, battery, controller: { ...LOCO.controller, undervoltage_cutout_V: 0.7 * battery.each.voltage_V } },
  track: CIRCUIT,
});
const row = (
  reading: BatteryRow["reading"],
  voltage_V: number | null,
  current_A: number | null = null,
  ah?: number,
) => ({
  ...{ reading, voltage_V, current_A },
  charge_C: ah === undefined ? null : ah * HOUR_s,
});
const of = (answer: ReturnType<typeof batteryReadings>, path: string) =>
  answer.fitted.find((each) => each.path === path)!;

/** Rows of measured data by their headings; source and licence stand in each file's own head. */
function measured(name: string): Record<string, number>[] {
  const text = readFileSync(new URL(`data/${name}.csv`, import.meta.url), "utf8");
  const [head, ...rows] = text
    .trim()
    .split("\n")
    .filter((line) => !line.startsWith("#"))
    .map((line) => line.split(","));
  return rows.map((cells) => Object.fromEntries(cells.map((cell, i) => [head![i]!, Number(cell)])));
}

/** Ampere-hours by trapezoids, and the mean current. */
function counted(rows: readonly Record<string, number>[]): { ah: number; mean_A: number } {
  const ah = rows.slice(1).reduce((sum, { time_s, current_A }, i) => {
    const before = rows[i]!;
    return sum + ((current_A! + before["current_A"]!) / 2) * ((time_s! - before["time_s"]!) / HOUR_s);
  }, 0);
  return { ah, mean_A: (ah * HOUR_s) / (rows.at(-1)!["time_s"]! - rows[0]!["time_s"]!) };
}

describe("hour rates of a 12 V 40 Ah block (Vinachem's datasheet): each is a run of a battery in full health", () => {
  const block: Definition = {
    chemistry: "lead-acid",
    each: {
      voltage_V: 12,
      capacity: [
        { time_s: 20 * HOUR_s, capacity_C: 40 * HOUR_s },
        { time_s: 10 * HOUR_s, capacity_C: 37.2 * HOUR_s },
        { time_s: 5 * HOUR_s, capacity_C: 34 * HOUR_s },
        { time_s: HOUR_s, capacity_C: 24 * HOUR_s },
      ],
    },
  };
  test.each([
    // Under load the volts of the model fall straight to 1.75 V a cell at the 20-hour rate: with 10.8 V something is left.
    [20, 40, 10.8, 0.04],
    // Two wells miss these rates by up to 0.36 Ah, 1.5 % of the smallest.
    [10, 37.2, 10.5, 0.016],
    [5, 34, 10.2, 0.016],
    [1, 24, 9.6, 0.016],
  ])("%d h: %d Ah to %d V", (hours, ah, end_V, within) => {
    const { value, low, high } = of(
      batteryReadings(filesOf(block), [row("emptied", end_V, ah / hours, ah)]),
      "loco.battery.health",
    );
    expect(Math.abs(value - 1)).toBeLessThan(within);
    expect(low).toBeLessThan(1);
    expect(high).toBeGreaterThan(1);
  });
});

describe("rested volts of a 12 V lead-acid battery by others' tables: the charge lies within what is told", () => {
  const block: Definition = { chemistry: "lead-acid", each: { voltage_V: 12, capacity: { capacity_C: 75 * HOUR_s } } };
  const told = (volts: number) => of(batteryReadings(filesOf(block), [row("rested", volts)]), "plan.charge");
  test.each([
    ["lists.ettus.com", 12.6, 1],
    ["lists.ettus.com", 12.4, 0.75],
    ["lists.ettus.com", 12.2, 0.5],
    ["lists.ettus.com", 12, 0.25],
    ["0.84 V and the acid's gravity a cell: common practice, no source", 12.63, 1],
    ["0.84 V and the acid's gravity a cell: common practice, no source", 12.39, 0.75],
    ["0.84 V and the acid's gravity a cell: common practice, no source", 12.18, 0.5],
    ["0.84 V and the acid's gravity a cell: common practice, no source", 11.97, 0.25],
    ["0.84 V and the acid's gravity a cell: common practice, no source", 11.76, 0],
  ])("%s: %d V", (_, volts, charge) => {
    const { low, high } = told(volts);
    expect(low).toBeLessThanOrEqual(charge);
    expect(high).toBeGreaterThanOrEqual(charge);
  });
  test("Discover Battery's table, read between its points: 12.324 V at 60 % (derived)", () => {
    expect(told(12.324).value).toBeCloseTo(0.6, 9);
  });
});

describe("a LiFePO4 26650 cell of 2.6 Ah (University of South Carolina, ARTS-Lab, data set K2)", () => {
  const cell: Definition = {
    chemistry: "lifepo4",
    each: { voltage_V: 3.2, cells: 1, capacity: { capacity_C: 2.6 * HOUR_s } },
  };
  const pulse = measured("lfp-26650-pulse-20C");
  const at = (time_s: number) => pulse.find((each) => each["time_s"] === time_s)!;

  test("emptied at 20 °C and at 40 °C: 2.1964 and 2.2323 Ah, and one health", () => {
    const [cool, warm] = [20, 40].map((degC) => {
      const { ah, mean_A } = counted(measured(`lfp-26650-cc-${degC}C`));
      const rows = [row("emptied", 2.5, mean_A, ah)];
      return { ah, health: of(batteryReadings(filesOf(cell, degC), rows), "loco.battery.health") };
    });
    expect(cool!.ah).toBeCloseTo(2.1964, 3);
    expect(warm!.ah).toBeCloseTo(2.2323, 3);
    // Measured 0.08 % per kelvin apart, by the makers' figures of another pack 0.078 %.
    expect(Math.abs(cool!.health.value / warm!.health.value - 1)).toBeLessThan(0.005);
    // At 25 °C, between the two, it would give 2.205 Ah.
    expect(cool!.health.value).toBeCloseTo(2.205 / 2.6, 1);
    expect(cool!.health.low).toBeLessThan(2.205 / 2.6);
    expect(cool!.health.high).toBeGreaterThan(2.205 / 2.6);
  });

  test("first second at 5.93 A from rest: 34.4 mohm; after eleven seconds half as much again, what sags counted in", () => {
    const rest_V = at(59)["voltage_V"]!;
    const told = (time_s: number) => {
      const { voltage_V, current_A } = at(time_s);
      return batteryReadings(filesOf(cell, 20), [row("rested", rest_V), row("load", voltage_V!, current_A!)]);
    };
    const [first, last] = [told(60), told(70)];
    expect(first.from_rest).toBe(true);
    // Printed from means of the current: a row's own is some 0.2 % off.
    expect(first.resistance_ohm).toBeCloseTo(0.03443, 4);
    expect(last.resistance_ohm).toBeCloseTo(0.04453, 3);
    // A meter for a loco's battery reads a single cell's volts poorly, and says so.
    const { low, high, value } = of(first, "loco.battery.each.resistance");
    expect(high - low).toBeGreaterThan(0.2 * value);
  });

  test("the first second at 3 A: 35.5 mohm", () => {
    const { voltage_V, current_A } = at(447);
    const rows = [row("rested", at(446)["voltage_V"]!), row("load", voltage_V!, current_A!)];
    expect(batteryReadings(filesOf(cell, 20), rows).resistance_ohm).toBeCloseTo(0.03552, 3);
  });

  test("rested half empty: the volts tell next to nothing of its charge, and what is told holds it", () => {
    const rows = pulse.filter((each) => each["time_s"]! >= 30 && each["time_s"]! < 60);
    const rest_V = rows.reduce((sum, each) => sum + each["voltage_V"]!, 0) / rows.length;
    expect(rest_V).toBeCloseTo(3.25812, 4);
    const { low, high } = of(batteryReadings(filesOf(cell, 20), [row("rested", rest_V)]), "plan.charge");
    // 1.095 Ah had been taken: half of the 2.1964 Ah that it gives.
    const charge = 1 - 1.095 / 2.1964;
    expect(low).toBeLessThan(charge);
    expect(high).toBeGreaterThan(charge);
    expect(high - low).toBeGreaterThan(0.4);
  });
});

describe("a 33.1 Ah car cell, emptied at 30.6 and at 91.8 A (Oak Ridge and NREL, batterysim's examples)", () => {
  const [slow, fast] = ["leaf-cell-1C", "leaf-cell-3C"].map((name) =>
    measured(name).filter((each) => each["current_A"]! > 1),
  );
  const voltsAt = (rows: readonly Record<string, number>[], ah: number) => {
    const i = rows.findIndex((each) => each["amp_hours"]! >= ah);
    const [a, b] = [rows[i - 1]!, rows[i]!];
    const share = (ah - a["amp_hours"]!) / (b["amp_hours"]! - a["amp_hours"]!);
    return a["voltage_V"]! + share * (b["voltage_V"]! - a["voltage_V"]!);
  };
  const given_Ah = 30.33;
  // Its rested volts are in no table: the slow discharge, with what the measured resistance takes put back.
  const rested = [...Array(21).keys()].map((i): [number, number] => {
    const taken_Ah = given_Ah * (1 - i / 20);
    const volts = i === 0 ? slow!.at(-1)!["voltage_V"]! : i === 20 ? slow![0]!["voltage_V"]! : voltsAt(slow!, taken_Ah);
    return [i / 20, volts + 30.6 * 0.003494];
  });
  const cell: Definition = {
    each: {
      voltage_V: 3.75,
      capacity: { time_s: HOUR_s, capacity_C: given_Ah * HOUR_s },
      resistance_ohm: 0.004,
      rested_voltage: rested,
    },
  };
  const loads = [row("load", voltsAt(slow!, 15), 30.6), row("load", voltsAt(fast!, 15), 91.8)];

  test("3.7911 and 3.5773 V at 15 Ah: 3.494 mohm", () => {
    const answer = batteryReadings(filesOf(cell), loads);
    const { value, low, high } = of(answer, "loco.battery.each.resistance");
    expect(Math.abs(value / 0.003494 - 1)).toBeLessThan(1e-3);
    expect(answer.from_rest).toBe(false);
    expect([low < 0.003494, high > 0.003494]).toEqual([true, true]);
  });

  test("emptied to 3.0 V three times as fast it gave 5.3 % less: the same health, within what is told", () => {
    const health = (amps: number, ah: number) =>
      of(batteryReadings(filesOf(cell), [...loads, row("emptied", 3, amps, ah)]), "loco.battery.health");
    const [once, thrice] = [health(30.6, 30.33), health(91.8, 28.72)];
    expect(once.value).toBeCloseTo(1, 2);
    expect(thrice.low).toBeLessThan(once.value);
    expect(thrice.high).toBeGreaterThan(once.value);
  });
});
