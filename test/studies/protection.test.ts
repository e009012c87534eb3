import { describe, expect, it } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { TraceRow } from "../../packages/sim-core/src/record/trace.js";
import { check } from "../../packages/sim-core/src/studies/check/check.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import type { FindingCode, ProtectionAnswer } from "../../packages/sim-core/src/studies/protection/answer.js";
import { protectionOf } from "../../packages/sim-core/src/studies/protection/protection.js";
import { clubPlan, LOCO } from "../support/club.js";
import { hill, slope } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

const DRIVEN: Partial<PlanDefinition> = { speed_mps: 1.5 };
const wired = (wiring: LocoDefinition["wiring"]) =>
  clubPlan(undefined, DRIVEN, { wiring: { ...LOCO.wiring, ...wiring } });
const finding = ({ findings }: ProtectionAnswer, code: FindingCode) => findings.find((each) => each.code === code);

describe("a stall with the wheels held", () => {
  const plan = clubPlan(undefined, DRIVEN);
  const { stall } = protectionOf(plan);

  it("draws from the battery the duty's share of the motor's current, and the standing load", () => {
    expect(stall.motor_current_A).toBeCloseTo(60, 9);
    expect(stall.battery_current_A).toBeCloseTo(stall.duty * stall.motor_current_A + plan.train.standing_A, 9);
    expect(stall.duty).toBeLessThan(1);
  });

  it("is what a simulated train that cannot start ends in", () => {
    const stuck = clubPlan(undefined, { lever: 1 }, { resistance: { ...LOCO.resistance, breakaway: 0.4 } });
    const { outcome, stall: simulated } = runOnce(stuck);
    const held = protectionOf(stuck).stall;
    expect(outcome).toBe("stalled");
    expect(simulated?.motor_current_A).toBeCloseTo(held.motor_current_A, 6);
    // By then the ramp has warmed the winding a little.
    expect(Math.abs(simulated!.battery_current_A / held.battery_current_A - 1)).toBeLessThan(0.02);
    expect(simulated!.too_hot_s! / held.too_hot_s!).toBeGreaterThan(0.95);
    expect(simulated!.too_hot_s).toBeLessThan(held.too_hot_s!);
  });

  it("is nothing that the breaker protects the motor from, unless it is as small as that", () => {
    expect(finding(protectionOf(plan), "device_protects_stalled_motor")).toMatchObject({ ok: false, value: null });
    const small = protectionOf(wired({ breaker: { rating_A: 10 } }));
    expect(small.stall.trip_s).toBeLessThan(small.stall.too_hot_s!);
    expect(finding(small, "device_protects_stalled_motor")?.ok).toBe(true);
  });
});

describe("the ruling gradient", () => {
  it.each([
    ["at the plan's speed", 1.2, 0.015],
    ["as fast as it gets", 3, 0.02],
  ])("%s takes what a simulated train settles to", (_, speed_mps, sine) => {
    const plan = clubPlan(slope(sine, 2000), {
      speed_mps,
      track: { kind: "end-to-end", rail: "dry" },
      duration_s: 60,
    });
    const climbing = protectionOf(plan).ruling_gradient!;
    let last: TraceRow | undefined;
    runOnce(plan, { every_s: 1, onRow: (row) => (last = row) });
    expect(climbing.gradient_percent).toBeCloseTo(100 * sine, 9);
    expect(climbing.speed_mps < speed_mps).toBe(speed_mps === 3);
    // Within two percent: the simulated battery has polarised and given some charge, and winding and magnets are warm.
    expect(Math.abs(last!.speed_mps / climbing.speed_mps - 1)).toBeLessThan(0.02);
    expect(Math.abs(last!.motor_current_A / climbing.motor_current_A - 1)).toBeLessThan(0.02);
    expect(Math.abs(last!.battery_current_A / climbing.battery_current_A - 1)).toBeLessThan(0.02);
  });

  it("is looked for on the way back too", () => {
    const line = { kind: "end-to-end", rail: "dry" } as const;
    const { ruling_gradient } = protectionOf(clubPlan(slope(-0.02, 500), { ...DRIVEN, track: line }));
    expect(ruling_gradient?.gradient_percent).toBeCloseTo(2, 9);
  });

  it("has no current where the train does not get up", () => {
    const line = { kind: "end-to-end", rail: "greasy" } as const;
    expect(protectionOf(clubPlan(slope(0.15, 500), { ...DRIVEN, track: line })).ruling_gradient).toBeNull();
  });
});

