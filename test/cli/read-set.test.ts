import { join } from "node:path";
import { type ReadOptions, readPlan, UsageError } from "@rideon/sim-cli/read";
import { describe, expect, test } from "vitest";
import { folderWith, PLAN, read, readWell } from "../support/folder.js";

const withSets = (...sets: string[]) => readWell({}, { sets });
const refused = (...sets: NonNullable<ReadOptions["sets"]>[number][]) => {
  expect(() => readPlan(join(folderWith(), "plan.yaml"), { sets })).toThrow(UsageError);
  return read({}, { sets });
};

describe("--set", () => {
  test("a key of the plan, and of the loco", () => {
    const { plan, loco } = withSets("passengers=7", "loco.mass=150 kg", "air_temperature=59 °F");
    expect([plan.passengers, plan.air_temperature_degC, loco.mass_kg]).toEqual([7, 15, 150]);
  });
  test("the last of two holds", () => expect(withSets("passengers=7", "passengers=5").plan.passengers).toBe(5));
  test("list items by number, from 1", () => {
    expect(withSets("loco.gears.1.teeth=[12, 36]").loco.gears[0]?.teeth).toEqual([12, 36]);
  });
  test("list items by name, points and all", () => {
    const { plan } = withSets("cars.1.name=No. 2", "cars.No. 2.mass=70 kg");
    expect(plan.cars?.[0]).toMatchObject({ name: "No. 2", mass_kg: 70 });
  });
  test("a block that the file has not", () => {
    expect(withSets("loco.wiring.breaker.rating=63 A").loco.wiring).toEqual({ breaker: { rating_A: 63 } });
  });
  test("null takes a key, a block or an item away", () => {
    expect(withSets("cars=null", "passengers=null").plan).not.toHaveProperty("cars");
    expect(withSets("cars.1=null").plan).not.toHaveProperty("cars");
    expect(withSets("loco.gears.1=null").loco.gears).toEqual([{ teeth: [9, 30] }]);
  });
  test("takes the place of the file's alternative", () => {
    const { plan, units } = withSets("lever=0.5");
    expect(plan).toMatchObject({ lever: 0.5 });
    expect(plan).not.toHaveProperty("speed_mps");
    expect(units).toBe("imperial");
  });
  test("leaves alone what a repeated block repeats", () => {
    const cars = "cars:\n  - &coach { mass: 60 kg, length: 1.8 m }\n  - *coach\n";
    const files = { "plan.yaml": PLAN.replace(/cars:\n.*\n/, cars) };
    const { plan } = readWell(files, { sets: ["cars.2.mass=80 kg"] });
    expect(plan.cars?.map(({ mass_kg }) => mass_kg)).toEqual([60, 80]);
  });
  test("places say where it came from", () => {
    expect(withSets("loco.mass=150 kg").place("loco.mass")).toEqual({ file: "--set loco.mass=150 kg" });
  });
});

describe("a --set that cannot be used is a fault of the command line", () => {
  test.each([
    ["loco.mass=150", 'mass: "150" has no unit; write it like 140 kg'],
    ["loco.masss=150 kg", "masss is not a key; did you mean mass?"],
    ["loco.gears.3.teeth=[12, 36]", "there is no gears.3; they count from 1 to 2"],
    ["loco.gears.1.teeth.1=12", "gears.1.teeth takes one whole value, such as [12, 36]"],
    ["loco.mass=null", "mass is missing: mass ready to run, without driver, such as mass: 140 kg"],
    ["speed=null", "one of speed or lever is missing"],
    ["loco.wiring.breaker.curve=C", "wiring.breaker.rating is missing: rated current, such as rating: 63 A"],
    ["loco.name=Loco #2", "name: #2 is read as a comment; put the whole text in quotes, or a blank after the #"],
    ["speed=[4 mph", "the bracket [ is not closed"],
    ["speed=", "there is no value; speed=null takes the key away"],
    ["speed", 'a key, = and a value are wanted, such as --set loco.mass="150 kg"'],
    ["=4", 'a key, = and a value are wanted, such as --set loco.mass="150 kg"'],
    ["loco=moon.yaml", "loco: moon.yaml: there is no such file"],
    ["__proto__.x=1", "__proto__ is not a key"],
  ])("%s", (set, message) => expect(refused(set)).toEqual([`--set ${set}: ${message}`]));

  test("all of them are told", () => expect(refused("speed=4", "loco.masss=1 kg", "x=1")).toHaveLength(3));

  test("both of two alternatives", () => {
    expect(refused("lever=0.5", "speed=4 mph")).toEqual([
      "--set speed=4 mph: speed cannot stand beside lever; keep one of them",
    ]);
  });

  test("an option short for one is told as typed", () => {
    expect(refused({ typed: "--speed 4", set: "speed=4" }, { typed: "--laps", set: "laps=" })).toEqual([
      "--laps: there is no value",
      '--speed 4: speed: "4" has no unit; write it like 4 mph',
    ]);
  });
});
