import { describe, expect, it } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { BrakesAnswer } from "../../packages/sim-core/src/studies/brakes/answer.js";
import { brakes } from "../../packages/sim-core/src/studies/brakes/brakes.js";
import { type BrakesRow, caseOf } from "../../packages/sim-core/src/studies/brakes/cases.js";
import { placesOf } from "../../packages/sim-core/src/studies/brakes/places.js";
import { railsOf } from "../../packages/sim-core/src/studies/brakes/sets.js";
import { withoutDrag } from "../../packages/sim-core/src/studies/safe.js";
import { waysOf } from "../../packages/sim-core/src/studies/ways.js";
import { clubPlan, LOCO } from "../support/club.js";
import { hill, level, profile } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;

/** A circuit of 120 m: a climb at 1 in 50, a fall at 1 in 40, two curves. Invented; short, since every place is run from. */
const CIRCUIT = profile([
  [0, 0],
  [10, 0, 25],
  [21, 0.22],
  [55, 0.9],
  [68, 0.9, 15],
  [76, 0.9],
  [112, 0],
  [120, 0],
]);

type BrakeDefinition = NonNullable<LocoDefinition["brakes"]>[number];

/** Two cars with a guard's brake each; a car without where there is none. */
const cars = (brake?: BrakeDefinition): NonNullable<PlanDefinition["cars"]> => [
  { mass_kg: 60, length_m: 1.8, seats: 3, count: 2, ...(brake ? { brakes: [brake] } : {}) },
];
const GUARD: BrakeDefinition = { rail_force_N: 250, by: "guard" };
const regenerative = { ...LOCO.controller, electric_brake: "regenerative" as const };

const braked = clubPlan(
  CIRCUIT,
  { speed_mps: 1.8, charge: 0.8, cars: cars(GUARD) },
  { brakes: [{ rail_force_N: 400 }], controller: regenerative },
);
const answer = brakes(braked);

/** Runs on past all reason, runs away before it stops, rolls back, stops: the worst is of the greatest kind. */
const kindOf = ({ outcome, distance_m, speed_mps, top_speed_mps }: BrakesRow): number => {
  if (outcome !== "stops") return outcome === "runs_on" ? 3 : 1;
  return (distance_m ?? 0) > 20 && top_speed_mps > 1.1 * speed_mps ? 2 : 0;
};

const pick = (from: BrakesAnswer, set: string, rail: string) =>
  from.rows.filter((row) => row.brakes === set && row.rail === rail);

