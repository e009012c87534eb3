import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Default } from "../../packages/sim-core/src/defaults.js";
import { keyAt } from "../../packages/sim-core/src/errors.js";
import { type Key, type Keys, UNIT_IN_WORDS } from "../../packages/sim-core/src/keys.js";
import {
  type LocoDefinition,
  locoKeys,
  type PlanDefinition,
  planKeys,
} from "../../packages/sim-core/src/parts/files.keys.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

/** Every key of the tables with its path. */
function* every(keys: Keys, at: string): Generator<[path: string, key: Key]> {
  for (const [name, key] of Object.entries(keys) as [string, Key][]) {
    yield [`${at}.${name}`, key];
    if (key.kind === "map" || key.kind === "list") yield* every(key.keys, `${at}.${name}`);
  }
}

const KEYS = [...every(locoKeys, "loco"), ...every(planKeys, "plan")];

/** What stands between the brackets of each call of `assume`. */
function callsOf(text: string): string[] {
  return Array.from(text.matchAll(/(?<!function )\bassume(?:<\w+>)?\(/g), ({ 0: head, index }) => {
    const from = index + head.length;
    let to = from;
    for (let depth = 1; depth > 0; to++) depth += text[to] === "(" ? 1 : text[to] === ")" ? -1 : 0;
    return text.slice(from, to - 1);
  });
}

/** Is there a literal in it, the key's path apart? */
function hasItsOwn(args: string): boolean {
  const unsaid = args.replaceAll(/`[^`]*`|"(?:loco|plan)\.[^"]*"/g, "");
  return /(?<![\w.$])[\d"]|\b(?:true|false)\b/.test(unsaid);
}

/** One value of a default, and how to put another in its place for a while. */
type Value = [path: string, of: string, change: () => () => void];

function valuesOf(path: string, key: Key): Value[] {
  const standard = key.default as { is: string; value?: unknown } | undefined;
  if (standard === undefined || standard.is === "taken") return [];
  const put = (holder: Record<string, unknown>, name: string) => () => {
    const own = holder[name];
    holder[name] = another(key, own);
    return () => {
      holder[name] = own;
    };
  };
  if (typeof standard.value !== "object") return [[path, String(standard.value), put(standard as never, "value")]];
  const cases = standard.value as Record<string, unknown>;
  return Object.keys(cases).map((name) => [path, name, put(cases, name)]);
}

function another(key: Key, own: unknown): unknown {
  if (typeof own === "number") return key.kind === "count" ? own + 1 : own === 0 ? 0.001 : own * 0.9;
  if (typeof own === "boolean") return !own;
  return (key.kind === "choice" ? key.choices : ["nobody"]).find((choice) => choice !== own);
}

// Cars share some defaults with the loco and motor cables with the battery's: each is asked once.
const VALUES = KEYS.filter(([, key], i) => KEYS.findIndex(([, other]) => other.default === key.default) === i).flatMap(
  ([path, key]) => valuesOf(path, key),
);

const { name, gauge_m, mass_kg } = LOCO;
const wheels = { diameter_m: LOCO.wheels.diameter_m, driven_axles: 1, coupling_height_m: 0.2, gravity_height_m: 0.3 };
const controller = { motor_current_limit_A: LOCO.controller.motor_current_limit_A };
const lithium = { voltage_V: 12.8, capacity: [{ capacity_C: 75 * 3600 }] };
const leadAcid = { voltage_V: 12, capacity: [{ capacity_C: 75 * 3600 }] };
const car = { mass_kg: 60, length_m: 1.8, brakes: [{ rail_force_N: 200 }] };
const fits = { ...CIRCUIT, place: CIRCUIT.place.map((_, i) => (i === 2 ? "Halt" : "")) };
/** Ends a little higher than it began, which is told of where it is not spread. */
const open = {
  ...fits,
  height_m: CIRCUIT.height_m?.map((height_m, i, { length }) => height_m + (0.5 * i) / length) ?? [],
};

const plate = { nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 } };
const plain: LocoDefinition = {
  ...{ name, gauge_m, mass_kg, wheels, controller },
  motor: plate,
  gears: [{ ratio: 9 }],
  battery: { chemistry: "lead-acid", each: { ...leadAcid, voltage_V: 24 } },
};
const braking = (electric_brake: "rheostatic" | "regenerative"): LocoDefinition => ({
  ...plain,
  controller: { ...controller, electric_brake },
});
const held: PlanDefinition = { track: { profile: "" }, lever: 0.8 };

/** Short files that between them leave every key out that has a default. */
const PLANS: readonly [PlanDefinition, LocoDefinition, typeof CIRCUIT][] = [
  [
    { track: { profile: "" }, cars: [car], speed_mps: 1.5, stops: [{ place: "Halt", dwell_s: 10 }] },
    {
      ...plain,
      gears: [{ teeth: [11, 45] }, { teeth: [12, 30], shaft: { diameter_m: 0.016 } }],
      wheels: { ...wheels, axle: { diameter_m: 0.02 } },
      battery: { chemistry: "lead-acid", in_series: 2, each: leadAcid },
      wiring: { breaker: { rating_A: 63 }, isolator: { rating_A: 63 } },
      brakes: [{ rail_force_N: 300 }],
    },
    fits,
  ],
  [
    { track: { profile: "", kind: "end-to-end" }, cars: [car], passengers: 2, lever: 0.8 },
    {
      ...braking("regenerative"),
      resistance: { bearings: "plain" },
      motor: { constants: { resistance_ohm: 0.1, torque_constant_NmpA: 0.08 }, count: 2 },
      battery: { chemistry: "lifepo4", in_series: 2, each: lithium, protection: { current_A: 80 } },
    },
    fits,
  ],
  [held, braking("rheostatic"), fits],
  [held, braking("regenerative"), fits],
  [held, plain, open],
];

const { wheelbase, axles } = locoKeys.wheels.keys;
/** Keys whose default is used in more than one place, so that one of them alone might go its own way. */
const TWICE: readonly [string, Partial<LocoDefinition>][] = [
  ["wheelbase", { wheels: { ...wheels, wheelbase_m: wheelbase.default.value * gauge_m } }],
  ["axles", { wheels: { ...wheels, axles: axles.default.value } }],
  ["in_series", { battery: { ...plain.battery, in_series: locoKeys.battery.keys.in_series.default.value } }],
];

/** All that a plan comes to, or what is wrong with it. */
function made([plan, loco, columns]: (typeof PLANS)[number]): unknown {
  try {
    const { trains, ...ready } = createPlan(plan, loco, columns);
    return { ...ready, trains: [...trains.values()] };
  } catch (error) {
    return String(error);
  }
}

describe("defaults stand in the tables alone", () => {
  const { assumed } = createPlan(PLAN, { ...plain, brakes: [{ rail_force_N: 300 }] }, CIRCUIT).notes;

  test("whatever is assumed with a number of its own is the table's", () => {
    let fixed = 0;
    for (const { key: path, value } of assumed) {
      const key = keyAt(path);
      const standard: Default | undefined = key?.default;
      if (standard?.is !== "fixed" || typeof standard.value !== "number") continue;
      fixed++;
      const unit = key?.kind === "quantity" ? ` ${UNIT_IN_WORDS[key.dimension]}` : "";
      expect([path, Number.parseFloat(value)]).toEqual([path, Number(standard.value.toPrecision(4))]);
      expect(value.endsWith(unit)).toBe(true);
    }
    expect(fixed).toBeGreaterThan(15);
  });

  test("no part has a number or a word of its own to fall back on", () => {
    const root = new URL("../../packages/sim-core/src/", import.meta.url).pathname;
    const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
    const calls = files.flatMap((file) => callsOf(readFileSync(join(root, file), "utf8")));
    expect(calls.length).toBeGreaterThan(80);
    expect(calls.filter(hasItsOwn)).toEqual([]);
  });

  test.each([
    "assume(notes, path, given, 0.3)",
    "build({\n    delay_s: assume(notes, at, brake.delay_s, 0.3),\n})",
    "assume(notes, path, given, 3.3 * loco.gauge_m)",
    'assume(notes, path, given, "dry")',
    "assume(notes, path, given, false)",
  ])("%s would be found out", (text) => expect(callsOf(text).some(hasItsOwn)).toBe(true));

  test.each(VALUES)("%s: another value in the table, %s, makes another train", (path, _, change) => {
    const before = PLANS.map(made);
    const restore = change();
    try {
      expect(PLANS.map(made), path).not.toEqual(before);
    } finally {
      restore();
    }
  });

  test.each(TWICE)("%s given as its default is the same as left out", (_, given) => {
    const train = (loco: LocoDefinition) => createPlan(held, loco, fits).train;
    expect(train({ ...plain, ...given })).toEqual(train(plain));
  });

  test("every range holds its default", () => {
    const outside = KEYS.flatMap(([path, { default: standard }]) => {
      if (standard?.is !== "fixed" || typeof standard.value !== "number" || standard.range === "exact") return [];
      const [low, high] = standard.range;
      return low <= standard.value && standard.value <= high && low < high ? [] : [path];
    });
    expect(outside).toEqual([]);
  });

  test("every default says what everybody does, who says so, or where its words say it", () => {
    const unsaid = KEYS.filter(
      ([, { default: standard }]) => standard && standard.is !== "taken" && standard.source === "",
    );
    expect(unsaid.map(([path]) => path)).toEqual([]);
  });
});
