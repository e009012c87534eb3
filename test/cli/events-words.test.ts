import type { Event, Happening } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { eventInWords } from "../../packages/sim-cli/src/words/events.js";
import { exactIn } from "../../packages/sim-cli/src/words/eyes.js";
import { rideon, SITE } from "./command.js";

const stall = {
  limited_by: "adhesion",
  spinning: false,
  pull_N: 237.4,
  needed_N: 381.7,
  grip_N: 237.4,
  motor_current_A: 40,
  battery_current_A: 12,
  trip_s: null,
  too_hot_s: 90,
  thermal_runaway: false,
} as const;

/** One of every kind; of an ending, of every way it comes about. */
const HAPPENINGS: Happening[] = [
  { kind: "completed", by: "laps", laps_done: 2 },
  { kind: "completed", by: "duration" },
  { kind: "completed", by: "one_day" },
  { kind: "stalled", by: "stalled", rolled_back: true, ...stall },
  { kind: "slipping", by: "slipping", ...stall },
  { kind: "flat", by: "empty" },
  { kind: "flat", by: "undervoltage", cutout_voltage_V: 21, cutout_delay_s: 2 },
  { kind: "flat", by: "battery_protection", low_voltage_V: 20 },
  { kind: "overran", by: "overran", place: "Wharf Lane", speed_mps: 1.2, shut_off: false },
  { kind: "ran_away", by: "ran_away", speed_mps: 3 },
  { kind: "tripped", by: "breaker", device: "breaker", rating_A: 50, element: "thermal", battery_current_A: 80 },
  { kind: "tripped", by: "battery_protection", limit_A: 100 },
  { kind: "burnt_out", by: "burnt_out", winding_temperature_C: 400 },
  { kind: "starts", motor_current_A: 3 },
  { kind: "at_rest" },
  { kind: "rolls_back", gravity_N: 120 },
  { kind: "slips", asked_N: 500, grip_N: 300 },
  { kind: "grips" },
  { kind: "axles_lock", vehicle: "Coach" },
  { kind: "axles_turn", vehicle: "Coach" },
  { kind: "shuts_off", speed_mps: 1.5, leeway_m: null },
  { kind: "cannot_stop", place: null, within_m: 12 },
  { kind: "draws_up", short_m: 4 },
  { kind: "stop", place: "Coppice" },
  { kind: "boarding", passengers: 4 },
  { kind: "turns" },
  { kind: "lap", laps_done: 1, energy_Wh: 12 },
  { kind: "too_hot", limit_temperature_C: 130 },
  { kind: "too_fast", speed_mps: 3, wanted_speed_mps: 2 },
  { kind: "beyond_switch", switch: "dead_man", battery_current_A: 60, breaks_A: 50 },
  { kind: "battery_full" },
];
const METRIC = /\d ?(?:m\/s|km\/h|N|°C|kg|mm|m)(?![\w/²])/;

describe("what happened is put into words", () => {
  test.each(HAPPENINGS.map((each) => [each.kind, "by" in each ? each.by : "", each] as const))(
    "%s %s",
    (_, __, what) => {
      const event = { time_s: 10, lap: 1, chainage_m: 5, ...what } as Event;
      const [metric, imperial] = [eventInWords(event, exactIn()), eventInWords(event, exactIn("imperial"))];
      for (const text of [metric, imperial]) {
        expect(text).not.toBe("");
        expect(text).not.toMatch(/undefined|NaN|_/);
      }
      expect(imperial.replaceAll(/\([^)]*\)/g, "")).not.toMatch(METRIC);
    },
  );
});

describe.concurrent("under --units imperial no metric unit stands alone", () => {
  test.each([
    ["a stall", "Stalled", ["--passengers", "40"]],
    ["a trip", "Tripped", ["--set", "loco.wiring.breaker.rating=10 A", "--speed", "6 mph"]],
    ["a flat battery", "Flat", ["--charge", "0.02", "--laps", "40"]],
  ])("in the words of %s", async (_, ends, more) => {
    const { status, stdout } = await rideon(["run", `${SITE}plan.yaml`, "--units", "imperial", "--quiet", ...more]);
    expect(status).toBe(0);
    expect(stdout).toContain(ends);
    // Chainages of the axis are in feet; text in brackets gives the other style.
    const text = stdout.replaceAll(/\s+/g, " ").replaceAll(/\([^)]*\)/g, "");
    expect(text).not.toMatch(METRIC);
  });
});