describe("a train with every brake there is", () => {
  it("has a row for each place, set and rail", () => {
    expect(answer.rails).toEqual([
      { rail: "dry", grip: 0.25 },
      { rail: "wet", grip: 0.12 },
    ]);
    expect(answer.not_fitted).toEqual([]);
    const along = pick(answer, "none", "dry").map(({ chainage_m }) => chainage_m);
    // The train is 5.2 m long: every 5 m, and the changes of gradient between.
    const changes = CIRCUIT.distance_m.filter((post_m) => post_m % 5 !== 0);
    expect(along).toEqual([...Array.from({ length: 24 }, (_, i) => 5 * i), ...changes].sort((a, b) => a - b));
    for (const set of ["none", "drag", "electric", "loco", "all"]) {
      for (const rail of ["dry", "wet"]) {
        expect(pick(answer, set, rail).map(({ chainage_m }) => chainage_m)).toEqual(along);
      }
    }
  });

  it("tells distance and time of those that stop, and of no other", () => {
    for (const row of answer.rows) {
      expect(row.distance_m === null).toBe(!row.stops);
      expect(row.time_s === null).toBe(!row.stops);
      expect(row.top_speed_mps).toBeGreaterThanOrEqual(row.speed_mps);
      if (row.stops) expect(row.time_s).toBeGreaterThan(braked.reaction_s);
    }
  });

  // Each set has what the one before it has, and a brake besides.
  it("stops shorter with every brake more, and no shorter on a wet rail", () => {
    for (const rail of ["dry", "wet"]) {
      const [none, drag, loco, all] = ["none", "drag", "loco", "all"].map((set) => pick(answer, set, rail));
      none.forEach((_, i) => {
        const far_m = [none, drag, loco, all].map((rows) => rows[i].distance_m ?? Number.POSITIVE_INFINITY);
        for (let k = 1; k < far_m.length; k++) expect(far_m[k]).toBeLessThanOrEqual(far_m[k - 1]);
        expect(pick(answer, "all", "wet")[i].distance_m).toBeGreaterThanOrEqual(
          pick(answer, "all", "dry")[i].distance_m ?? 0,
        );
      });
    }
  });

  // Wet, 0.12 of 2157 N on the driven wheels is less than 400 N: they lock; dry they do not.
  it("tells of wheels that lock", () => {
    expect(pick(answer, "loco", "dry").some((row) => row.wheels_locked)).toBe(false);
    expect(pick(answer, "loco", "wet").every((row) => row.wheels_locked)).toBe(true);
    expect(pick(answer, "none", "wet").some((row) => row.wheels_locked)).toBe(false);
  });

  it("finds the worst of each set on each rail among its rows", () => {
    expect(answer.worst).toHaveLength(10);
    for (const worst of answer.worst) {
      const rows = pick(answer, worst.brakes, worst.rail);
      const { distance_without_drag_m: _, ...row } = worst;
      expect(rows).toContainEqual(row);
      const kinds = rows.map(kindOf);
      expect(kindOf(worst)).toBe(Math.max(...kinds));
      const alike = rows.filter((_, i) => kinds[i] === kindOf(worst));
      const most = (each: BrakesRow) => (kindOf(each) === 0 ? (each.distance_m ?? 0) : each.top_speed_mps);
      expect(most(worst)).toBe(Math.max(...alike.map(most)));
    }
  });

  // The same stop of a train whose motor has no drag at all: its own row for that place.
  it("tells how far each worst stop goes without the motor's drag", () => {
    const bare = brakes({ ...braked, train: withoutDrag(braked.train) });
    for (const worst of answer.worst) {
      if (worst.brakes === "none" || worst.brakes === "drag") {
        expect(worst).not.toHaveProperty("distance_without_drag_m");
        continue;
      }
      const same = pick(bare, worst.brakes, worst.rail).find(({ chainage_m }) => chainage_m === worst.chainage_m);
      expect(worst.distance_without_drag_m).toBe(same?.distance_m);
      expect(worst.distance_without_drag_m ?? Number.POSITIVE_INFINITY).toBeGreaterThan(worst.distance_m ?? 0);
    }
  });

  it("lists the places from which it does not stop within sight", () => {
    for (const { brakes: set, rail, places } of answer.beyond_sight) {
      const beyond = pick(answer, set, rail).filter(({ distance_m }) => distance_m === null || distance_m > 20);
      expect(places.map(({ chainage_m }) => chainage_m).sort()).toEqual(beyond.map((row) => row.chainage_m).sort());
    }
    expect(answer.beyond_sight.find(({ brakes: set }) => set === "all")?.places).toEqual([]);
    expect(
      brakes(braked, { sight_m: 5 }).beyond_sight.some(({ brakes: set, places }) => set === "all" && places.length > 0),
    ).toBe(true);
  });

  // Run again at the speed it gives, everything stops within sight; 2 % faster, something does not.
  it.each(railsOf(braked))("finds the greatest speed from which it stops within sight, $rail", (rail) => {
    const ways = waysOf(braked);
    const places = placesOf(braked, ways[0]);
    for (const set of ["loco", "all"] as const) {
      const found = answer.greatest_speed.find((row) => row.brakes === set && row.rail === rail.rail)?.speed_mps ?? 0;
      const furthest_m = (speed_mps: number) => {
        const plan = { ...braked, speed_mps };
        const ground = { plan, ways, places, speed_mps, sight_m: 20, step_s: 0.1 };
        return caseOf(ground, set, rail).hardest[0].row.distance_m ?? Number.POSITIVE_INFINITY;
      };
      expect(furthest_m(found)).toBeLessThanOrEqual(20);
      expect(furthest_m(1.02 * found)).toBeGreaterThan(20);
    }
  });

  it("says that the guard is taken to act after the driver", () => {
    expect(answer.remarks).toEqual(["guard_acts_later"]);
    expect(answer.brake_wanted).toBeNull();
  });
});

