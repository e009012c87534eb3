import { describe, expect, test } from "vitest";
import { solveElectrics } from "../../packages/sim-core/src/drive/electrics.js";
import { startingWells_C } from "../../packages/sim-core/src/parts/battery.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { brakes } from "../../packages/sim-core/src/studies/brakes/brakes.js";
import { electricBrake } from "../../packages/sim-core/src/studies/check/electric-brake.js";
import { madePlan } from "../../packages/sim-core/src/train/plan.js";
import type { Train } from "../../packages/sim-core/src/train/train.js";
import { clubPlan } from "../support/club.js";
import { hill, level } from "../support/profiles.js";

const RPM_radps = Math.PI / 30;

/** A motor behind a battery without losses of ours, so that a book's figures come out as the book has them. */
function bookTrain(
  k_NmpA: number,
  motor_ohm: number,
  emf_V: number,
  battery_ohm: number,
  controller: Partial<LocoDefinition["controller"]>,
) {
  const rest: [number, number][] = [
    [0, emf_V],
    [1, emf_V],
  ];
  return madePlan(
    { track: {}, lever: 1, drag_area_m2: 0 },
    {
      name: "book",
      gauge_m: 0.184,
      mass_kg: 100,
      wheels: { diameter_m: 0.2, driven_axles: 2 },
      motor: { constants: { resistance_ohm: motor_ohm, torque_constant_NmpA: k_NmpA } },
      gears: [{ ratio: 1, efficiency: 1 }],
      controller: { motor_current_limit_A: 500, on_resistance_ohm: 0, standing_power_W: 0, ...controller },
      battery: {
        each: {
          voltage_V: emf_V,
          cells: 12,
          capacity: [{ capacity_C: 1e6 }],
          rested_voltage: rest,
          resistance_ohm: battery_ohm,
        },
      },
      wiring: { battery_cable: { length_m: 0 }, motor_cable: { length_m: 0 } },
    },
    level(),
  ).train;
}

function braking(train: ReturnType<typeof bookTrain>, motor_radps: number, lever: number): at.Instant {
  const y = new Float64Array(at.SIZE);
  y[at.AVAILABLE] = train.availableFull_C / 2;
  y[at.WINDING] = 20;
  y[at.CASE] = 20;
  const now = at.newInstant();
  solveElectrics(
    train,
    { ...at.atRest(train.vehicles.length), train: 1, rim: 1, powered: true, braking: true },
    lever,
    y,
    motor_radps,
    now,
  );
  return now;
}

// Derived: D = (-E + √(E² + 4 Rb I (k ω - R I)))/(2 Rb I) for a synchronous chopper with a filtered input, worked for a
// 500 W motor (20 V of back-e.m.f. at 2500 rpm, R = 1/7 ohm) on 25.2 V behind 20 mohm. Nine digits, so 1e-8.
test("regeneration of 30 A at 200 rad/s, derived", () => {
  const train = bookTrain(20 / (2500 * RPM_radps), 1 / 7, 25.2, 0.02, { electric_brake: "regenerative" });
  const now = braking(train, 200, -30 / 500);
  expect(now.duty).toBeCloseTo(0.431797259, 8);
  expect(now.battery_A).toBeCloseTo(-12.9539178, 6);
  expect(now.terminal_V).toBeCloseTo(25.4590784, 6);
  expect(-now.airGap_Nm * 200).toBeCloseTo(458.366236, 5);
});

// Derived: the same motor shorted at 150 rad/s, I = k ω/R and T = k I. Nine digits.
test("a shorted motor brakes, derived", () => {
  const train = bookTrain(20 / (2500 * RPM_radps), 1 / 7, 25.2, 0.02, { electric_brake: "rheostatic" });
  const now = braking(train, 150, -1);
  expect(-now.motor_A).toBeCloseTo(80.2140913, 6);
  expect(-now.airGap_Nm).toBeCloseTo(6.12790519, 7);
});

// G. K. Dubey, Fundamentals of Electrical Drives, example 5.19 (title from memory): 230 V, 960 rpm, 200 A, 0.02 ohm; braking
// at 350 rpm and rated torque takes a duty of 0.341. Recomputed 0.340851449; 1e-8.
test("duty of a chopper that brakes, Dubey 5.19", () => {
  const train = bookTrain((230 - 4) / (960 * RPM_radps), 0.02, 230, 1e-9, { electric_brake: "regenerative" });
  const now = braking(train, 350 * RPM_radps, -200 / 500);
  expect(now.duty).toBeCloseTo(0.340851449, 7);
});

