import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import { fieldName, type Key, type Keys } from "../../packages/sim-core/src/keys.js";
import { locoKeys, planKeys } from "../../packages/sim-core/src/parts/files.keys.js";
import { brakesAt } from "../../packages/sim-core/src/studies/brakes/at.js";
import { brakes } from "../../packages/sim-core/src/studies/brakes/brakes.js";
import { climb } from "../../packages/sim-core/src/studies/climb/climb.js";
import { tractiveEffort } from "../../packages/sim-core/src/studies/climb/effort.js";
import { steeperThan } from "../../packages/sim-core/src/studies/climb/steep.js";
import { gears } from "../../packages/sim-core/src/studies/gears/gears.js";
import { laps } from "../../packages/sim-core/src/studies/laps.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { createSizing } from "../../packages/sim-core/src/studies/size/input.js";
import { size } from "../../packages/sim-core/src/studies/size/size.js";
import { outingOf } from "../../packages/sim-core/src/studies/trial/machine.js";
import { trial } from "../../packages/sim-core/src/studies/trial/trial.js";
import { createPlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import { quantity } from "../../packages/sim-core/src/units/units.js";
import { CIRCUIT, clubPlan, LOCO, PLAN } from "../support/club.js";

// Law: whoever uses the core as a library is told of every slip as the reader of files tells it, all at once and each
// where it is; and no nonsense runs without end.

type Fields = Record<string, unknown>;

/** The problems that a call throws, and within a second. */
function problemsOf(call: () => unknown): readonly { path: string; message: string }[] {
  const began = performance.now();
  try {
    call();
  } catch (error) {
    expect(performance.now() - began).toBeLessThan(1000);
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}

const plan = (own: Fields, loco: Fields = {}, track: Fields = {}) =>
  problemsOf(() =>
    createPlan({ ...PLAN, ...own } as typeof PLAN, { ...LOCO, ...loco } as typeof LOCO, { ...CIRCUIT, ...track }),
  );
const paths = (...given: Parameters<typeof plan>) => plan(...given).map(({ path }) => path);

/** A right value of each kind, for what stands beside the one that is looked at. */
const RIGHT: Readonly<Record<Key["kind"], (key: never) => unknown>> = {
  quantity: (key: Extract<Key, { kind: "quantity" | "number" }>) =>
    Math.min(Math.max(1, key.min ?? key.above ?? 1), key.max ?? 1),
  number: (key: Extract<Key, { kind: "number" }>) => Math.min(Math.max(1, key.min ?? 1), key.max ?? 0.5),
  count: () => 1,
  text: () => "text",
  file: () => "file",
  yes_no: () => true,
  choice: ({ choices }: Extract<Key, { kind: "choice" }>) => choices[0],
  teeth: () => [12, 36],
  capacity: () => ({ capacity_Ah: 75 }),
  voltage_table: () => [
    [0, 11],
    [1, 13],
  ],
  map: ({ keys }: Extract<Key, { kind: "map" }>) => filled(keys),
  list: ({ keys }: Extract<Key, { kind: "list" }>) => [filled(keys)],
};
const rightOf = (key: Key): unknown => RIGHT[key.kind](key as never);

/** What a block must have, and nothing else. */
const filled = (keys: Keys): Fields =>
  Object.fromEntries(
    Object.entries(keys)
      .filter(([, { required }]) => required)
      .map(([name, key]) => [fieldName(name, key), rightOf(key)]),
  );

interface Place {
  path: string;
  key: Key;
  /** A definition in which everything on the way there is right, and this. */
  put: (value: unknown) => Fields;
}

/** Every key of a table, however deep. */
function* placesIn(keys: Keys, path: string, put: (block: Fields) => Fields): Generator<Place> {
  for (const [name, key] of Object.entries(keys)) {
    const own = (value: unknown) => put({ ...filled(keys), [fieldName(name, key)]: value });
    yield { path: `${path}.${name}`, key, put: own };
    if (key.kind === "map") yield* placesIn(key.keys, `${path}.${name}`, own);
    if (key.kind === "list") yield* placesIn(key.keys, `${path}.${name}.1`, (block) => own([block]));
  }
}
const PLACES = [...placesIn(locoKeys, "loco", (block) => block), ...placesIn(planKeys, "plan", (block) => block)];

/** What is said of a definition at a path. */
function saidOf({ path, put }: Place, value: unknown): string[] {
  const given = put(value);
  const [own, loco] = path.startsWith("plan.") ? [given, LOCO] : [PLAN, given];
  const found = problemsOf(() => createPlan(own as typeof PLAN, loco as typeof LOCO, CIRCUIT));
  return found
    .filter((problem) => problem.path === path || problem.path.startsWith(`${path}.`))
    .map(({ message }) => message);
}

describe.each(PLACES.map((place) => [place.path, place] as const))("%s", (_, place) => {
  const { key } = place;
  test("takes what is right", () => {
    const odd = saidOf(place, rightOf(key)).filter((message) =>
      /stands where|is not|out of range|no such/.test(message),
    );
    expect(odd).toEqual([]);
  });
  test.each([
    ["NaN", Number.NaN],
    ["Infinity", Number.POSITIVE_INFINITY],
    ["null", null],
    ["a function", () => 1],
  ])("does not take %s", (_, value) => {
    expect(saidOf(place, value)).not.toEqual([]);
  });
  test("does not take another kind", () => {
    const isText = key.kind === "text" || key.kind === "file";
    expect(saidOf(place, isText ? 5 : "some text")).not.toEqual([]);
    expect(saidOf(place, { no_such_field: 1 })).not.toEqual([]);
  });
  if (key.kind === "quantity" || key.kind === "number" || key.kind === "count") {
    const { min, above, max, below } = key;
    test("does not take what is out of its bounds", () => {
      for (const value of [(min ?? above!) - 1, (max ?? below!) + 1]) {
        expect(saidOf(place, value)).toEqual([expect.stringMatching(/ is out of range; \w+ must be (at|more|less) /)]);
      }
    });
  }
});

describe("what is wrong", () => {
  test("is told all at once, in plan, loco and track", () => {
    expect(
      paths({ passengers: -2 }, { mass_kg: Number.NaN, brakes: [{ rail_force_N: -1 }] }, { limit_mps: [] }),
    ).toEqual(["plan.passengers", "loco.mass", "loco.brakes.1.rail_force", "track.limit_mps"]);
  });

  test("is told with what may have been meant", () => {
    const said = (own: Fields, loco: Fields = {}) => plan(own, loco).map(({ path, message }) => `${path}: ${message}`);
    expect(said({ pasengers: 2 })).toEqual(["plan.pasengers: there is no such field; did you mean passengers?"]);
    expect(said({ drag_area: 0.7 })).toEqual(["plan.drag_area: there is no such field; did you mean drag_area_m2?"]);
    expect(said({}, { mass_kg: "140 kg" })).toEqual([
      'loco.mass: "140 kg" is text; quantity("140 kg", "mass") makes a number of kg from it',
    ]);
    expect(said({ track: { rail: "wett" } })).toEqual([
      'plan.track.rail: "wett" is not one of dry, damp, wet, greasy; did you mean wet?',
    ]);
  });

  test("neither speed nor lever is", () => {
    expect(plan({ lever: undefined })).toEqual([{ path: "plan", message: "one of speed_mps or lever is missing" }]);
    expect(paths({ speed_mps: 2 })).toEqual(["plan.lever"]);
  });

  test("definitions that are none are", () => {
    const call = createPlan as (...given: unknown[]) => Plan;
    expect(problemsOf(() => call()).map(({ path }) => path)).toEqual(["plan", "loco", "track"]);
    expect(problemsOf(() => call(3, "x", [])).map(({ path }) => path)).toEqual(["plan", "loco", "track"]);
  });

  test("a message has twenty lines at most, the error every problem", () => {
    const distance_m = CIRCUIT.distance_m.map(() => Number.NaN);
    const many = Array.from({ length: 40 }, (_, i) => [`odd_${i}`, 1]);
    try {
      createPlan({ ...PLAN, ...Object.fromEntries(many) }, LOCO, { ...CIRCUIT, distance_m });
      expect.unreachable();
    } catch (error) {
      const { message, problems } = error as InputError;
      expect(problems).toHaveLength(40 + distance_m.length);
      expect(message.split("\n")).toHaveLength(21);
      expect(message).toMatch(/and \d+ more$/);
      expect(Object.keys(error as object)).toEqual([]);
    }
  });
});

describe("columns of a line", () => {
  const [first, ...others] = CIRCUIT.distance_m;
  test.each<[string, Fields, string]>([
    ["fewer values than posts", { height_m: [0, 1] }, "track.height_m"],
    [
      "one post",
      { distance_m: [0], height_m: [0], curvature_radpm: [0], limit_mps: [1], place: [""] },
      "track.distance_m",
    ],
    ["posts that do not lead on", { distance_m: [first, first, ...others.slice(1)] }, "track.2.distance_m"],
    [
      "a height that is none",
      { height_m: CIRCUIT.height_m?.map((h, i) => (i === 2 ? Number.NaN : h)) },
      "track.3.height_m",
    ],
    ["a limit of nothing", { limit_mps: CIRCUIT.limit_mps.map(() => 0) }, "track.1.limit_mps"],
    ["places that are none", { place: CIRCUIT.place.map(() => 5) }, "track.1.place"],
    ["heights and gradients both", { sine: CIRCUIT.curvature_radpm }, "track"],
    ["neither", { height_m: undefined }, "track"],
    ["a column that there is not", { radius_m: CIRCUIT.curvature_radpm }, "track.radius_m"],
    ["further than any line", { distance_m: CIRCUIT.distance_m.map((d) => d * 1e7) }, "track.2.distance_m"],
  ])("%s", (_, track, path) => {
    expect(paths({}, {}, track)[0]).toBe(path);
  });

  test("need no more than distances and heights", () => {
    const { distance_m, height_m } = CIRCUIT;
    const bare = createPlan(PLAN, LOCO, { distance_m, height_m: height_m! });
    const whole = clubPlan({ ...CIRCUIT, curvature_radpm: CIRCUIT.curvature_radpm.map(() => 0) });
    expect(bare.track).toEqual(whole.track);
  });
});

describe("tables of a motor", () => {
  test("have rows of numbers", () => {
    const motor = { curve: { voltage_V: 24 } };
    const curve = [
      [1, 2],
      [1, Number.NaN, 3],
    ] as unknown as [number, number, number][];
    const found = problemsOf(() => createPlan(PLAN, { ...LOCO, motor }, CIRCUIT, { curve }));
    expect(found.map(({ path }) => path)).toEqual(["loco.motor.curve.1", "loco.motor.curve.2"]);
  });
});

describe("capacities", () => {
  const battery = (capacity: unknown) => ({ battery: { ...LOCO.battery, each: { voltage_V: 12, capacity } } });
  const charge_C = (capacity: unknown) =>
    createPlan(PLAN, { ...LOCO, ...battery(capacity) } as typeof LOCO, CIRCUIT).train.battery.label_C;

  test("are the same as labels have them and in SI", () => {
    const label = charge_C({ capacity_Ah: 75 });
    expect(charge_C([{ capacity_C: 270_000 }])).toBe(label);
    expect(charge_C({ capacity_C: quantity("75 Ah", "charge") })).toBe(label);
    const several = [
      { capacity_Ah: 75, time_h: 20 },
      { capacity_Ah: 64, time_h: 5 },
    ];
    const inSI = several.map(({ capacity_Ah, time_h }) => ({ capacity_C: capacity_Ah * 3600, time_s: time_h * 3600 }));
    expect(charge_C(several)).toBe(charge_C(inSI));
  });

  test.each<[string, unknown]>([
    ["a bare number", 75],
    ["none at all", []],
    ["one in two units", { capacity_Ah: 75, capacity_C: 270_000 }],
    ["a time in another unit", { capacity_Ah: 75, time_s: 72_000 }],
    ["a time of seconds", { capacity_C: 270_000, time_s: 1 }],
    [
      "one time twice",
      [
        { capacity_Ah: 75, time_h: 20 },
        { capacity_Ah: 70, time_h: 20 },
      ],
    ],
  ])("%s is refused", (_, capacity) => {
    expect(paths({}, battery(capacity))).toEqual(["loco.battery.each.capacity"]);
  });
});

describe("a sizing", () => {
  const { motor: _, gears: __, controller: ___, battery: ____, wiring: _____, ...rolling } = LOCO;
  const driven = { ...PLAN, lever: undefined, speed_mps: 2 };
  test("looks at what it is given, and not at what it chooses", () => {
    const call = (loco: Fields, own: Fields = {}) =>
      problemsOf(() =>
        createSizing({ ...driven, ...own } as unknown as typeof PLAN, { ...rolling, ...loco }, CIRCUIT),
      ).map(({ path }) => path);
    expect(call({})).toEqual([]);
    expect(call({ battery: 3, motor: "none yet" })).toEqual([]);
    expect(call({ mass_kg: Number.NaN }, { duration_s: -1 })).toEqual(["plan.duration", "loco.mass"]);
    expect(call({ gears: [{ teeth: [1.5, 2] }] })).toEqual(["loco.gears.1.teeth"]);
  });
});

describe("what a question is asked with", () => {
  const ready = clubPlan();
  const sizing = createSizing({ ...PLAN, lever: undefined, speed_mps: 2 } as unknown as typeof PLAN, LOCO, CIRCUIT);
  const outing = outingOf(PLAN, LOCO, CIRCUIT);
  test.each<[string, string, () => unknown]>([
    ["no step", "step_s", () => runOnce(ready, { step_s: 0 })],
    ["a step that is none", "step_s", () => runOnce(ready, { step_s: Number.NaN })],
    ["a step beyond the driver's looks", "step_s", () => laps(ready, { step_s: 0.6 })],
    ["a step without end", "step_s", () => brakes(ready, { step_s: 1e-12 })],
    ["a trace without end", "every_s", () => runOnce(ready, { every_s: 0 })],
    ["a sight of nothing", "sight_m", () => brakes(ready, { sight_m: -1 })],
    ["a place that is none", "chainage_m", () => brakesAt(ready, Number.NaN)],
    ["seats without end", "seats", () => climb(ready, () => ready, Number.POSITIVE_INFINITY)],
    ["a gradient that is none", "share", () => tractiveEffort(ready, Number.NaN)],
    ["a gradient steeper than a wall", "share", () => steeperThan(ready, 2)],
    ["half a tooth", "teeth", () => gears(ready, [12.5])],
    ["choices without end", "most", () => gears(ready, [12, 36], { most: Number.POSITIVE_INFINITY })],
    ["no efficiency", "motor_efficiency", () => size(sizing, { motor_efficiency: 0 })],
    ["volts that are none", "voltages_V", () => size(sizing, { voltages_V: [Number.NaN] })],
    ["tools that there are not", "tools", () => trial(outing, LOCO, { tools: ["hammer"] as never })],
  ])("%s is refused", (_, name, call) => {
    expect(problemsOf(call).map(({ path }) => path)).toEqual([`options.${name}`]);
  });
});

describe("a plan changed by hand", () => {
  const ready = clubPlan();
  const train = (change: object): Plan => ({ ...ready, train: { ...ready.train, ...change } });
  test.each<[string, Plan]>([
    ["mass that is none", train({ effective_kg: Number.NaN })],
    ["wheels of nothing", train({ radius_m: Number.NaN })],
    ["a motor that is none", train({ motor: { ...ready.train.motor, resistance20_ohm: Number.NaN } })],
    ["a train longer than its line", train({ length_m: 1e9 })],
    ["a line without end", { ...ready, track: { ...ready.track, length_m: 1e9 } }],
  ])("%s comes to an end", (_, plan) => {
    const began = performance.now();
    expect(() => runOnce(plan)).toThrow(/is no number|is no longer a number|does not stand on this line/);
    expect(performance.now() - began).toBeLessThan(1000);
  });
});