describe("by hand", () => {
  // A train that nothing resists, on the level, at 2 m/s: it runs on through 1.5 s of reaction and 0.3 s of delay, loses
  // a t²/2 in the 0.6 s of build-up, then stops at a. No rounding but the landing's: 1e-8.
  it("reaction, delay, build-up and brake", () => {
    const [v, a, t_b] = [2, 0.8, 0.6];
    const parts = { brakes: [{ rail_force_N: a * 500 }] };
    const plan = textbookPlan({ mass_kg: 500, winding_ohm: 1, track: level(60), length_m: 10 }, parts);
    const { worst } = brakes({ ...plan, speed_mps: v, lever: Number.NaN });
    const all = worst.find((row) => row.brakes === "all");
    const slower = v - (a * t_b) / 2;
    const distance_m = v * (1.5 + 0.3 + t_b) - (a * t_b ** 2) / 6 + slower ** 2 / (2 * a);
    expect(Math.abs((all?.distance_m ?? 0) / distance_m - 1)).toBeLessThan(1e-8);
    expect(Math.abs((all?.time_s ?? 0) / (1.5 + 0.3 + t_b + slower / a) - 1)).toBeLessThan(1e-8);
    expect(all?.peak_deceleration_mps2).toBeCloseTo(a, 9);
    // With nothing to slow it, it comes round again as fast as it was.
    expect(worst.find((row) => row.brakes === "none")).toMatchObject({ stops: false, distance_m: null, time_s: null });
  });

  it("acts at once where there is no reaction time", () => {
    const plan = textbookPlan(
      { mass_kg: 500, winding_ohm: 1, track: level(60), length_m: 10 },
      { brakes: [{ rail_force_N: 500, delay_s: 0, build_up_s: 0 }] },
    );
    const { worst } = brakes({ ...plan, speed_mps: 2, lever: Number.NaN, reaction_s: 0 });
    // The quickest build-up, 10 ms, is 5 ms of running on.
    expect(worst.find((row) => row.brakes === "all")?.distance_m).toBeCloseTo(2 + 0.01, 4);
  });

  // Gains g sin θ t²/2 with nothing to hold it, through the reaction time.
  it("gains speed through the reaction time where the line falls", () => {
    const plan = textbookPlan(
      { mass_kg: 500, winding_ohm: 1, track: hill(0.02, 120), length_m: 5 },
      { brakes: [{ rail_force_N: 500 }] },
    );
    const { rows } = brakes({ ...plan, speed_mps: 2, lever: Number.NaN });
    const falling = rows.find((row) => row.chainage_m === 90 && row.brakes === "all");
    // The top is reached as the brake holds what gravity gains: at 98 of 500 N, 0.196 of the build-up.
    const a = 0.02 * G_mps2;
    const top_mps = 2 + a * (1.5 + 0.3) + (a * 0.6 * a) / 2;
    expect(falling?.gradient_percent).toBeCloseTo(-2, 9);
    expect(falling?.top_speed_mps).toBeCloseTo(top_mps, 3);
  });

  it("does not stop where it rolls back past the place it was at", () => {
    const plan = textbookPlan({ mass_kg: 500, winding_ohm: 1, track: hill(0.02, 120), length_m: 5 });
    const { rows } = brakes({ ...plan, speed_mps: 1, lever: Number.NaN });
    expect(rows.find((row) => row.chainage_m === 30 && row.brakes === "none")).toMatchObject({ stops: false });
  });
});

