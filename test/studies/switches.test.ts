import { describe, expect, test } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { TraceRow } from "../../packages/sim-core/src/record/trace.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { protectionOf } from "../../packages/sim-core/src/studies/protection/protection.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";

type Wiring = NonNullable<LocoDefinition["wiring"]>;
const wired = (wiring: Partial<Wiring>, over: Partial<LocoDefinition> = {}) =>
  clubPlan(CIRCUIT, { speed_mps: 1.5 }, { wiring: { ...LOCO.wiring, ...wiring }, ...over });
const SOUND = { rating_A: 125, breaks_A: 800, voltage_V: 48 };
const warnings = (wiring: Partial<Wiring>) =>
  wired(wiring).notes.warnings.filter(({ path }) => /isolator|dead_man|reverser/.test(path));

describe("ratings beside the battery", () => {
  test("of a switch for direct current that says what it breaks go without a word", () => {
    expect(warnings({ isolator: SOUND, dead_man: SOUND, reverser: { rating_A: 60, voltage_V: 48 } })).toEqual([]);
  });

  test("for alternating current only are told with what is wanted, wherever the switch stands", () => {
    for (const stands of ["main", "control"] as const) {
      const [warning, ...others] = warnings({ dead_man: { rating_A: 10, ac_voltage_V: 250, stands } });
      expect(warning).toMatchObject({ code: "switch_ac_only", path: "loco.wiring.dead_man.ac_voltage" });
      expect(warning!.message).toContain("250 V");
      expect(warning!.message).toContain("at least 28.8 V");
      expect(others).toEqual([]);
    }
  });

  test("at too few volts, or without what they break, are told", () => {
    expect(warnings({ isolator: { ...SOUND, voltage_V: 24 } }).map(({ code }) => code)).toEqual(["switch_volts"]);
    expect(warnings({ isolator: { rating_A: 125, voltage_V: 48 } }).map(({ code }) => code)).toEqual([
      "switch_breaks_unknown",
    ]);
    // What stands in the control circuit, and a reverser, break nothing of the main current.
    expect(warnings({ dead_man: { rating_A: 1, voltage_V: 48, stands: "control" } })).toEqual([]);
  });

  test("the volts are those of the charger where it is given, and of braking where they are higher", () => {
    const volts = (over: Partial<LocoDefinition>) => protectionOf(wired({}, over)).switches.battery.voltage_V;
    expect(volts({})).toBeCloseTo(28.8, 9);
    expect(volts({ battery: { ...LOCO.battery, charger: { current_A: 10, voltage_V: 29.6 } } })).toBe(29.6);
    const regenerative = { ...LOCO.controller, electric_brake: "regenerative", regen_voltage_limit_V: 30 } as const;
    expect(volts({ controller: regenerative })).toBe(30);
  });
});

describe("what a switch is asked for", () => {
  test("battery current between battery and controller, motor current in the motor's leads", () => {
    const answer = runOnce(wired({ isolator: SOUND, reverser: { rating_A: 60, voltage_V: 48 } }));
    const { battery, motor, fitted, missing } = answer.protection.switches;
    expect(battery.carries_A).toBe(answer.rms_battery_current_A);
    expect(motor.carries_A).toBe(answer.rms_motor_current_A);
    expect(battery.carries_minute_A).toBe(answer.minute_battery_current_A);
    expect(fitted.map(({ name, circuit }) => [name, circuit])).toEqual([
      ["isolator", "battery"],
      ["reverser", "motor"],
    ]);
    expect(missing).toEqual(["dead_man"]);
    const wanted = fitted[1]!.findings.find(({ code }) => code === "carries_working")!.wanted;
    expect(wanted).toBe(answer.rms_motor_current_A);
  });

  test("never less to break than has flowed, and more should the controller fail", () => {
    const answer = runOnce(wired({}));
    const { battery, motor } = answer.protection.switches;
    expect(battery.breaks_A).toBeGreaterThanOrEqual(answer.peak_battery_current_A);
    expect(motor.breaks_A).toBeGreaterThanOrEqual(answer.peak_motor_current_A);
    expect(battery.breaks_failed_A).toBeGreaterThan(battery.breaks_A);
    expect(motor.breaks_failed_A).toBeNull();
  });

  test("one in the control circuit is judged by its volts alone, and what it leaves to others is said", () => {
    const { fitted } = protectionOf(
      wired({
        dead_man: { rating_A: 1, voltage_V: 48, stands: "control" },
        reverser: { rating_A: 1, voltage_V: 48, stands: "control" },
      }),
    ).switches;
    expect(fitted.map(({ findings }) => findings.map(({ code }) => code))).toEqual([
      ["rated_for_volts"],
      ["rated_for_volts"],
    ]);
    expect(fitted.map(({ remarks }) => remarks)).toEqual([
      ["contactor_must_break", "failed_controller_pulls_on"],
      ["controller_reverses"],
    ]);
  });

  test("a reverser in the motor's leads is thrown at rest only", () => {
    const { fitted } = protectionOf(wired({ reverser: { rating_A: 60, voltage_V: 48 } })).switches;
    expect(fitted[0]!.remarks).toEqual(["thrown_at_rest_only"]);
  });
});

