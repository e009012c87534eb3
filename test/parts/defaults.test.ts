import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Default } from "../../packages/sim-core/src/defaults.js";
import { keyAt } from "../../packages/sim-core/src/errors.js";
import { type Key, type Keys, UNIT_IN_WORDS } from "../../packages/sim-core/src/keys.js";
import { type LocoDefinition, locoKeys, planKeys } from "../../packages/sim-core/src/parts/files.keys.js";
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

describe("defaults stand in the tables alone", () => {
  // The shortest loco that runs: all else is assumed.
  const { name, gauge_m, mass_kg, wheels, motor, gears, controller, battery } = LOCO;
  const { voltage_V } = battery.each;
  const shortest: LocoDefinition = {
    name,
    gauge_m,
    mass_kg,
    wheels: { diameter_m: wheels.diameter_m, driven_axles: wheels.driven_axles },
    motor: { nameplate: motor.nameplate! },
    gears: gears.map(({ teeth }) => ({ teeth: teeth! })),
    controller: { motor_current_limit_A: controller.motor_current_limit_A },
    battery: { chemistry: "lead-acid", in_series: 2, each: { voltage_V, capacity: [{ capacity_C: 75 * 3600 }] } },
    brakes: [{ rail_force_N: 300 }],
  };
  const { assumed } = createPlan(PLAN, shortest, CIRCUIT).notes;

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

  test("no part has a number of its own to fall back on", () => {
    const root = new URL("../../packages/sim-core/src/", import.meta.url).pathname;
    const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
    const calls = files.flatMap((file) =>
      Array.from(
        readFileSync(join(root, file), "utf8").matchAll(/\bassume(?:<\w+>)?\(([^;]*?)\);?\n/g),
        ([, args]) => args!,
      ),
    );
    expect(calls.length).toBeGreaterThan(40);
    // `[i]`, `% `, and indices are no defaults: a bare number as the last argument is.
    expect(calls.filter((args) => /,\s*-?\d[\d.e-]*\s*,?\s*(?:"[^"]*"\s*)?$/.test(args.trim()))).toEqual([]);
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