describe("the brake that a train without one wants", () => {
  const bare = clubPlan(CIRCUIT, { speed_mps: 1.8 });
  const wanted = brakes(bare).brake_wanted;

  // A train without drag, so that what is worked out and what is fitted are the same: it stops within sight, with 2 % less
  // it does not.
  it("stops it within sight, and not much less would", () => {
    const book = { mass_kg: 600, A_N: 60, winding_ohm: 1, track: CIRCUIT, length_m: 5 };
    const driven = { speed_mps: 1.8, lever: Number.NaN };
    const rail_force_N = brakes({ ...textbookPlan(book), ...driven }).brake_wanted?.rail_force_N ?? 0;
    const beyond = (times: number) => {
      const fitted = textbookPlan(book, { brakes: [{ rail_force_N: times * rail_force_N }] });
      return brakes({ ...fitted, ...driven }).beyond_sight.find((row) => row.brakes === "all")?.places.length;
    };
    expect(beyond(1)).toBe(0);
    expect(beyond(0.98)).toBeGreaterThan(0);
  });

  it("is what the hand gives by the linkage named, and is held against the grip", () => {
    expect(wanted).not.toBeNull();
    if (!wanted) return;
    const { linkage_ratio, linkage_efficiency, block_friction } = wanted;
    expect(wanted.hand_force_N * linkage_ratio * linkage_efficiency * block_friction).toBeCloseTo(
      wanted.rail_force_N,
      9,
    );
    const loco_N = 220 * G_mps2;
    const all_N = bare.train.mass_kg * G_mps2;
    expect(wanted.grip.map(({ braked: on, rail, grip_N }) => [on, rail, Math.round(grip_N)])).toEqual([
      ["loco", "dry", Math.round(0.25 * loco_N)],
      ["loco", "wet", Math.round(0.12 * loco_N)],
      ["all", "dry", Math.round(0.25 * all_N)],
      ["all", "wet", Math.round(0.12 * all_N)],
    ]);
    for (const { grip_N, enough } of wanted.grip) expect(enough).toBe(grip_N >= wanted.rail_force_N);
  });

  it("is none where the reaction time alone takes it out of sight", () => {
    expect(brakes(bare, { sight_m: 2 }).brake_wanted).toBeNull();
  });
});

describe("parked", () => {
  it("has one answer for each set, on the worse rail, and holds more with more", () => {
    expect(answer.parking.map(({ brakes: set, rail }) => [set, rail])).toEqual([
      ["none", "wet"],
      ["loco", "wet"],
      ["all", "wet"],
    ]);
    const [none, loco, all] = answer.parking;
    expect(none.holding_gradient_percent).toBe(0);
    // Loco: 0.12 of its 220 kg of 640; cars: 0.12 of 210 kg each, less than 250 N. Nearly level, so cos θ is 1 to 1 %.
    const mass_kg = braked.train.mass_kg;
    expect(loco.holding_gradient_percent).toBeCloseTo((100 * 0.12 * 220) / mass_kg, 1);
    expect(all.holding_gradient_percent).toBeCloseTo(11.9, 1);
    expect([none, loco, all].map((row) => row.chocks_wanted)).toEqual([true, false, false]);
  });

  it("without a brake goes off down every slope, the way that it falls", () => {
    const [none] = answer.parking;
    for (const place of none.places_it_will_not_hold) {
      expect(Math.abs(place.gradient_percent)).toBeGreaterThan(0.01);
      expect(place.way).toBe(place.gradient_percent < 0 ? "forwards" : "backwards");
      expect(place.after.map(({ time_s }) => time_s)).toEqual([10, 30, 60]);
    }
    const fastest = (after: { speed_mps: number | null }[]) =>
      Math.max(...after.map(({ speed_mps }) => speed_mps ?? 0));
    const all = none.places_it_will_not_hold.map(({ after }) => fastest(after));
    expect(fastest(none.worst?.after ?? [])).toBe(Math.max(...all));
    expect(Math.max(...all)).toBeGreaterThan(2);
  });

  it("counts no brake that is for service only", () => {
    const plan = clubPlan(CIRCUIT, { speed_mps: 1.8 }, { brakes: [{ rail_force_N: 400, use: "service" }] });
    expect(brakes(plan).parking.map((row) => row.holding_gradient_percent)).toEqual([0, 0, 0]);
  });

  it("does not stop with what is for parking only", () => {
    const plan = clubPlan(CIRCUIT, { speed_mps: 1.8 }, { brakes: [{ rail_force_N: 400, use: "parking" }] });
    const parking = brakes(plan);
    expect(parking.not_fitted).toEqual(["electric", "loco", "all"]);
    expect(parking.brake_wanted).not.toBeNull();
    expect(parking.parking[1].holding_gradient_percent).toBeGreaterThan(4);
  });
});

