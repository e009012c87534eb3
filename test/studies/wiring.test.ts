import { describe, expect, test } from "vitest";
import { runOnce, wiring } from "../../packages/sim-core/src/index.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { filesOf, LOCO, PLAN } from "../support/club.js";

const FILES = filesOf();
const answer = wiring(FILES);

describe("the sheet to connect by", () => {
  test("goes from the battery to the motor in the order of the power", () => {
    expect(answer.path.map(({ place }) => place)).toEqual([
      "battery",
      "device",
      "isolator",
      "dead_man",
      "controller",
      "reverser",
      "motor",
    ]);
    expect(answer.path.filter(({ fitted }) => !fitted).map(({ place }) => place)).toEqual([
      "isolator",
      "dead_man",
      "reverser",
    ]);
  });
  test("asks of each what the working asks of the protection study", () => {
    const { protection } = runOnce(createPlan(FILES.plan, FILES.loco, FILES.track));
    const isolator = answer.path.find(({ place }) => place === "isolator")!;
    // Contacts are asked to carry their worst minute for ever.
    const { carries_A, carries_minute_A } = protection.switches.battery;
    expect(isolator.carries_A).toBe(Math.max(carries_A!, carries_minute_A!));
    expect(carries_minute_A).toBeGreaterThan(carries_A!);
    // A controller that has failed fully on is what a switch for emergencies must break.
    expect(isolator.breaks_A).toBe(protection.switches.battery.breaks_failed_A);
    expect(isolator.breaks_A).toBeGreaterThan(LOCO.controller!.motor_current_limit_A!);
    expect(answer.short_circuit_A).toBe(protection.short_circuit.at_terminals_A);
    // Close to the battery no cable holds it back.
    expect(answer.path.find(({ place }) => place === "device")!.breaks_A).toBe(answer.short_circuit_A);
    expect(answer.short_circuit_A).toBeGreaterThan(protection.short_circuit.current_A);
    expect(answer.cables.map(({ rms_current_A }) => rms_current_A)).toEqual([
      protection.battery_cable.rms_current_A,
      protection.motor_cable.rms_current_A,
    ]);
  });
  test("a reverser breaks nothing; of a switch in the control circuit the contactor that it drops is asked", () => {
    expect(answer.path.find(({ place }) => place === "reverser")!.breaks_A).toBeNull();
    const control = wiring(filesOf({ wiring: { ...LOCO.wiring!, dead_man: { rating_A: 1, stands: "control" } } }));
    const held_ = control.path.find(({ place }) => place === "dead_man")!;
    const { carries_A, breaks_A } = answer.path.find(({ place }) => place === "dead_man")!;
    expect([held_.main, held_.carries_A, held_.breaks_A]).toEqual([false, carries_A, breaks_A]);
  });
  test("an isolator in the control circuit takes the battery from nothing, whatever it is rated for", () => {
    const rated = { rating_A: 200, breaks_A: 5000, voltage_V: 60 };
    const isolatorOf = (stands: "main" | "control") =>
      wiring(filesOf({ wiring: { ...LOCO.wiring!, isolator: { ...rated, stands } } })).path.find(
        ({ place }) => place === "isolator",
      )!;
    expect(isolatorOf("main").enough).toBe(true);
    expect(isolatorOf("control").enough).toBe(false);
  });
  test("a voltmeter stands between the reserve and full, of each battery a part of the whole", () => {
    // Two 12 V lead-acid batteries: 12.65 V full and 12.24 V half full by the maker's table of rested volts.
    expect(answer.full_V).toBeCloseTo(25.3, 6);
    expect(answer.reserve_V).toBeCloseTo(24.48, 6);
    expect(answer.each_full_V).toBeCloseTo(12.65, 6);
    expect(answer.highest_V).toBeGreaterThan(answer.full_V);
  });
  test("a train that does not get round is told as that", () => {
    const stalled = wiring(filesOf({}, { cars: [{ ...PLAN.cars![0]!, mass_kg: 900 }] }));
    expect(stalled.outcome).not.toBe("completed");
    expect(stalled.ended_by).not.toBeNull();
    // What flowed until then proves nothing good, and is nothing to order by.
    expect(stalled.path.every(({ carries_A, enough }) => carries_A === null && enough !== true)).toBe(true);
    expect(stalled.cables.every(({ enough }) => enough !== true)).toBe(true);
    expect(stalled.path.find(({ place }) => place === "device")!.breaks_A).toBe(answer.short_circuit_A);
  });
});
