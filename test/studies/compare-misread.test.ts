import { describe, expect, test } from "vitest";
import { compare, type LogColumns } from "../../packages/sim-core/src/index.js";
import { filesOf, LOCO } from "../support/club.js";
import { logOf, rowsOf } from "../support/logs.js";

const FILES = filesOf({}, { speed_mps: 1.5 });
const ROWS = rowsOf(FILES, 3);
const LAP = rowsOf(FILES, 1);
/** With an odometer. */
const placed = (rows: typeof ROWS, scale = 1): LogColumns => ({
  ...logOf(rows),
  distance: Float64Array.from(rows, ({ distance_m }) => scale * distance_m),
});

describe("a log that is wrong in itself", () => {
  test("as its meter is off everywhere alike, and the volts know nothing of it", () => {
    const { meter, agrees } = compare(FILES, logOf(LAP, { gain: 1.2, voltage_V: 0.01 }));
    expect(agrees).toBe(false);
    expect(meter).toMatchObject({ name: "battery_current", flowed: false });
    expect(meter!.reads).toBeGreaterThan(2.1);
    expect(meter!.reads).toBeLessThan(2.3);
  });
  test("is not one of amps that flowed, as the volts show, nor one that agrees", () => {
    const stiff = filesOf({ resistance: { ...LOCO.resistance, rolling: 0.025, breakaway: 0.03 } }, { speed_mps: 1.5 });
    expect(compare(FILES, logOf(rowsOf(stiff, 1), { voltage_V: 0.01 })).meter?.flowed).not.toBe(false);
    expect(compare(FILES, logOf(LAP)).meter).toBeNull();
  });
  test("as a wheel's diameter is, by the scale with which it would lie better, and not by another beginning", () => {
    const fast = Float64Array.from(ROWS, ({ speed_mps }) => 1.06 * speed_mps);
    const answer = compare(FILES, { ...placed(ROWS, 1.06), speed: fast });
    expect(answer.agrees).toBe(false);
    expect(Math.abs(answer.better_scale! * 1.06 - 1)).toBeLessThan(0.012);
    expect(answer.better_from_m).toBeNull();
    expect(compare(FILES, placed(ROWS)).better_scale).toBeNull();
  });
  test.each([
    [3.6, 1 / 3.6],
    [1 / 3.6, 3.6],
  ])("as the unit of its speed is: %f times", (times, scale) => {
    const { time_s, speed, battery_current } = logOf(LAP);
    const wrong = Float64Array.from(speed as Float64Array, (each) => times * each);
    const answer = compare(FILES, { time_s, speed: wrong, battery_current: battery_current! });
    expect(answer.agrees).not.toBe(true);
    expect(Math.abs(answer.speed_unit! / scale - 1)).toBeLessThan(0.06);
    expect(compare(FILES, { time_s, speed: speed!, battery_current: battery_current! }).speed_unit).toBeNull();
  });
  test("as its speed is noisy: nobody strayed for that", () => {
    const noisy = { ...placed(LAP), speed: logOf(LAP, { speed_mps: 0.17, seed: 3 }).speed! };
    expect(compare(FILES, noisy).strayed).toBeNull();
  });
  test("is explained by no figure at the end of what its key takes, nor by one that nobody would believe", () => {
    const { explained_by } = compare(FILES, logOf(LAP, { gain: -0.25, current_A: 0.2, seed: 2 }));
    for (const { path, value, would_be } of explained_by) {
      expect(would_be, path).not.toBe(0);
      if (path === "plan.passenger_mass") expect(Math.abs(would_be - value)).toBeLessThan(35);
    }
  });
});
