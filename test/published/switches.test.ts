import { describe, expect, it, test } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { LIMIT_SWITCH, type RatedAt, ratedAt_A } from "../../packages/sim-core/src/parts/switches.ratings.js";
import { protectionOf } from "../../packages/sim-core/src/studies/protection/protection.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { checks, UNROUNDED } from "./check.js";

describe("contacts on direct current, as data sheets derate them with volts", () => {
  const rows: Record<string, readonly RatedAt[]> = {
    "Omron basic switch, gap 0.5 mm, resistive": [
      [8, 10],
      [14, 10],
      [30, 10],
      [125, 0.5],
      [250, 0.25],
    ],
    "Omron D4MC limit switch, inductive (7 ms)": [
      [8, 6],
      [14, 6],
      [30, 5],
      [125, 0.05],
      [250, 0.03],
    ],
    "Omron D4MC limit switch, resistive": LIMIT_SWITCH.dc,
    // Its two bands: 5 to 31 V and 32 to 125 V.
    "GE VersaMax relay output (GFK-1504N, appendix B)": [
      [31, 2],
      [125, 0.2],
    ],
    "Hitachi contactor frame 50, DC motor (15 ms), two poles": [
      [48, 20],
      [110, 10],
    ],
  };
  // What the sheet says at the volts themselves, and for batteries of 24, 36 and 48 V as they come off their chargers.
  test.each([
    ["Omron basic switch, gap 0.5 mm, resistive", 30, 10],
    ["Omron basic switch, gap 0.5 mm, resistive", 28.8, 10],
    ["Omron basic switch, gap 0.5 mm, resistive", 57.6, 0.5],
    ["Omron D4MC limit switch, inductive (7 ms)", 28.8, 5],
    ["Omron D4MC limit switch, inductive (7 ms)", 43.2, 0.05],
    ["Omron D4MC limit switch, resistive", 28.8, 6],
    ["Omron D4MC limit switch, resistive", 125, 0.5],
    ["GE VersaMax relay output (GFK-1504N, appendix B)", 31, 2],
    ["GE VersaMax relay output (GFK-1504N, appendix B)", 32, 0.2],
    ["GE VersaMax relay output (GFK-1504N, appendix B)", 48, 0.2],
    ["Hitachi contactor frame 50, DC motor (15 ms), two poles", 48, 20],
    ["Hitachi contactor frame 50, DC motor (15 ms), two poles", 57.6, 10],
  ])("%s at %d V: %d A", (sheet, voltage_V, expected_A) => {
    expect(ratedAt_A(rows[sheet]!, voltage_V)).toBe(expected_A);
  });

  it("never reads between two rows, and nothing above the last", () => {
    for (const sheet of Object.values(rows)) {
      const listed = new Set(sheet.map(([, amps]) => amps));
      for (let volts = 1; volts <= sheet.at(-1)![0]; volts++) expect(listed).toContain(ratedAt_A(sheet, volts));
      expect(ratedAt_A(sheet, sheet.at(-1)![0] + 1)).toBeNull();
    }
  });

  it("48 V lies in the cliff: between 30 and 125 V nine tenths and more are gone", () => {
    const sheet = LIMIT_SWITCH.dc;
    expect(ratedAt_A(sheet, 48)! / ratedAt_A(sheet, 30)!).toBeLessThan(0.1);
    expect(ratedAt_A(sheet, 48)! / LIMIT_SWITCH.ac[1]).toBeLessThanOrEqual(0.05);
  });
});

describe("what a switch must break should the controller fail fully on", () => {
  // A motor of 1/7 ohm and a battery of 25.2 V and 20 mohm: 154.736842 A, wheels held and cold; worked by hand.
  const battery: LocoDefinition["battery"] = {
    each: {
      voltage_V: 24,
      capacity: [{ capacity_C: 1e6 }],
      resistance_ohm: 0.02,
      rested_voltage: [
        [0, 22],
        [1, 25.2],
      ],
    },
  };
  const plan = clubPlan(
    CIRCUIT,
    { air_temperature_degC: 20 },
    {
      battery,
      motor: { constants: { resistance_ohm: 1 / 7, torque_constant_NmpA: 0.0763943727 } },
      controller: { motor_current_limit_A: 60, battery_current_limit_A: 45, on_resistance_ohm: 0, standing_power_W: 0 },
      wiring: { battery_cable: { length_m: 0 }, motor_cable: { length_m: 0 } },
      gears: LOCO.gears,
    },
  );
  const { battery: duty, motor } = protectionOf(plan).switches;
  const source = "25.2 V over 1/7 and 0.02 ohm";
  checks([
    { what: "failed on", source, got: duty.breaks_failed_A!, expected: 154.736842, ...UNROUNDED },
    { what: "sound", source: "limit of the battery's current", got: duty.breaks_A, expected: 45, ...UNROUNDED },
    {
      what: "in the motor's leads",
      source: "limit of the motor's current",
      got: motor.breaks_A,
      expected: 60,
      ...UNROUNDED,
    },
    { what: "at the volts of a full battery", source, got: duty.voltage_V, expected: 25.2, ...UNROUNDED },
  ]);
});

describe("a switch as bought", () => {
  const fitted = (dead_man: NonNullable<LocoDefinition["wiring"]>["dead_man"], in_series = 2) => {
    const plan = clubPlan(
      CIRCUIT,
      {},
      { battery: { ...LOCO.battery, in_series }, motor: LOCO.motor, wiring: { ...LOCO.wiring, dead_man: dead_man! } },
    );
    const [found] = protectionOf(plan, {
      rms_battery_current_A: 20,
      peak_battery_current_A: 45,
      rms_motor_current_A: 25,
      peak_motor_current_A: 60,
      minute_battery_current_A: 35,
      minute_motor_current_A: 45,
    }).switches.fitted;
    return found!.findings.filter(({ ok }) => !ok).map(({ code }) => code);
  };

  // Albright SD150: 125 A for ever, breaks 800 A at 48 V without blow-outs, and with them (suffix B) at 80 V.
  it("Albright's SD150 bears 24 V; at 48 V off the charger only the one with blow-outs does", () => {
    const plain = { rating_A: 125, breaks_A: 800, voltage_V: 48 };
    expect(fitted(plain, 2)).toEqual([]);
    expect(fitted(plain, 4)).toEqual(["rated_for_volts", "breaks_working", "breaks_failed_controller"]);
    expect(fitted({ ...plain, voltage_V: 80 }, 4)).toEqual([]);
  });

  // Charging relay ML-ACR: 500 A for ever, but 300 A live at 12 V (chandlery.biz): what it carries is not what it breaks.
  it("a relay that carries 500 A and switches 300 A at 12 V breaks nothing that is known at 24 V", () => {
    expect(fitted({ rating_A: 500, breaks_A: 300, voltage_V: 12 })).toEqual([
      "rated_for_volts",
      "breaks_working",
      "breaks_failed_controller",
    ]);
  });

  it("one of 10 A at 250 V of alternating current is known for nothing here", () => {
    expect(fitted({ rating_A: 10, breaks_A: 10, ac_voltage_V: 250 })).toEqual([
      "rated_for_volts",
      "carries_working",
      "carries_minute",
      "breaks_working",
      "breaks_failed_controller",
    ]);
  });
});
