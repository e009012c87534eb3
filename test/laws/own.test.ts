import { describe, expect, test } from "vitest";
import type { Driver } from "../../packages/sim-core/src/driver/own.js";
import { InputError, RunError } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { MotorFigures } from "../../packages/sim-core/src/parts/motor.rating.js";
import { run } from "../../packages/sim-core/src/run.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import type { Own } from "../../packages/sim-core/src/train/own.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { books } from "../support/books.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

// Law: what is handed over in place of the program's own goes by the same physics.

const DRIVEN = { ...PLAN, lever: undefined, speed_mps: 2 } as unknown as typeof PLAN;
const withOwn = (own: Own, loco: LocoDefinition = LOCO) => createPlan(DRIVEN, loco, CIRCUIT, own);

const refusal = (own: Own): string => {
  try {
    withOwn(own);
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return "";
};

describe("a law of resistance of one's own", () => {
  // As LOCO has it: 1 % of the weight, 0.08 % more for each m/s.
  const asDefined = (speed_mps: number, { mass_kg }: { mass_kg: number }) =>
    9.80665 * mass_kg * (0.01 + 0.0008 * speed_mps);

  test("that is the definition's own changes nothing", () => {
    const [own, defined] = [runOnce(withOwn({ resistance_N: asDefined })), runOnce(withOwn({}))];
    expect(own.time_s).toBeCloseTo(defined.time_s, 6);
    expect(own.energy_balance.rolling_J / defined.energy_balance.rolling_J).toBeCloseTo(1, 6);
    expect(own.energy_Wh / defined.energy_Wh).toBeCloseTo(1, 6);
  });

  test("that falls at first and then rises is paid for to the last joule", () => {
    const resistance_N: Own["resistance_N"] = (speed_mps, { mass_kg }) =>
      9.80665 * mass_kg * (0.008 + 0.01 * Math.exp(-speed_mps / 0.3) + 0.001 * speed_mps ** 2);
    const w = run(withOwn({ resistance_N }));
    const { residual_J, turnover_J } = books(w);
    expect(w.outcome).toBe("completed");
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });

  test("costs what it says: at a steady speed, force times distance", () => {
    const answer = runOnce(withOwn({ resistance_N: () => 70 }));
    expect(answer.energy_balance.rolling_J).toBeCloseTo(70 * answer.distance_m, 4);
  });

  test("must give a number from 0 up", () => {
    expect(refusal({ resistance_N: () => Number.NaN })).toBe(
      "own.resistance_N: at 0 m/s it gives NaN, and a number from 0 up is wanted",
    );
    expect(refusal({ resistance_N: (speed_mps) => 10 - 5 * speed_mps })).toContain("at 2.5 m/s it gives -2.5");
    expect(refusal({ resistance_N: 5 as unknown as () => number })).toContain("stands where a function is wanted");
  });
});

describe("a motor of one's own", () => {
  const constants = {
    resistance_ohm: 0.14,
    torque_constant_NmpA: 0.076,
    drag_Nm: 0.23,
    drag_per_speed_Nms: 1e-4,
  };
  const rated = { voltage_V: 24, current_A: 26.7, speed_radps: 260 };
  const shared = { inertia_kgm2: 0.0025, magnet: "none", brush_drop_V: 0.4, heat: { mass_kg: 6 } } as const;

  test("by the figures that a definition's constants come to is the same motor", () => {
    const defined = createPlan(DRIVEN, { ...LOCO, motor: { ...shared, constants, rated } }, CIRCUIT);
    const motor: MotorFigures = {
      resistance_ohm: 0.14,
      flux: [[0, 0.076]],
      drag_Nm: 0.23,
      dragPerSpeed_Nms: 1e-4,
      rated: defined.train.motor.rated,
    };
    const own = withOwn({ motor }, { ...LOCO, motor: shared });
    expect(own.train.motor).toEqual(defined.train.motor);
    expect(runOnce(own).energy_Wh).toBe(runOnce(defined).energy_Wh);
  });

  test("with a flux that falls as its armature reacts closes its books", () => {
    const flux = [0, 20, 40, 60, 80].map((A) => [A, 0.08 - 0.0002 * A] as const);
    const motor = { resistance_ohm: 0.14, flux, drag_Nm: 0.2, dragPerSpeed_Nms: 0, rated: { ...rated, power_W: 500 } };
    const { residual_J, turnover_J } = books(run(withOwn({ motor }, { ...LOCO, motor: shared })));
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });

  test("is refused where it is none, every figure at once", () => {
    const motor = {
      resistance_ohm: 0,
      flux: [
        [10, 0.1],
        [5, 0.1],
      ],
      drag_Nm: -1,
      rated: {},
    };
    expect(refusal({ motor: motor as unknown as MotorFigures }).match(/^own\.motor\.\S+(?=:)/gm)).toEqual([
      "own.motor.resistance_ohm",
      "own.motor.drag_Nm",
      "own.motor.dragPerSpeed_Nms",
      "own.motor.rated.voltage_V",
      "own.motor.rated.current_A",
      "own.motor.rated.speed_radps",
      "own.motor.rated.power_W",
      "own.motor.flux",
    ]);
  });

  test("does not stand beside another", () => {
    const motor = {
      ...{ resistance_ohm: 0.1, flux: [[0, 0.1]] as const, drag_Nm: 0, dragPerSpeed_Nms: 0 },
      rated: { ...rated, power_W: 500 },
    };
    expect(refusal({ motor })).toBe("loco.motor.nameplate: own.motor already has these figures: leave one out");
  });
});

describe("a driver of one's own", () => {
  const plan = createPlan(PLAN, LOCO, CIRCUIT);

  test("who holds the lever where the plan would is the plan's driver", () => {
    // The plan's looks up less often while the lever stays where it is: a finer step leaves nothing of that to see.
    const own = runOnce(plan, { driver: () => 0.8, step_s: 0.01 });
    const plans = runOnce(plan, { step_s: 0.01 });
    expect(own.outcome).toBe(plans.outcome);
    for (const figure of ["time_s", "distance_m", "energy_Wh", "peak_motor_current_A", "state_of_charge_end"] as const)
      expect(own[figure] / plans[figure] - 1).toBeCloseTo(0, 9);
  });

  test("sees what the trace has", () => {
    const seen: [time_s: number, speed_mps: number][] = [];
    const rows = new Map<number, number>();
    const driver: Driver = ({ time_s, speed_mps }) => {
      seen.push([time_s, speed_mps]);
      return 0.8;
    };
    runOnce(plan, { driver, every_s: 0.1, onRow: ({ time_s, speed_mps }) => rows.set(time_s, speed_mps) });
    const both = seen.filter(([time_s]) => rows.has(time_s));
    expect(both.length).toBeGreaterThan(100);
    for (const [time_s, speed_mps] of both) expect(speed_mps).toBeCloseTo(rows.get(time_s)!, 9);
  });

  test("stops where the plan does, and is held there", () => {
    const columns = { ...CIRCUIT, place: CIRCUIT.place.map((_, i) => (i === 3 ? "Halt" : "")) };
    const stops = [{ place: "Halt", dwell_s: 20 }];
    const brakes = [{ rail_force_N: 300 }];
    const driver: Driver = ({ speed_mps, toStop_m }) => {
      const fastest_mps = Math.min(2, Math.sqrt(2 * 0.15 * Math.max(0, toStop_m - 0.2)));
      return speed_mps < fastest_mps ? { lever: 0.6 } : { lever: 0, brake: speed_mps > 1.02 * fastest_mps ? 0.6 : 0 };
    };
    const ready = createPlan({ ...DRIVEN, stops }, { ...LOCO, brakes }, columns);
    const { outcome, events } = runOnce(ready, { driver });
    expect(outcome).toBe("completed");
    expect(events.map(({ kind }) => kind)).toContain("stop");
  });

  test("who wants the lever nowhere is told of", () => {
    expect(() => runOnce(plan, { driver: () => Number.NaN })).toThrow(RunError);
    expect(() => runOnce(plan, { driver: () => ({ lever: 0.5, brake: Number.NaN }) })).toThrow("the brake at NaN");
  });
});
