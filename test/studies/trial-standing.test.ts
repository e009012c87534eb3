import { describe, expect, test } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { causesOf } from "../../packages/sim-core/src/studies/trial/causes.js";
import { surenessOf } from "../../packages/sim-core/src/studies/trial/doubts.js";
import type { Taken } from "../../packages/sim-core/src/studies/trial/judged.js";
import { readingsOf } from "../../packages/sim-core/src/studies/trial/readings.js";
import { settingOf } from "../../packages/sim-core/src/studies/trial/setting.js";
import { gripSlides_N } from "../../packages/sim-core/src/studies/trial/settled.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { trial } from "../../packages/sim-core/src/studies/trial/trial.js";
import { clubOuting, LOCO, PLAN } from "../support/club.js";

// "I opened the lever and nothing happened." The order from the battery on towards the motor is common practice in fault
// finding, no source; what each place reads follows from the circuit alone.

const BRAKED: LocoDefinition = { ...LOCO, brakes: [{ rail_force_N: 300, delay_s: 0.2, build_up_s: 0.4 }] };
const { lever: _, ...HELD } = PLAN;
const outing = clubOuting(BRAKED, { ...HELD, speed_mps: 1.6 });
const setting = settingOf(outing, BRAKED);
const { machine } = setting;
const readings = readingsOf(setting);
const ways = causesOf(setting, surenessOf(outing.train.notes.assumed, BRAKED)).flatMap(({ cause, variants }) =>
  variants.map((variant) => ({ cause, ...variant })),
);
const way = (where: string) =>
  ways.find((each) => each.where === where && (each.cause === "open_circuit" || each.cause === "held_wheel"))!;

/** What somebody reads on a loco with this wrong; of a yes or no 1 and 0. */
function reads(where: string, lever?: number): (reading: string) => number | null {
  const { apply, sizes } = way(where);
  const states = statesOf(setting, apply(machine, lever ?? sizes[Math.floor(sizes.length / 2)]!));
  return (name) => {
    const { unit, value } = readings.find(({ reading }) => reading === name)!;
    const there = value(states);
    return unit === "yes/no" && there !== null ? Number(there > 0) : there;
  };
}

const judged = (...taken: [reading: string, value: number][]) =>
  trial(outing, BRAKED, { filled: { taken: taken.map(([reading, value]) => ({ reading, value })) } });
const first = (...taken: [string, number][]) => judged(...taken).causes![0]!;

describe("driven wheels that cannot turn", () => {
  const jammed = reads("the driven wheels cannot turn", 0.4);
  test("do not turn on stands, pull nothing, and are dragged along at their sliding grip", () => {
    expect([jammed("stands_rpm_full"), jammed("held_pull"), jammed("most_pull")]).toEqual([0, 0, 0]);
    expect([jammed("stands_turn"), jammed("moves"), jammed("pushes")]).toEqual([0, 0, 0]);
    const { light } = machine;
    expect(jammed("roll_loco")).toBeCloseTo(light.rolling_N + gripSlides_N(light), 6);
    expect(jammed("held_motor_amps")).toBeGreaterThan(10);
  });

  test("chocks hold the train and not the wheels", () => {
    const chocked = reads("chocks left under the wheels", 0.4);
    expect([chocked("stands_turn"), chocked("moves"), chocked("look_chocks")]).toEqual([1, 0, 0]);
    expect(chocked("stands_rpm_full")).toBeGreaterThan(50);
    // The further the lever, the more amps, up to the limit or to where the wheels would spin.
    const amps = [0.08, 0.2, 0.4, 1].map((lever) => reads("chocks left under the wheels", lever)("run_motor_amps")!);
    expect(amps).toEqual([...amps].sort((a, b) => a - b));
    expect(amps[0]).toBeLessThan(0.5 * amps[3]!);
  });
});

describe("an open circuit reads by where it is", () => {
  test.each([
    ["at the isolator", [0, 0, 0, 0]],
    ["at the dead-man's switch", [1, 0, 0, 0]],
    ["between controller and motor", [1, 1, 0, 1]],
    ["in the motor, at its brushes", [1, 1, 1, 0]],
  ])("%s", (where, live) => {
    const read = reads(where);
    const names = ["held_controller_volts", "held_output_volts", "held_motor_volts", "held_motor_drop"];
    expect(names.map((name) => Number(read(name)! > 1))).toEqual(live);
    expect([read("held_motor_amps"), read("run_motor_amps"), read("moves")]).toEqual([0, 0, 0]);
  });
});

