import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import { batteryReadings } from "../../packages/sim-core/src/field/battery.js";
import type { BatteryRow } from "../../packages/sim-core/src/field/battery.rows.js";
import { propagated } from "../../packages/sim-core/src/field/propagated.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { MADE_UP, madeUp, readingsOf } from "../support/batteries.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

type Answer = ReturnType<typeof batteryReadings>;
const told = ({ fitted }: Answer, path: string) => fitted.find((each) => each.path === path);
const charge = (answer: Answer) => told(answer, "plan.charge")!;
const resistance = (answer: Answer) => told(answer, "loco.battery.each.resistance")!;
const health = (answer: Answer) => told(answer, "loco.battery.health")!;
const width = ({ low, high }: { low: number; high: number }) => high - low;

const row = (
  reading: BatteryRow["reading"],
  voltage_V: number | null,
  current_A: number | null = null,
  ah?: number,
) => ({
  ...{ reading, voltage_V, current_A },
  charge_C: ah === undefined ? null : ah * 3600,
});
const filesOf = (battery: Partial<LocoDefinition["battery"]> = {}, air_degC = 25): PlanFiles => ({
  plan: { ...PLAN, air_temperature_degC: air_degC },
  loco: { ...LOCO, battery: { ...LOCO.battery, ...battery } },
  track: CIRCUIT,
});
const of = (rows: BatteryRow[], options = {}, files = filesOf()) => batteryReadings(files, rows, options);
const LOADS = [row("load", 25, 10), row("load", 24.4, 50)];

describe("read without any error, a made-up battery is found as it was made", () => {
  const exact = { even: () => 0.5, normal: () => 0 };
  const battery = madeUp(exact);
  test.each([5, 14, 30])("emptied at %d A", (emptied_A) => {
    const answer = batteryReadings(MADE_UP, readingsOf(battery, exact, { emptied_A }));
    expect(charge(answer).value).toBeCloseTo(battery.charge, 9);
    expect(resistance(answer).value).toBeCloseTo(battery.resistance_ohm, 9);
    // Its wells are emptied by steps of 4 s: a few thousandths of an ampere-hour.
    expect(health(answer).value / battery.health).toBeCloseTo(1, 3);
  });
});

describe("the straight and the bent", () => {
  test("of what is straight the ends are those of the law of propagation (JCGM 100:2008, 5.1.2)", () => {
    const { values, ends, correlation } = propagated(({ x = 0, y = 0 }) => [10 + 3 * x + 4 * y, x - y], ["x", "y"]);
    expect(values).toEqual([10, 0]);
    expect(ends[0]![1] - 10).toBeCloseTo(5 * 1.959963984540054, 12);
    expect(ends[1]![0]).toBeCloseTo(-Math.SQRT2 * 1.959963984540054, 12);
    expect(correlation[0]![1]).toBeCloseTo(-1 / (5 * Math.SQRT2), 12);
  });
  test("of what only grows with a sum, they are where the sum's own ends lead to", () => {
    const { ends } = propagated(({ x = 0, y = 0 }) => [Math.exp((3 * x + 4 * y) / 100)], ["x", "y"]);
    expect(ends[0]![1]).toBeCloseTo(Math.exp((5 * 1.959963984540054) / 100), 3);
  });
  test("what nothing moves goes with nothing", () => {
    const { ends, correlation } = propagated(({ x = 0 }) => [1, x], ["x"]);
    expect([ends[0], correlation]).toEqual([
      [1, 1],
      [
        [1, 0],
        [0, 1],
      ],
    ]);
  });
});

describe("doubt", () => {
  test("a meter of coarser steps tells less", () => {
    expect(width(resistance(of(LOADS, { voltageStep_V: 0.1, currentStep_A: 1 })))).toBeGreaterThan(
      1.2 * width(resistance(of(LOADS))),
    );
  });
  test("its own rested volts in the file tell more than the chemistry's", () => {
    const table: [number, number][] = [
      [0, 11.89],
      [0.25, 12.06],
      [0.5, 12.24],
      [0.75, 12.45],
      [1, 12.65],
    ];
    const rows = [row("rested", 24.5)];
    const own = filesOf({ each: { ...LOCO.battery.each, rested_voltage: table } });
    expect(charge(of(rows, {}, own)).value).toBeCloseTo(charge(of(rows)).value, 12);
    expect(width(charge(of(rows, {}, own)))).toBeLessThan(0.8 * width(charge(of(rows))));
  });
  test("loads that are off their line tell less, and fewer of them much less", () => {
    const on = (off_V: number, amps: number[]) =>
      amps.map((each, i) => row("load", 25.2 - 0.015 * each + (i % 2 === 0 ? off_V : -off_V), each));
    const [four, eight] = [
      [10, 25, 40, 55],
      [10, 16, 22, 28, 34, 40, 46, 55],
    ];
    const wide = (off_V: number, amps: number[]) => width(resistance(of(on(off_V, amps))));
    expect(wide(0.15, eight)).toBeGreaterThan(2 * wide(0, eight));
    expect(wide(0.15, four) / wide(0, four)).toBeGreaterThan((1.5 * wide(0.15, eight)) / wide(0, eight));
  });
  test("an air temperature that nobody gave tells less of health and resistance", () => {
    const rows = [...LOADS, row("emptied", null, 14, 50)];
    const { air_temperature_degC: _, ...plan } = PLAN;
    const [given, assumed] = [of(rows, {}, filesOf({}, 15)), of(rows, {}, { ...filesOf(), plan })];
    expect(health(assumed).value).toBeCloseTo(health(given).value, 12);
    expect(width(health(assumed))).toBeGreaterThan(1.2 * width(health(given)));
    expect(width(resistance(assumed))).toBeGreaterThan(1.2 * width(resistance(given)));
  });
  test.each([24.6, 26.4, 26.5])("eight LiFePO4 cells at %d V: their flat stretch tells next to nothing", (volts) => {
    const pack = filesOf({
      chemistry: "lifepo4",
      in_series: 1,
      each: { voltage_V: 25.6, cells: 8, capacity: { capacity_C: 50 * 3600 }, resistance_ohm: 0.02 },
    });
    const wide = width(charge(of([row("rested", volts)], {}, pack)));
    if (volts > 26) expect(wide).toBeGreaterThan(0.5);
    else expect(wide).toBeLessThan(0.15);
  });
});