// The same book, example 5.20: 2 ohm across the armature; here at full field of the resistor, I = k ω/(R + Rx), exact.
test("a resistor brakes by Ohm's law", () => {
  const k = (230 - 4) / (960 * RPM_radps);
  const train = bookTrain(k, 0.02, 230, 1e-9, { electric_brake: "rheostatic", brake_resistance_ohm: 2 });
  expect(-braking(train, 600 * RPM_radps, -1).motor_A).toBeCloseTo((k * 600 * RPM_radps) / 2.02, 9);
});

describe("holding back on a hill", () => {
  const controller = { motor_current_limit_A: 60, on_resistance_ohm: 0.005 };
  const down = (brake: Partial<LocoDefinition["controller"]>) =>
    run(clubPlan(hill(0.03, 600), { speed_mps: 1.2, charge: 0.7 }, { controller: { ...controller, ...brake } }), {
      start: { chainage_m: 320, speed_mps: 1.2 },
    });
  test("both brakes keep the speed that running free does not", () => {
    const free = down({});
    expect(free.events.some((event) => event.kind === "too_fast")).toBe(true);
    for (const electric_brake of ["rheostatic", "regenerative"] as const) {
      const held = down({ electric_brake });
      expect(held.events.some((event) => event.kind === "too_fast")).toBe(false);
    }
  });
  test("only regeneration returns charge, and never past its limits", () => {
    expect(down({ electric_brake: "rheostatic" }).y[at.RETURNED]).toBe(0);
    const all = down({ electric_brake: "regenerative" });
    const some = down({ electric_brake: "regenerative", regen_current_limit_A: 2 });
    expect(all.y[at.RETURNED]).toBeGreaterThan(some.y[at.RETURNED]);
    expect(some.y[at.RETURNED]).toBeGreaterThan(0);
  });
  test("a full battery takes nothing back", () => {
    const plan = clubPlan(
      hill(0.03, 600),
      { speed_mps: 1.2, charge: 1 },
      { controller: { ...controller, electric_brake: "regenerative" } },
    );
    const w = run(plan, { start: { chainage_m: 320, speed_mps: 1.2 } });
    expect(w.events.some((event) => event.kind === "battery_full")).toBe(true);
    expect(w.y[at.AVAILABLE]).toBeLessThanOrEqual(plan.train.availableFull_C * (1 + 1e-9));
  });
});

describe("the battery's limit of volts", () => {
  const limited = (controller: Partial<LocoDefinition["controller"]>, charge = 0.5) => {
    const club = { motor_current_limit_A: 200, electric_brake: "regenerative", ...controller } as const;
    return clubPlan(level(), { speed_mps: 1.5, charge }, { controller: club }).train;
  };
  const brakingAt = (train: Train, fill: number, motor_radps: number, full = false) => {
    const y = new Float64Array(at.SIZE);
    y[at.AVAILABLE] = fill * train.availableFull_C;
    y[at.WINDING] = y[at.CASE] = 20;
    const now = at.newInstant();
    const mode = { ...at.atRest(3), train: 1, rim: 1, powered: true, braking: true, full } as const;
    solveElectrics(train, mode, -1, y, motor_radps, now);
    return now;
  };

  // Ohm's law: what comes back beside the standing load meets the limit just so, whatever that load takes.
  test.each([0, 10, 120])("is met at the terminals, with %d W of standing load", (standing_power_W) => {
    const train = limited({ standing_power_W, regen_voltage_limit_V: 24.7 });
    const now = brakingAt(train, 0.5, 400);
    expect(now.limitedBy).toBe("battery_current");
    expect(now.terminal_V).toBeCloseTo(24.7, 9);
    expect(now.battery_A).toBeLessThan(0);
    expect(now.duty * -now.motor_A - train.standing_A).toBeCloseTo(-now.battery_A, 9);
  });

  test("is 2.40 V a lead-acid cell and 3.65 V a lifepo4 cell unless told, and none where nothing is braked into it", () => {
    expect(limited({}).controller.regenLimit_V).toBeCloseTo(28.8, 12);
    expect(limited({ electric_brake: "none" }).controller.regenLimit_V).toBe(Number.POSITIVE_INFINITY);
    const lithium = { chemistry: "lifepo4", each: { voltage_V: 24, capacity: [{ capacity_C: 5e5 }] } } as const;
    const controller = { motor_current_limit_A: 60, electric_brake: "regenerative" } as const;
    const plan = clubPlan(level(), { speed_mps: 1.5 }, { controller, battery: lithium });
    expect(plan.train.controller.regenLimit_V).toBeCloseTo(29.2, 12);
  });

  // J. L. Woodbridge's ampere-hour law, 1935: no more amperes than ampere-hours are missing.
  test.each([0.3, 0.9, 0.99])(
    "is met at %d charge of lead-acid by as many amperes as ampere-hours are missing",
    (charge) => {
      const train = limited({ regen_voltage_limit_V: 100 });
      const [available_C] = startingWells_C(train.battery, charge);
      const now = brakingAt(train, available_C / train.availableFull_C, 1000);
      expect(-now.battery_A).toBeCloseTo(((1 - charge) * train.battery.label_C) / 3600, 6);
    },
  );
});

