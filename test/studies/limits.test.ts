import { describe, expect, test } from "vitest";
import { brakes, createPlan, type LimitsAnswer, limits } from "../../packages/sim-core/src/index.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { mostUpTo } from "../../packages/sim-core/src/studies/limits/aboard.js";
import { follow } from "../../packages/sim-core/src/studies/limits/parted.js";
import { partOf } from "../../packages/sim-core/src/train/rolling.js";
import { clubPlan, LOCO, PLAN } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** Invented: up and down at 1 in 50, and little charge, so that a day is short. */
const HUMP = profile([
  [0, 0],
  [60, 1.2],
  [100, 1.2],
  [160, 0],
]);
const { lever: _, ...held } = PLAN;
const { no_load_current_A: __, ...nameplate } = LOCO.motor.nameplate!;
/** Its motor's drag is nobody's figure, so that none is counted. */
const SHORT: LocoDefinition = {
  ...LOCO,
  motor: { ...LOCO.motor, nameplate },
  battery: { ...LOCO.battery, use_down_to: 0.02 },
};
const BRAKE = { rail_force_N: 400 };
const PLANNED: PlanDefinition = { ...held, speed_mps: 1.5, charge: 0.06, passengers: 2 };
const may = (loco: Partial<LocoDefinition>, plan: Partial<PlanDefinition> = {}): LimitsAnswer =>
  limits({ plan: { ...PLANNED, ...plan }, loco: { ...SHORT, ...loco }, track: HUMP });
const row = (answer: LimitsAnswer, limit: string) => answer.aboard.find((each) => each.limit === limit)!;

describe("what a train may do", () => {
  const braked = may({ brakes: [BRAKE] });
  test("no more ride than there are seats, however much it pulls", () => {
    expect(braked.seats).toBe(6);
    expect(braked).toMatchObject({ may_carry: true, most_aboard: 6, most_aboard_by: "seats" });
  });
  test("the least of what counts is the answer", () => {
    const counted = braked.aboard.filter(({ counts }) => counts).map(({ most }) => most ?? 0);
    expect(braked.most_aboard).toBe(Math.min(...counted));
  });
  test("without a brake nobody rides, and the brake it wants is told", () => {
    const bare = may({});
    expect(bare).toMatchObject({ may_carry: false, most_aboard: 0, most_aboard_by: "stopping" });
    expect(row(bare, "stopping")).toMatchObject({ most: null, lifted_by: "brake" });
    const force_N = row(bare, "stopping").brake_N!;
    // Such a brake stops it, and one of nine tenths does not: the same judgement from both sides.
    const with_N = (rail_force_N: number) => row(may({ brakes: [{ rail_force_N }] }), "stopping").most;
    expect(with_N(1.15 * force_N)).not.toBeNull();
    expect(with_N(0.7 * force_N)).not.toBe(6);
  });
  test("a loco alone carries nobody", () => {
    expect(may({ brakes: [BRAKE] }, { cars: [], passengers: 0 })).toMatchObject({ may_carry: false, seats: 0 });
  });
  test("stretches run no faster than plan, line and sight allow", () => {
    for (const { speed_mps } of braked.speeds) expect(speed_mps).toBeLessThanOrEqual(1.5);
    const short = limits({ plan: PLANNED, loco: { ...SHORT, brakes: [BRAKE] }, track: HUMP }, { sight_m: 4 });
    expect(Math.min(...short.speeds.map(({ speed_mps }) => speed_mps))).toBeLessThan(1.5);
    expect(short.speeds.some(({ by }) => by === "sight")).toBe(true);
  });
});

