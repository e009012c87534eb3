import { readFileSync } from "node:fs";
import { keyList, schemaOf } from "@rideon/sim-cli/read";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { figureTable } from "../../packages/sim-cli/src/questions/sweep/listed.js";
import { questionTable } from "../../packages/sim-cli/src/questions/table.js";
import { LOCO, PLAN } from "../support/folder.js";

const ROOTS = ["loco", "plan"] as const;
const shipped = (root: string) =>
  JSON.parse(readFileSync(new URL(`../../packages/sim-cli/schema/${root}.schema.json`, import.meta.url), "utf8"));

test.each(ROOTS)("the shipped %s schema is up to date (npm run schema)", (root) => {
  expect(shipped(root)).toEqual(schemaOf(root));
});

test("the README's list of keys is up to date (npm run schema)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  expect(readme).toContain(`<!-- keys -->\n\n${keyList()}\n\n<!-- end of keys -->`);
});

test("the README's table of commands is up to date (npm run schema)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  expect(readme).toContain(`<!-- questions -->\n\n${questionTable()}\n\n<!-- end of questions -->`);
});

test("the README's list of a sweep's figures is up to date (npm run schema)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  expect(readme).toContain(`<!-- sweep figures -->\n\n${figureTable()}\n\n<!-- end of sweep figures -->`);
});

describe("an independent validator (draft 2020-12)", () => {
  const ajv = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false, allErrors: true });
  const check = { loco: ajv.compile(schemaOf("loco")), plan: ajv.compile(schemaOf("plan")) };

  test("takes the shortest files", () => {
    expect([check.loco(parse(LOCO)), check.loco.errors]).toEqual([true, null]);
    expect([check.plan(parse(PLAN)), check.plan.errors]).toEqual([true, null]);
  });

  test.each([
    "mass: 11 st 4 lb",
    "gauge: 7¼ in",
    "gauge: 5' 3\"",
    "name: 081",
    "wiring: { battery_cable: { area: 6 AWG } }",
    "resistance:",
    "resistance: { rolling: 1 in 110 }",
  ])("takes %s", (line) => {
    const key = line.split(":", 1)[0] ?? "";
    expect(check.loco(parse(LOCO.replace(new RegExp(`^${key}:.*\n`, "m"), "") + line))).toBe(true);
  });

  test.each<["loco" | "plan", string, string]>([
    ["loco", "an unknown key", `${LOCO}colour: green\n`],
    ["loco", "a bare number", LOCO.replace("140 kg", "140")],
    ["loco", "a missing key", LOCO.replace("name: Hazel\n", "")],
    ["loco", "a brake without a force", `${LOCO}brakes: [{ use: service }]\n`],
    ["loco", "a wrong choice", LOCO.replace("lead-acid", "nickel")],
    ["loco", "two ways to give the motor", LOCO.replace("nameplate:", "bench: {}, nameplate:")],
    ["plan", "speed and lever", `${PLAN}lever: 0.5\n`],
    ["plan", "neither speed nor lever", PLAN.replace("speed: 4 mph\n", "")],
    ["plan", "laps and duration", `${PLAN}laps: 3\nduration: 1 h\n`],
  ])("%s: refuses %s", (root, _, text) => expect(check[root](parse(text))).toBe(false));
});

test("the list names every key once", () => {
  const names = keyList()
    .split("\n")
    .flatMap((line) => /^\| `([^`]+)`/.exec(line)?.[1] ?? []);
  expect(names).toContain("motor.nameplate.power");
  expect(names).toContain("cars[].mass");
  expect(names.filter((name) => name === "battery.each.capacity")).toHaveLength(1);
});
