import { describe, expect, it } from "vitest";
import { grip_N, resistance_N } from "../../packages/sim-core/src/drive/pull.js";
import { InputError } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { TrackColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { check } from "../../packages/sim-core/src/studies/check/check.js";
import { restartsAt } from "../../packages/sim-core/src/studies/climb/climb.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { stopWithin } from "../../packages/sim-core/src/studies/size/braking.js";
import { createSizing, type SizeLoco } from "../../packages/sim-core/src/studies/size/input.js";
import { lapForces } from "../../packages/sim-core/src/studies/size/lap.js";
import { size } from "../../packages/sim-core/src/studies/size/size.js";
import { waysOf } from "../../packages/sim-core/src/studies/ways.js";
import { curvesAt_N, gravityAt_N } from "../../packages/sim-core/src/train/line.js";
import { CIRCUIT, clubPlan, LOCO, PLAN } from "../support/club.js";
import { hill, level, slope } from "../support/profiles.js";

const { motor: _m, gears: _g, controller: _c, battery: _b, wiring: _w, ...BARE } = LOCO;
const { lever: _, ...DRIVEN } = PLAN;

/** The invented train without its drive. */
const sizing = (plan: Partial<PlanDefinition> = {}, loco: Partial<SizeLoco> = {}, columns: TrackColumns = CIRCUIT) =>
  createSizing({ ...DRIVEN, speed_mps: 1.5, ...plan }, { ...BARE, ...loco }, columns);
const sized = (...given: Parameters<typeof sizing>) => size(sizing(...given));

describe("what is read", () => {
  it("is the train and the line that check reads", () => {
    const answer = sized();
    const checked = check(clubPlan(CIRCUIT, { speed_mps: 1.5 }));
    expect(answer.train_mass_kg).toBe(checked.train_mass_kg);
    expect(answer.adhesive_weight_N).toBe(checked.adhesive_weight_N);
    expect(answer.ruling_gradient_percent).toBe(checked.ruling_gradient.gradient_percent);
    expect(answer.ruling_gradient_compensated_percent).toBe(checked.ruling_gradient_compensated.gradient_percent);
    expect(answer.ruling_gradient_at_m).toBe(checked.ruling_gradient_compensated.chainage_m);
    expect(answer.steepest_descent_percent).toBe(checked.steepest_descent.gradient_percent);
    expect(answer.rail_force_level_N).toBeCloseTo(resistance_N(clubPlan().train, 1.5), 9);
  });

  it("wants a speed, and a line longer than the train", () => {
    const problems = (make: () => unknown) => {
      try {
        make();
      } catch (error) {
        if (error instanceof InputError) return error.problems.map(({ path }) => path);
        throw error;
      }
      return [];
    };
    expect(problems(() => createSizing(PLAN, BARE, CIRCUIT))).toEqual(["plan.lever"]);
    expect(problems(() => sizing({}, {}, level(3)))).toEqual(["plan.track.profile"]);
  });

  it("takes four hours where the plan has none, and says so", () => {
    const key = "plan.duration";
    expect(sizing().notes.assumed).toContainEqual(expect.objectContaining({ key, value: "4 h" }));
    expect(sizing({ duration_s: 7200 }).notes.assumed.map((each) => each.key)).not.toContain(key);
    expect(sized({ duration_s: 7200 }).duration_h).toBe(2);
  });
});

describe("force round the lap", () => {
  const lines: [string, Partial<PlanDefinition>, TrackColumns][] = [
    ["a circuit", {}, CIRCUIT],
    ["a steep circuit, coasting down", {}, hill(0.03, 300)],
    ["a line, out and back", { track: { kind: "end-to-end" } }, slope(0.02, 120)],
    ["a line in the wind", { track: { kind: "end-to-end", wind_mps: 3 } }, slope(0.004, 120)],
  ];

  it.each(lines)("is what adding up many places gives: %s", (_, plan, columns) => {
    const ways = waysOf(sizing(plan, {}, columns));
    const lap = lapForces(ways, 1.5);
    const places = 20_000;
    let sum = 0;
    let square = 0;
    for (const { train, track, wind_mps } of ways) {
      const from_m = track.kind === "circuit" ? 0 : train.length_m;
      for (let i = 0; i < places; i++) {
        const head_m = from_m + ((i + 0.5) / places) * (track.length_m - from_m);
        const lie_N = gravityAt_N(train, track, head_m) + curvesAt_N(train, track, head_m);
        const force_N = Math.max(0, resistance_N(train, 1.5, wind_mps) + lie_N);
        sum += force_N;
        square += force_N ** 2;
      }
    }
    // Many places are good to about the square of their distance; the places themselves are exact.
    expect(lap.mean_N / (sum / places / ways.length)).toBeCloseTo(1, 5);
    expect(lap.rms_N / Math.sqrt(square / places / ways.length)).toBeCloseTo(1, 5);
  });

  it("is the resistance alone on the level, and its own mean on a gentle hill, where nothing is braked away", () => {
    const flat = sized({}, {}, level(500));
    expect(flat.rail_force_rms_N).toBeCloseTo(flat.rail_force_level_N, 9);
    const rolling = sized({}, {}, hill(0.004, 500));
    expect(rolling.rail_force_mean_N).toBeCloseTo(rolling.rail_force_level_N, 9);
    expect(rolling.rail_force_rms_N).toBeGreaterThan(rolling.rail_force_mean_N);
  });
});

describe("gears and motor", () => {
  it("turn the motor at its speed when the train has its own", () => {
    for (const motor_speed_rpm of [1500, 2750]) {
      const answer = size(sizing(), { motor_speed_rpm });
      const axle_rpm = (1.5 / (Math.PI * 0.165)) * 60;
      expect(answer.ratio * axle_rpm).toBeCloseTo(motor_speed_rpm, 6);
      expect(answer.ratio).toBeLessThanOrEqual(7 ** answer.gear_stages);
      expect(answer.ratio).toBeGreaterThan(7 ** (answer.gear_stages - 1));
    }
  });

  it("keep the gears that are given", () => {
    const answer = sized({}, { gears: LOCO.gears });
    expect(answer.ratio).toBeCloseTo(((45 / 11) * 30) / 12, 12);
    expect(answer.gear_efficiency).toBeCloseTo(0.96 ** 2, 12);
    expect(answer.motor_speed_rpm).toBeCloseTo(((1.5 * answer.ratio) / (Math.PI * 0.165)) * 60, 6);
  });

  it("carry the rms with a quarter in hand, and start away at three times the rated torque at most", () => {
    for (const [columns, loco] of [
      [CIRCUIT, {}],
      [level(500), {}],
      [hill(0.03, 300), { wheels: { ...LOCO.wheels, wheelset_inertia_kgm2: 0.5 } }],
    ] as const) {
      const answer = sized({}, loco, columns);
      const rms_W = answer.rail_power_rms_W / answer.gear_efficiency;
      expect(answer.motor_continuous_power_W).toBeGreaterThanOrEqual(1.25 * rms_W - 1e-9);
      const torques = answer.motor_peak_torque_Nm / answer.motor_continuous_torque_Nm;
      expect(torques).toBeLessThanOrEqual(3 + 1e-9);
      // No more than need be: one of the two decides.
      expect(Math.min(answer.motor_continuous_power_W / (1.25 * rms_W) - 1, 3 - torques)).toBeCloseTo(0, 9);
    }
  });

  it("move the rotor as well: the effective mass is the sum of all that turns", () => {
    const answer = sized();
    const rotor_kgm2 = 5e-6 * answer.motor_continuous_power_W;
    const { train, drivenWheels_kgm2 } = sizing();
    const turning_kg = (drivenWheels_kgm2 + rotor_kgm2 * answer.ratio ** 2) / train.radius_m ** 2;
    expect(answer.effective_mass_kg).toBeCloseTo(train.translating_kg + turning_kg, 9);
  });
});

it("a heavier train wants more of everything", () => {
  const light = sized({ passengers: 2 });
  const heavy = sized({ passengers: 6 });
  const keys = [
    "rail_force_ruling_N",
    "rail_force_rms_N",
    "restart_force_N",
    "starting_force_N",
    "motor_continuous_power_W",
    "motor_peak_torque_Nm",
    "brake_force_level_N",
    "brake_force_descent_N",
    "adhesive_weight_restart_wet_N",
  ] as const;
  for (const key of keys) expect(heavy[key], key).toBeGreaterThan(light[key]!);
  light.supplies.forEach((row, i) => {
    expect(heavy.supplies[i]!.lead_acid_capacity_Ah).toBeGreaterThan(row.lead_acid_capacity_Ah!);
    expect(heavy.supplies[i]!.controller_current_A).toBeGreaterThan(row.controller_current_A);
  });
});

it("twice the volts take half the amperes, and the energy to carry does not change", () => {
  const [twelve, twentyFour, , fortyEight] = sized().supplies;
  for (const key of ["battery_rms_current_A", "motor_peak_current_A"] as const) {
    expect(twentyFour![key]).toBeCloseTo(twelve![key] / 2, 9);
    expect(fortyEight![key]).toBeCloseTo(twelve![key] / 4, 9);
  }
  // But for what cables and controller take: less of the power, the higher the volts.
  const energy = sized().supplies.map((row) => row.lead_acid_capacity_Ah! * row.voltage_V);
  for (const [i, each] of energy.slice(1).entries()) {
    expect(each / energy[i]!).toBeLessThan(1);
    expect(each / energy[i]!).toBeGreaterThan(0.97);
  }
});

describe("brake", () => {
  it.each([0, 60, 200])("takes up all energy within the distance, with %d N of gravity down the line", (down_N) => {
    const [distance_m, speed_mps, before_s, mass_kg] = [20, 2.2, 2.1, 800];
    const stop = stopWithin(distance_m, speed_mps, before_s, mass_kg, down_N)!;
    const unbraked_m = speed_mps * before_s + (down_N / mass_kg / 2) * before_s ** 2;
    const energy_J = (mass_kg * speed_mps ** 2) / 2 + down_N * distance_m;
    expect(stop.force_N * (distance_m - unbraked_m)).toBeCloseTo(energy_J, 6);
  });

  it("is beyond reach where the reaction alone takes the distance", () => {
    expect(size(sizing(), { sight_m: 3 }).brake_force_level_N).toBeNull();
  });

  it("works harder on the way down", () => {
    const answer = sized();
    expect(answer.brake_force_descent_N).toBeGreaterThan(answer.brake_force_level_N!);
  });
});

describe("adhesion", () => {
  it.each([2, 30])("with %d passengers restarts where the train's own grip carries it", (passengers) => {
    const answer = sized({ passengers });
    const { train } = clubPlan(CIRCUIT, { passengers, speed_mps: 1.5 });
    const grips = grip_N(train, answer.ruling_gradient_percent / 100) >= answer.restart_force_N;
    expect(answer.restarts_dry).toBe(grips);
    expect(answer.adhesive_weight_restart_dry_N <= answer.adhesive_weight_N).toBe(grips);
    expect(grips).toBe(passengers === 2);
  });

  it("is less with the front axle alone driven and the coupling high", () => {
    const wheels = { ...LOCO.wheels, driven_axles: 1, driven_share: 0.55 };
    const heights = { coupling_height_m: 0.4, gravity_height_m: 0.4, wheelbase_m: 0.5 };
    const plan = { passengers: 7 };
    expect(sized(plan, { wheels }).restarts_dry).toBe(true);
    expect(sized(plan, { wheels: { ...wheels, ...heights } }).restarts_dry).toBe(false);
  });
});

describe("a loco built to the figures", () => {
  const hours = 1;
  const plan: Partial<PlanDefinition> = { speed_mps: 1.5, duration_s: hours * 3600 };
  const answer = sized(plan);
  const row = answer.supplies.find(({ voltage_V }) => voltage_V === 24)!;
  const built: Partial<LocoDefinition> = {
    motor: {
      nameplate: {
        voltage_V: 24,
        current_A: row.motor_continuous_current_A,
        speed_radps: (answer.motor_speed_rpm * Math.PI) / 30,
        power_W: answer.motor_continuous_power_W,
      },
    },
    gears: [{ ratio: answer.ratio, efficiency: answer.gear_efficiency, driven_inertia_kgm2: 0 }],
    controller: { motor_current_limit_A: row.controller_current_A },
    battery: {
      chemistry: "lead-acid",
      in_series: 2,
      each: { voltage_V: 12, capacity: [{ capacity_C: row.lead_acid_capacity_Ah! * 3600 }] },
    },
    wiring: {
      breaker: { rating_A: row.breaker_rating_A!, curve: row.breaker_curve! },
      battery_cable: { length_m: 2, area_mm2: row.battery_cable_mm2! },
      motor_cable: { length_m: 1.5, area_mm2: row.motor_cable_mm2! },
    },
  };
  const ready = clubPlan(CIRCUIT, plan, built);
  const day = runOnce(ready);

  it("does the day, cool enough, down to the reserve", () => {
    expect(day.outcome).toBe("completed");
    expect(day.time_s).toBeCloseTo(hours * 3600, 6);
    expect(day.over_temperature_at_s).toBeNull();
    expect(row.lead_acid_decided_by).toBe("reserve");
    expect(Math.abs(day.state_of_charge_end - 0.5)).toBeLessThan(0.02);
  });

  it("draws about what was said, and no more of the motor than its plate", () => {
    // The current is told at nominal volts, which the battery has more of.
    expect(day.charge_used_Ah / hours / row.battery_mean_current_A).toBeGreaterThan(0.95);
    expect(day.charge_used_Ah / hours / row.battery_mean_current_A).toBeLessThan(1);
    expect(day.rms_motor_current_A).toBeLessThan(row.motor_continuous_current_A);
    expect(day.peak_motor_current_A).toBeLessThan(row.controller_current_A);
  });

  it("restarts at the worst place", () => {
    expect(restartsAt(ready, answer.ruling_gradient_at_m)).toBe(true);
  });

  it("has a breaker and cables that pass", () => {
    const looked = ["device_carries_working", "device_holds_on_gradient", "device_below_magnetic_trip"];
    const cables = ["device_guards_battery_cable", "battery_cable_carries_working", "motor_cable_carries_stall"];
    const passed = day.protection.findings.filter(({ ok }) => ok).map(({ code }) => code as string);
    expect(passed).toEqual(expect.arrayContaining([...looked, ...cables]));
    const { breaker_rating_A, breaker_curve, battery_cable_mm2, motor_cable_mm2 } = day.protection.recommended!;
    expect(row).toMatchObject({ breaker_rating_A, breaker_curve, battery_cable_mm2, motor_cable_mm2 });
  });
});