describe("the worst minute", () => {
  const trace = (plan: ReturnType<typeof wired>) => {
    const rows: TraceRow[] = [];
    return { answer: runOnce(plan, { every_s: 0.5, onRow: (row) => rows.push(row) }), rows };
  };

  test("is the greatest root mean square of any minute of the trace", () => {
    const { answer, rows } = trace(clubPlan(CIRCUIT, { speed_mps: 1.5, laps: 2 }));
    let worst = 0;
    for (let i = 0; i + 120 < rows.length; i++) {
      // By trapezia of the squares, from half a second to the next.
      const squares = rows.slice(i, i + 121).map(({ battery_current_A }) => battery_current_A ** 2);
      const sum = squares.reduce((a, b) => a + b, 0) - (squares[0]! + squares.at(-1)!) / 2;
      worst = Math.max(worst, Math.sqrt(sum / 120));
    }
    // The study's minutes begin within half a second of every place, and last half a second longer at most.
    expect(Math.abs(answer.minute_battery_current_A / worst - 1)).toBeLessThan(0.01);
    expect(answer.minute_battery_current_A).toBeGreaterThan(answer.rms_battery_current_A);
    expect(answer.minute_battery_current_A).toBeLessThan(answer.peak_battery_current_A);
  });

  test("of less than a minute is all of it", () => {
    const { answer } = trace(clubPlan(level(), { speed_mps: 1, duration_s: 30 }));
    expect(Math.abs(answer.minute_battery_current_A / answer.rms_battery_current_A - 1)).toBeLessThan(0.01);
  });
});

describe("in a run", () => {
  const beyond = (wiring: Partial<Wiring>) =>
    runOnce(wired(wiring)).events.filter((event) => event.kind === "beyond_switch");

  test("each switch is told once, the weakest first, where the current passes what it breaks", () => {
    const events = beyond({
      isolator: { rating_A: 60, breaks_A: 12, voltage_V: 48 },
      dead_man: { rating_A: 60, breaks_A: 10, voltage_V: 48 },
    });
    expect(events.map((event) => event.kind === "beyond_switch" && [event.switch, event.breaks_A])).toEqual([
      ["dead_man", 10],
      ["isolator", 12],
    ]);
    for (const event of events) {
      if (event.kind !== "beyond_switch") continue;
      // The lever moves ten times a second, and the current with it.
      expect(event.battery_current_A / event.breaks_A).toBeGreaterThanOrEqual(1);
      expect(event.battery_current_A / event.breaks_A).toBeLessThan(1.2);
    }
  });

  test("nothing is told of one that breaks enough, says nothing of it, or stands in the control circuit", () => {
    expect(beyond({ isolator: SOUND })).toEqual([]);
    expect(beyond({ isolator: { rating_A: 60, voltage_V: 48 } })).toEqual([]);
    expect(beyond({ dead_man: { rating_A: 1, breaks_A: 1, voltage_V: 48, stands: "control" } })).toEqual([]);
  });

  test("and it changes nothing else", () => {
    const [without, given] = [runOnce(wired({})), runOnce(wired({ isolator: { ...SOUND, breaks_A: 12 } }))];
    expect(given.time_s / without.time_s).toBeCloseTo(1, 6);
    expect(given.charge_used_Ah / without.charge_used_Ah).toBeCloseTo(1, 6);
    expect(given.least_margins.switch_breaks_A!.value).toBeLessThanOrEqual(0);
  });
});