describe("findings", () => {
  it.each([50, 63, 80])("agree with the warning where a %d A breaker guards 16 mm²", (rating_A) => {
    const plan = wired({ breaker: { rating_A } });
    const warned = plan.notes.warnings.some(({ code }) => code === "breaker_above_cable");
    expect(finding(protectionOf(plan), "device_guards_battery_cable")?.ok).toBe(!warned);
  });

  it("tell nothing of a device that is not there", () => {
    const { breaker: _, ...bare } = LOCO.wiring!;
    const none = protectionOf(clubPlan(undefined, DRIVEN, { wiring: bare }));
    expect(none).toMatchObject({ device: "none", rating_A: null, surely_holds_A: null, magnetic_from_A: null });
    expect(finding(none, "device_fitted")?.ok).toBe(false);
    expect(none.findings.filter(({ code }) => /^device_(carries|holds|below|guards|breaking)/.test(code))).toEqual([]);
  });

  it("tell of current fed back through a breaker", () => {
    const regenerating = clubPlan(undefined, DRIVEN, {
      controller: { ...LOCO.controller, electric_brake: "regenerative" },
    });
    expect(finding(protectionOf(regenerating), "regeneration_through_breaker")?.ok).toBe(false);
    expect(finding(protectionOf(clubPlan(undefined, DRIVEN)), "regeneration_through_breaker")?.ok).toBe(true);
  });

  it("see a thin motor cable", () => {
    const thin = runOnce(wired({ motor_cable: { length_m: 1.5, area_mm2: 1.5 } })).protection;
    expect(finding(thin, "motor_cable_carries_stall")?.ok).toBe(false);
    expect(finding(thin, "motor_cable_volt_drop")?.value).toBeCloseTo(thin.motor_cable.drop_at_peak_percent!, 12);
  });
});

describe("what a working asks", () => {
  const answer = runOnce(clubPlan(undefined, DRIVEN));

  it("is held against the cables, each with its own current", () => {
    const { battery_cable, motor_cable } = answer.protection;
    expect(battery_cable.rms_current_A).toBe(answer.rms_battery_current_A);
    expect(battery_cable.peak_current_A).toBe(answer.peak_battery_current_A);
    expect(motor_cable.rms_current_A).toBe(answer.rms_motor_current_A);
    expect(motor_cable.peak_current_A).toBe(answer.peak_motor_current_A);
  });

  it("is carried by what is recommended for it", () => {
    const { breaker_rating_A, breaker_curve, battery_cable_mm2, motor_cable_mm2 } = answer.protection.recommended!;
    const again = runOnce(
      wired({
        breaker: { rating_A: breaker_rating_A!, curve: breaker_curve! },
        battery_cable: { length_m: 2, area_mm2: battery_cable_mm2! },
        motor_cable: { length_m: 1.5, area_mm2: motor_cable_mm2! },
      }),
    );
    expect(again.outcome).toBe("completed");
    const codes: FindingCode[] = [
      "device_carries_working",
      "device_holds_on_gradient",
      "device_below_magnetic_trip",
      "device_guards_battery_cable",
      "battery_cable_carries_working",
      "motor_cable_carries_stall",
    ];
    expect(codes.map((code) => finding(again.protection, code)?.ok)).toEqual(codes.map(() => true));
  });

  // On a greasy rail the train does not get up 1 in 40, and its breaker is still one for the day that it does.
  it("is no smaller for a working that sticks for want of grip", () => {
    const recommended = (rail: "dry" | "greasy") => {
      const { outcome, protection } = runOnce(clubPlan(hill(0.025, 200), { ...DRIVEN, track: { rail } }));
      return { outcome, climbing: protection.ruling_gradient, ...protection.recommended! };
    };
    const [dry, greasy] = [recommended("dry"), recommended("greasy")];
    expect([dry.outcome, greasy.outcome, greasy.climbing]).toEqual(["completed", "stalled", null]);
    expect(1.13 * greasy.breaker_rating_A!).toBeGreaterThanOrEqual(dry.climbing!.battery_current_A);
  });

  it("is left open by check, which tells the rest all the same", () => {
    const plan = clubPlan(undefined, DRIVEN);
    const { protection } = check(plan);
    expect(protection.recommended).toBeNull();
    expect(protection.battery_cable.rms_current_A).toBeNull();
    expect(protection.stall).toEqual(protectionOf(plan).stall);
    expect(finding(protection, "device_carries_working")).toBeUndefined();
  });

  it("can be looked at for a train of ideal parts", () => {
    expect(() => protectionOf(textbookPlan({ mass_kg: 100, A_N: 10 }))).not.toThrow();
  });
});