describe("a battery that is full at the start", () => {
  const down = (charge: number, electric_brake: "none" | "regenerative") => {
    const controller = { motor_current_limit_A: 60, electric_brake };
    return run(clubPlan(hill(0.03, 600), { speed_mps: 1.2, charge }, { controller }), {
      start: { chainage_m: 320, speed_mps: 1.2 },
    });
  };

  test.each([1, 0.998])("at %d gives the brake nothing, whatever the train drew just before", (charge) => {
    const [braked, free] = [down(charge, "regenerative"), down(charge, "none")];
    expect(braked.y[at.RETURNED]).toBe(0);
    expect(braked.y[at.SPEED]).toBe(free.y[at.SPEED]);
    expect(braked.events.some((event) => event.kind === "battery_full")).toBe(true);
  });

  test("stops no shorter than by its drag, and check says so", () => {
    const at_ = (charge: number) =>
      clubPlan(
        level(200),
        { speed_mps: 1.8, charge },
        { controller: { motor_current_limit_A: 60, electric_brake: "regenerative" } },
      );
    const longest = (charge: number, set: string) =>
      brakes(at_(charge)).worst.find(({ rail, brakes: fitted }) => rail === "dry" && fitted === set)!.distance_m!;
    expect(longest(1, "electric")).toBeCloseTo(longest(1, "drag"), 9);
    expect(longest(0.6, "electric")).toBeLessThan(0.7 * longest(0.6, "drag"));
    const full = electricBrake(at_(1))!;
    expect(full.force_at_start_N).toBeLessThan(0.3 * full.force_N);
    const half = electricBrake(at_(0.5))!;
    expect(half.force_at_start_N).toBe(half.force_N);
    expect(half.force_N).toBe(full.force_N);
  });
});

// At its lowest returning speed a generator's greatest power, (k ω)²/4R at half the current it would drive shorted, is the
// standing load: derived from the circuit alone (greatest power transfer).
test("below the lowest returning speed even the best current returns nothing", () => {
  const plan = clubPlan(
    level(),
    { speed_mps: 1.5, charge: 0.5 },
    { controller: { motor_current_limit_A: 60, electric_brake: "regenerative" } },
  );
  const answer = electricBrake(plan)!;
  const returnedAt = (speed_mps: number) => {
    const y = new Float64Array(at.SIZE);
    y[at.AVAILABLE] = plan.train.availableFull_C / 2;
    y[at.WINDING] = y[at.CASE] = plan.air_degC;
    const now = at.newInstant();
    const mode: at.Mode = { ...at.atRest(3), train: 1, rim: 1, powered: true, braking: true };
    const motor_radps = (speed_mps * plan.train.gears.ratio) / plan.train.radius_m;
    const most_A = Array.from({ length: 400 }, (_, i) => {
      solveElectrics(plan.train, mode, -i / 1000, y, motor_radps, now);
      return -now.battery_A;
    });
    return Math.max(...most_A);
  };
  expect(answer.returned_A).toBeGreaterThan(0);
  expect(returnedAt(answer.lowest_returning_speed_mps! * 0.95)).toBeLessThanOrEqual(0);
  expect(returnedAt(answer.lowest_returning_speed_mps! * 1.05)).toBeGreaterThan(0);
});