describe("what it hangs on", () => {
  test("each battery's resistance at 25 °C: as many volts in the cold are less of it, and two strings twice as much", () => {
    const warm = resistance(of(LOADS)).value;
    expect(warm).toBeCloseTo(0.015 / 2, 9);
    // 1.4 times at 0 °C.
    expect(resistance(of(LOADS, {}, filesOf({}, 0))).value).toBeCloseTo(warm / 1.4, 9);
    expect(resistance(of(LOADS, {}, filesOf({ in_parallel: 2 }))).value).toBeCloseTo(2 * warm, 9);
  });
  test("what the file says of resistance and health already changes nothing of what is measured", () => {
    const rows = [...LOADS, row("emptied", null, 14, 50)];
    const other = of(rows, {}, filesOf({ health: 0.7, each: { ...LOCO.battery.each, resistance_ohm: 0.006 } }));
    expect(resistance(other).value).toBeCloseTo(resistance(of(rows)).value, 12);
    expect(health(other).value).toBeCloseTo(health(of(rows)).value, 9);
  });
  test("the volts at its end, where they were read, and the cut-out of the plan otherwise", () => {
    const [read, not] = [21.5, null].map((volts) => of([...LOADS, row("emptied", volts, 14, 50)]));
    expect([read!.end_told, not!.end_told]).toEqual([true, false]);
    // The invented loco cuts out at 19 V: to there it would have given more.
    expect(health(read!).value).toBeGreaterThan(health(not!).value);
  });
  test("more taken is more health; as much by a stronger current too", () => {
    const emptied = (amps: number, ah: number) => health(of([row("emptied", null, amps, ah)])).value;
    expect(emptied(14, 55)).toBeGreaterThan(emptied(14, 50));
    expect(emptied(28, 50)).toBeGreaterThan(emptied(14, 50));
  });
  test("rested volts far above full or below empty tell no charge", () => {
    const [above, below] = [of([row("rested", 27)]), of([row("rested", 21)])];
    expect([above.fitted, above.above_full, below.fitted, below.below_empty]).toEqual([[], true, [], true]);
    expect(charge(of([row("rested", 25.5)]))).toMatchObject({ value: 1, high: 1 });
  });
});

describe("what will not do is told, each with its row", () => {
  test.each<[string, BatteryRow[], string]>([
    ["one's volts of two", [row("rested", 12.7)], "battery.1: 12.7 V is none of a battery of 24 V"],
    ["amps and volts swapped", [row("load", 12, 24.6)], "battery.1: 12 V is none of"],
    ["volts that rise", [row("load", 24.4, 10), row("load", 25, 50)], "battery.2: the volts do not fall"],
    ["one load above rest", [row("rested", 25), row("load", 25.1, 10)], "battery.2: 25.1 V under load is no less"],
    ["loads alike", [row("load", 25, 10), row("load", 24.9, 11)], "battery.2: the loads draw nearly the same amps"],
    ["charge of two labels", [row("emptied", null, 14, 140)], "battery.1: 140 Ah were taken out"],
    ["emptied without its amps", [row("emptied", null, null, 40)], "battery.1: emptied: the amps"],
    ["rested under charge", [row("rested", 25, -3)], "battery.1: rested: -3 A flow"],
    ["two charges", [row("rested", 25.3), row("rested", 24)], "battery.2: rested at 24 V, and before at 25.3 V"],
    ["no figure", [row("load", Number.NaN, 10)], "battery.1: there is a figure that is no number"],
    ["nothing", [], "there is no reading"],
  ])("%s", (_, rows, message) => {
    expect(() => of(rows)).toThrow(InputError);
    expect(() => of(rows)).toThrow(message);
  });
});
