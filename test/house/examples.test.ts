import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

// The examples are compiled with the tests (test/tsconfig.json) and run here as whoever copies them runs them.

const FOLDER = new URL("../../packages/sim-core/examples/", import.meta.url);
const text = (name: string) => readFileSync(new URL(name, FOLDER), "utf8");
const README = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
const CORE_README = readFileSync(new URL("../../packages/sim-core/README.md", import.meta.url), "utf8");

/** A script that runs to its end, what it prints and nothing on standard error. */
const printed = (name: string): string[] =>
  execFileSync(process.execPath, [fileURLToPath(new URL(name, FOLDER))], { encoding: "utf8", stdio: "pipe" })
    .trim()
    .split("\n");

const figuresIn = (line: string): number[] => Array.from(line.matchAll(/\d+(?:\.\d+)?/g), ([figure]) => Number(figure));

describe("every example", () => {
  test.each(readdirSync(FOLDER))("%s has fewer than thirty lines", (name) => {
    expect(text(name).trimEnd().split("\n").length).toBeLessThan(30);
  });
  test.each([
    ["sweep.js", README],
    ["own-resistance.js", CORE_README],
    ["own-motor.js", CORE_README],
    ["own-driver.js", CORE_README],
    ["hazel.js", CORE_README],
  ])("%s stands in a README as it is", (name, readme) => {
    expect(readme).toContain(`\`\`\`js\n${text(name).trimEnd()}\n\`\`\``);
  });
});

describe("what they print", () => {
  test("a larger driving sprocket takes less time, up to the speed, and more amps", () => {
    const rows = printed("sweep.js");
    expect(rows).toHaveLength(5);
    for (const row of rows) expect(row).toMatch(/^\d+ teeth: completed in \d+ s, [\d.]+ Wh, \d+ A$/);
    const [times_s, amps] = [rows.map((row) => figuresIn(row)[1]!), rows.map((row) => figuresIn(row)[3]!)];
    expect(times_s).toEqual([...times_s].sort((a, b) => b - a));
    expect(amps).toEqual([...amps].sort((a, b) => a - b));
    expect(times_s[0]).toBeGreaterThan(times_s[4]! + 10);
  });

  test("bearings that run freer than the usual 1 % take less", () => {
    const [usual, own] = printed("own-resistance.js").map(figuresIn);
    expect(own![1]).toBeLessThan(usual![1]!);
    expect(own![1]).toBeGreaterThan(0.9 * usual![1]!);
    // What is saved at the rails is saved at the battery, and the drive's losses of it besides.
    expect(usual![0]! - own![0]!).toBeGreaterThanOrEqual(usual![1]! - own![1]! - 0.011);
  });

  test("the motor gets the train round", () => {
    expect(printed("own-motor.js")).toEqual([
      expect.stringMatching(/^completed in \d+ s, at most \d+ A in the motor$/),
    ]);
  });

  test("all or nothing heats the motor more", () => {
    const [plan, own] = printed("own-driver.js").map(figuresIn);
    expect(own![2]).toBeGreaterThan(plan![2]!);
  });
});