describe("other plans", () => {
  const LINE = profile([
    [0, 0],
    [30, 0.3, 20],
    [60, 0.9],
    [80, 0.4, 15],
    [120, 0.4],
  ]);

  it("goes both ways along a line, and judges no place within sight of its end", () => {
    const track = { kind: "end-to-end", at_ends: "propel" } as const;
    const line = brakes(
      clubPlan(LINE, { speed_mps: 1.8, track, cars: cars(GUARD) }, { brakes: [{ rail_force_N: 300 }] }),
    );
    expect(new Set(line.rows.map(({ direction }) => direction))).toEqual(new Set(["out", "back"]));
    expect(line.remarks).toContain("ends_of_the_line_left_out");
    for (const { chainage_m, direction } of line.worst) {
      expect(direction === "out" ? chainage_m : 120 - chainage_m).toBeLessThanOrEqual(100);
    }
    // From where there is less line left than it takes, it leaves the line: that is no stop.
    const late = line.rows.filter(
      (row) => row.brakes === "none" && (row.direction === "out" ? row.chainage_m > 115 : row.chainage_m < 5),
    );
    expect(late.length).toBeGreaterThan(0);
    for (const row of late) expect(row.stops).toBe(false);
    for (const row of line.rows) {
      const left_m = row.direction === "out" ? 120 - row.chainage_m : row.chainage_m;
      if (row.distance_m !== null) expect(row.distance_m).toBeLessThanOrEqual(left_m);
    }
  });

  it("begins no faster than the limits under the train", () => {
    const limited = profile([
      [0, 0],
      [50, 0, undefined, 1],
      [70, 0],
      [150, 0],
    ]);
    const plan = clubPlan(limited, { speed_mps: 1.8 });
    for (const row of brakes(plan).rows) {
      const under = row.chainage_m >= 50 && row.chainage_m - plan.train.length_m < 70;
      expect(row.speed_mps).toBe(under ? 1 : 1.8);
    }
  });

  it("takes the fastest that a held lever brings the train to", () => {
    const speeds = new Set(brakes(clubPlan(CIRCUIT, { lever: 0.6 })).rows.map(({ speed_mps }) => speed_mps));
    expect(speeds.size).toBe(1);
    expect([...speeds][0]).toBeGreaterThan(1.5);
  });

  it("has one rail where the plan's is wet, or worse", () => {
    const rails = (rail: "wet" | "greasy") => brakes(clubPlan(level(60), { speed_mps: 1.5, track: { rail } })).rails;
    expect(rails("wet")).toEqual([{ rail: "wet", grip: 0.12 }]);
    expect(rails("greasy")).toEqual([{ rail: "greasy", grip: 0.08 }]);
  });

  it("says that a full battery takes nothing back", () => {
    const full = clubPlan(CIRCUIT, { speed_mps: 1.8, charge: 1 }, { controller: regenerative });
    expect(brakes(full).remarks).toContain("battery_full");
  });

  // Neither breaker nor cut-out nor the end of a lap cuts a stop short.
  it("is not cut short by what would end a working", () => {
    const wiring = { ...LOCO.wiring, breaker: { rating_A: 2, curve: "B" as const } };
    const controller = { ...LOCO.controller, undervoltage_cutout_V: 23.9, cutout_delay_s: 0 };
    const plan = clubPlan(level(60), { speed_mps: 1.8, laps: 1 }, { wiring, controller });
    expect(brakes(plan).rows.every(({ stops }) => stops)).toBe(true);
  });
});
