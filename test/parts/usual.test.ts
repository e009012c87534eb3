import { readdirSync } from "node:fs";
import { join } from "node:path";
import { filesToStartFrom, readPlan } from "@rideon/sim-cli/read";
import {
  createPlan,
  createSizing,
  defaultInWords,
  fieldName,
  type Key,
  type Keys,
  locoKeys,
  planKeys,
  quantity,
  share,
  type Usual,
} from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { lookForUnusual } from "../../packages/sim-core/src/units/usual.js";
import { SITE } from "../cli/command.js";
import { folderWith, LOCO, PLAN, readWell } from "../support/folder.js";

/** Every key that holds numbers, by its path. */
function numbersIn(keys: Keys, path: string): [path: string, key: Key][] {
  return Object.entries(keys).flatMap(([name, key]): [string, Key][] => {
    if (key.kind === "map" || key.kind === "list") return numbersIn(key.keys, `${path}.${name}`);
    return ["text", "file", "choice", "yes_no"].includes(key.kind) ? [] : [[`${path}.${name}`, key]];
  });
}
const ALL = [...numbersIn(locoKeys, "loco"), ...numbersIn(planKeys, "plan")];

type Measured = Extract<Key, { kind: "quantity" | "number" | "count" }>;
const isMeasured = (each: [string, Key]): each is [string, Measured] =>
  each[1].kind === "quantity" || each[1].kind === "number" || each[1].kind === "count";
const MEASURED = ALL.filter(isMeasured);

const typedAs = (key: Measured, text: string): number =>
  key.kind === "quantity" ? quantity(text, key.dimension) : share(text);

const isTemperature = (key: Measured): boolean => key.kind === "quantity" && key.dimension === "temperature";

/** What is warned of where a key has this value. */
function warned(key: Key, value: unknown): string[] {
  const notes = newNotes();
  lookForUnusual(notes, "loco", { it: key }, { [fieldName("it", key)]: value });
  return notes.warnings.map(({ code, path, message }) => `${code} ${path} ${message}`);
}

/** May the reader pass it on? */
const isRead = ({ min, above, max, below }: Measured, value: number): boolean =>
  value >= (min ?? value) &&
  value <= (max ?? value) &&
  !(value <= (above ?? -Infinity)) &&
  !(value >= (below ?? Infinity));

describe("every key that holds numbers", () => {
  test.each(ALL)("%s has a usual range", (_, key) => {
    const [least, most] = ("usual" in key ? key.usual : undefined) ?? ([1, 0] as Usual);
    expect(least).toBeLessThan(most);
  });

  test.each(MEASURED)("%s: its usual range can be typed", (_, key) => {
    const [least, most, orNone] = key.usual!;
    for (const value of orNone ? [0, least, most] : [least, most]) {
      expect(isRead(key, value), String(value)).toBe(true);
      expect(warned(key, value)).toEqual([]);
    }
  });

  const typed = MEASURED.flatMap(([path, key]) =>
    [key.example, defaultInWords(key)].flatMap((text = "") =>
      text.split(/ or |, /).flatMap((each): [string, string, Measured][] => {
        try {
          return Number.isFinite(typedAs(key, each)) ? [[path, each, key]] : [];
        } catch {
          return [];
        }
      }),
    ),
  );
  test("examples and plain defaults are found", () => expect(typed.length).toBeGreaterThan(100));
  test.each(typed)("%s: %s is usual", (_, text, key) => {
    expect(warned(key, typedAs(key, text))).toEqual([]);
  });

  // The slip that is made most: milli left out, or put in; kilo likewise.
  test.each(typed.filter(([, , { kind }]) => kind === "quantity"))(
    "%s: %s a thousandfold, or a thousandth of it",
    (_, text, key) => {
      const value = typedAs(key, text);
      if (value === 0 || isTemperature(key)) return;
      for (const slip of key.usual![0] <= 0 ? [1000 * value] : [1000 * value, value / 1000])
        expect(isRead(key, slip) ? warned(key, slip) : ["refused"], String(slip)).toHaveLength(1);
    },
  );
});

describe("what is said", () => {
  const warningsOf = (files: Record<string, string>) => {
    const { plan, loco, track, place } = readWell(files);
    return createPlan(plan, loco, track).notes.warnings.flatMap(({ code, path, message }) =>
      code === "unusual" ? [{ line: place(path)?.line, message }] : [],
    );
  };

  test("where, what was found and what is usual, in units of the trade", () => {
    const loco = LOCO.replace(
      "capacity: 75 Ah",
      "capacity: { 20 h: 1500 Ah, 5 h: 1280 Ah }, resistance: 6 ohm",
    ).replace("gauge: 7 1/4 in", "gauge: 1 1/2 in");
    const cars = PLAN.replace("count: 2", "count: 2, brakes: [{ rail_force: 100 kN }]").replace("4 mph", "19 m/s");
    expect(warningsOf({ "loco.yaml": loco, "plan.yaml": cars })).toEqual([
      {
        line: 4,
        message:
          "cars.1.brakes.1.rail_force: 100000 N (22481 lbf) is unusual; usual is 10 N (2.25 lbf) to 5000 N (1124 lbf)",
      },
      {
        line: 6,
        message: "speed: 68.4 km/h (42.5 mph) is unusual; usual is 1.44 km/h (0.895 mph) to 25.2 km/h (15.7 mph)",
      },
      { line: 2, message: "gauge: 38.1 mm (1.5 in) is unusual; usual is 60 mm (2.36 in) to 620 mm (24.4 in)" },
      { line: 10, message: "battery.each.capacity: 1500 Ah is unusual; usual is 2 Ah to 600 Ah" },
      { line: 10, message: "battery.each.resistance: 6 ohm is unusual; usual is 0.2 mohm to 300 mohm" },
    ]);
  });

  test("a value that nobody meets with keeps its figures", () => {
    const { gauge } = locoKeys;
    expect(warned(gauge, 2.54e-14)).toEqual([expect.stringContaining("it: 2.54e-11 mm is unusual")]);
    expect(warned(gauge, 1e20)).toEqual([expect.stringContaining("it: 100000000000000000 km is unusual")]);
  });

  test("a loco that is only sized is looked at too", () => {
    const { plan, loco, track } = readWell({ "loco.yaml": LOCO.replace("140 kg", "14 kg") });
    const { notes } = createSizing(plan, loco, track);
    expect(notes.warnings.map(({ code }) => code)).toContain("unusual");
  });
});

describe("nothing that is shipped is unusual", () => {
  const plans = readdirSync(SITE).filter((name) => name.endsWith(".yaml") && !/loco|teasel/.test(name));
  test.each(plans)("%s", (name) => {
    const { plan, loco, track } = readPlan(join(SITE, name));
    expect(createPlan(plan, loco, track).notes.warnings.filter(({ code }) => code === "unusual")).toEqual([]);
  });
  test("what new writes", () => {
    const { plan, loco, track } = readPlan(join(folderWith(filesToStartFrom()), "plan.yaml"));
    expect(createPlan(plan, loco, track).notes.warnings.filter(({ code }) => code === "unusual")).toEqual([]);
  });
});