describe("stopping by who acts", () => {
  const fitted = [
    { ...BRAKE, on_dead_man: true },
    { ...BRAKE, by: "guard" as const },
  ];
  const { stops } = limits({
    plan: PLANNED,
    loco: { ...SHORT, brakes: fitted },
    track: profile([
      [0, 0],
      [160, 0],
    ]),
  });
  const far_m = (who: string) => Math.max(...stops.filter((each) => each.who === who).map((each) => each.distance_m!));
  test("the guard's brake comes later than the driver's by what the train runs meanwhile", () => {
    const later_m = far_m("guard") - far_m("driver");
    // 3 s at 1.5 m/s, less what it slows by as it rolls, and brakes from that lower speed.
    expect(later_m).toBeGreaterThan(0.5 * 3 * 1.5);
    expect(later_m).toBeLessThan(3 * 1.5);
  });
  test("a dead-man's switch saves the time to react, and both brakes stop it sooner than one", () => {
    const saved_m = far_m("driver") - far_m("dead_man");
    expect(Math.abs(saved_m - 1.5 * 1.5)).toBeLessThan(0.2 * 1.5 * 1.5);
    expect(far_m("everybody")).toBeLessThanOrEqual(far_m("driver"));
  });
});

/** Closed form: what gravity gives less what rolling takes is kinetic energy (any text on mechanics). */
test("a part left on a long slope rolls back as energy has it", () => {
  const [slope, length_m] = [1 / 50, 400];
  const plan = clubPlan(
    profile([
      [0, 0],
      [length_m, slope * length_m],
    ]),
    { track: { kind: "end-to-end" } },
  );
  const whole = { ...partOf(plan.train, 1, 3), airFactor: 0, rolling_Nspm: 0 };
  const from_m = 300;
  const went = follow({ rolling: whole, brake_N: 0 }, plan.track, from_m, 0);
  const run_m = from_m - whole.length_m;
  const force_N = whole.mass_kg * 9.80665 * slope - whole.rolling_N;
  expect(went.outcome).toBe("leaves_the_line");
  expect(went.top_mps / Math.sqrt((2 * force_N * run_m) / whole.translating_kg)).toBeCloseTo(1, 2);
});

test("with its own brakes on a part stays where these hold it", () => {
  const plan = clubPlan(
    profile([
      [0, 0],
      [400, 8],
    ]),
    { track: { kind: "end-to-end" } },
  );
  const part = partOf(plan.train, 1, 3);
  const pull_N = part.mass_kg * 9.80665 * 0.02;
  expect(follow({ rolling: part, brake_N: 1.01 * pull_N }, plan.track, 200, 0)).toMatchObject({ outcome: "stays" });
  expect(follow({ rolling: part, brake_N: 0.3 * pull_N }, plan.track, 200, 0).outcome).toBe("leaves_the_line");
});

test("the most is found with few questions, and none where even nobody is too many", () => {
  let asked = 0;
  const holds = (most: number) => (passengers: number) => {
    asked++;
    return passengers <= most;
  };
  expect([mostUpTo(60, holds(60)), mostUpTo(60, holds(17)), mostUpTo(60, holds(0)), mostUpTo(60, holds(-1))]).toEqual([
    60,
    17,
    0,
    null,
  ]);
  expect(asked).toBeLessThan(24);
});

// One judgement, seen from two questions, of a plan with as many aboard as may ride.
describe("stops told by limits and by brakes", () => {
  const loco = { ...SHORT, brakes: [BRAKE, { ...BRAKE, by: "guard" as const }] };
  const told = limits({ plan: { ...PLANNED, passengers: 6 }, loco, track: HUMP });
  const { worst } = brakes(createPlan({ ...PLANNED, passengers: 6 }, loco, HUMP));
  test.each([
    ["nobody", "none"],
    ["everybody", "all"],
  ])("%s is as far as %s", (who, set) => {
    for (const stop of told.stops.filter((each) => each.who === who)) {
      const same = worst.find(({ brakes: on, rail }) => on === set && rail === stop.rail);
      expect(same?.distance_m).toBe(stop.distance_m);
      expect(same?.chainage_m).toBe(stop.from_m);
      expect(same?.top_speed_mps).toBe(stop.top_speed_mps);
    }
    expect(told.stops.some((each) => each.who === who)).toBe(true);
  });
});