describe("the first outings that went wrong", () => {
  test("volts at rest and no speed leave several causes, and there is always a next reading", () => {
    const { causes, next_reading } = judged(["rest_volts", 25], ["run_speed", 0]);
    expect(causes![0]!.probability).toBeLessThan(0.9);
    expect(next_reading!.bits).toBeGreaterThan(0.1);
    expect(Number.isFinite(next_reading!.bits)).toBe(true);
  });

  test("no to forwards when nothing moved is no crossed lead", () => {
    const crossed = (...taken: [string, number][]) =>
      judged(...taken).causes!.find(({ cause }) => cause === "reversed_lead")!.probability;
    expect(crossed(["run_forwards", 0])).toBeLessThan(0.5);
    expect(crossed(["run_forwards", 0], ["run_speed", 0])).toBeLessThan(0.05);
    expect(crossed(["moves", 0])).toBeLessThan(0.05);
  });

  test.each([13.8, 25, 40])("a chocked train with %d A is held fast, on a battery half down too", (amps) => {
    for (const volts of [25.3, 24.2])
      expect(first(["rest_volts", volts], ["run_speed", 0], ["run_motor_amps", amps]), `${volts} V`).toMatchObject({
        cause: "held_wheel",
      });
  });

  test("0 rpm on stands with the amps of a stalled motor is a wheel that cannot turn", () => {
    const { cause, where } = first(
      ["rest_volts", 25.3],
      ["stands_rpm_full", 0],
      ["run_speed", 0],
      ["run_motor_amps", 60],
    );
    expect([cause, where]).toEqual(["held_wheel", "the driven wheels cannot turn"]);
  });

  test("12.65 V of two batteries is one too few", () => {
    expect(first(["rest_volts", 12.65]).cause).toBe("wrong_battery_voltage");
    expect(first(["rest_volts", 12.65], ["battery_1_volts", 12.65], ["run_speed", 0]).cause).toBe(
      "wrong_battery_voltage",
    );
  });

  test("a controller that shuts itself off with a good battery is a cut-out, not an open circuit", () => {
    const taken: [string, number][] = [
      ["rest_volts", 25.3],
      ["run_speed", 0],
      ["run_motor_amps", 0],
    ];
    expect(first(...taken, ["run_controller_volts", 25.3], ["restart_cuts_out", 1]).cause).toBe("cutout_set_wrong");
  });

  test("poor grip, opened slowly, starts with the same amps as good grip where its margin says it starts", () => {
    const poor = ways.find(({ cause }) => cause === "poor_grip")!;
    for (const by of poor.sizes) {
      const states = statesOf(setting, poor.apply(machine, by));
      const value = (name: string) => readings.find(({ reading }) => reading === name)!.value(states);
      expect(value("restart_amps") !== null, `${by}`).toBe(value("restarts")! > 0);
    }
  });

  test("a full battery of the sealed kind is inside its band", () => {
    const { taken } = judged(["rest_volts", 25.8], ["battery_1_volts", 12.9], ["battery_2_volts", 12.9]);
    expect(taken!.map(({ outside }) => outside)).toEqual([false, false, false]);
  });

  test("a wind that was told of is no fault, and is not marked outside", () => {
    const wind_mps = 7;
    const windy = statesOf(setting, { ...machine, wind_mps });
    const value = (name: string) => readings.find(({ reading }) => reading === name)!.value(windy)!;
    const taken = ["run_speed", "run_motor_amps", "run_battery_amps"].map((reading) => ({
      reading,
      value: value(reading),
    }));
    const { causes, taken: read } = trial(outing, BRAKED, { filled: { taken, told: { wind_mps } } });
    expect(causes![0]!.cause).toBe("nothing_wrong");
    expect(read!.some(({ outside }) => outside)).toBe(false);
  });
});

describe("with a voltmeter alone", () => {
  const standing = ways.filter(
    ({ cause, where }) =>
      cause === "open_circuit" ||
      where.includes("chocks") ||
      where.includes("under a wheel") ||
      where.includes("cannot turn"),
  );
  test.each(standing.map((each) => [each.where, each] as const))("%s is found in six readings or fewer", (_, each) => {
    const states = statesOf(setting, each.apply(machine, each.sizes[Math.floor(each.sizes.length / 2)]!));
    const taken: Taken[] = [{ reading: "moves", value: 0 }];
    let readingsTaken = 0;
    for (let asked = 0; asked < 14; asked++) {
      const { causes, next_reading } = trial(outing, BRAKED, { tools: ["voltmeter"], filled: { taken } });
      const [top] = causes!;
      if (top!.cause === each.cause && top!.probability > 0.9) break;
      const { unit, step, value } = readings.find(({ reading }) => reading === next_reading!.reading)!;
      const there = value(states)!;
      taken.push({ reading: next_reading!.reading, value: unit === "yes/no" ? Number(there > 0) : there });
      if (step !== "looks") readingsTaken++;
    }
    const { causes } = trial(outing, BRAKED, { tools: ["voltmeter"], filled: { taken } });
    expect(causes![0]).toMatchObject({ cause: each.cause });
    expect(readingsTaken).toBeLessThanOrEqual(6);
  });
});
