import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, ended, rideon, SITE, start, until } from "./command.js";

const PLAN = join(SITE, "plan.yaml");
const TEETH = "11,12,38,44";

/** Keys that scripts rely on: they may gain others, never lose one of these. */
const ROW = [
  "teeth",
  "ratio",
  "speed_mps",
  "restart_gradient_percent",
  "motor_current_A",
  "peak_winding_temperature_C",
  "chain_margin",
  "faults",
];

interface Row {
  teeth: [number, number][];
  ratio: number;
  speed_mps: number;
  faults: { code: string; message: string }[];
}

async function answerOf(...args: string[]) {
  const { status, stdout } = await rideon(["gears", ...args, "--json"]);
  expect(status).toBe(0);
  expect(stdout).not.toMatch(/NaN|Infinity/);
  return JSON.parse(stdout);
}

const words = (text: string): string => text.replaceAll(/\s+/g, " ");

describe.concurrent("gears --json", () => {
  test("has every key there is; ratios are those of the teeth, and the teeth are to hand", async () => {
    const answer = await answerOf(PLAN, "--teeth", TEETH);
    expect(answer).toMatchObject({ command: "gears", format: 1, teeth_to_hand: [11, 12, 38, 44], step_error: null });
    expect(answer.step_s).toBeGreaterThan(0);
    expect(answer.rows).toHaveLength(answer.simulated);
    for (const row of answer.rows as Row[]) {
      expect(Object.keys(row)).toEqual(expect.arrayContaining(ROW));
      expect(row.ratio).toBeCloseTo(
        row.teeth.reduce((ratio, [driving, driven]) => (ratio * driven) / driving, 1),
        9,
      );
      for (const teeth of row.teeth.flat()) expect([11, 12, 38, 44]).toContain(teeth);
    }
  });

  test("ranks by faults, then by how near the speed is to the wanted one", async () => {
    const { rows, wanted_speed_mps } = await answerOf(PLAN, "--teeth", TEETH);
    const off = ({ speed_mps }: Row) => Math.abs(speed_mps - wanted_speed_mps);
    rows.slice(1).forEach((row: Row, i: number) => {
      const before: Row = rows[i];
      expect(row.faults.length).toBeGreaterThanOrEqual(before.faults.length);
      if (row.faults.length === before.faults.length) expect(off(row)).toBeGreaterThanOrEqual(off(before));
    });
  });

  test.each(["9,11,13", "9 11 13", " 13;11, 9, 9 "])("--teeth %j is read as 9, 11 and 13", async (teeth) => {
    expect((await answerOf(PLAN, "--teeth", teeth)).teeth_to_hand).toEqual([9, 11, 13]);
  });

  test("--check-step gives the difference of every row's figures", async () => {
    const { rows, step_error } = await answerOf(PLAN, "--teeth", "12,38,44", "--step", "0.1", "--check-step");
    expect(step_error.rows).toHaveLength(rows.length);
    expect(step_error.rows[0].rms_motor_current_A).not.toBe(0);
    expect(Math.abs(step_error.rows[0].rms_motor_current_A)).toBeLessThan(1e-3 * rows[0].rms_motor_current_A);
  });
});

describe.concurrent("teeth that are none", () => {
  test.each([
    ["abc", "abc will not do"],
    ["3,9", "3 will not do"],
    ["9,201", "201 will not do"],
    ["9,11.5", "11.5 will not do"],
    ["-9,11", "whole numbers from 5 to 200"],
    ["", "whole numbers from 5 to 200"],
    [Array.from({ length: 41 }, (_, i) => i + 9).join(","), "41 sizes are more than 40"],
  ])("2: %j", async (teeth, hint) => {
    const { status, stdout, stderr } = await rideon(["gears", PLAN, `--teeth=${teeth}`]);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^rideon: error: [^\n]+\n$/);
    expect(stderr).toContain(hint);
  });
});

describe.concurrent("gears in words", () => {
  test("names the best, how many were looked at, and what the loco file has", async () => {
    const { stdout } = await rideon(["gears", PLAN, "--teeth", TEETH]);
    const text = words(stdout);
    expect(text).toMatch(/^Best of 46 ways to gear down with these teeth, \d+ of them simulated: \d+\/\d+/);
    expect(text).toMatch(
      /The loco file has 11\/44 and 12\/38, 12\.7 to 1: 4\.69 mph \(2\.1 m\/s\) on the level, with no fault\./,
    );
    // What it has is among the choices here, and is told alike.
    expect(text).toMatch(/11\/44 12\/38 12\.7 4\.69 /);
    expect(text).toContain("Prove it on your own track with nobody aboard");
    expect(stdout).toMatch(/^Chains of the best, /m);
  });

  test.each([[["--units", "imperial"]], [["--teeth", "9"]], [["--check-step", "--teeth", "12,38,44"]]])(
    "%j: plain, within 80 columns",
    async (more) => {
      const { stdout } = await rideon(["gears", PLAN, "--teeth", TEETH, ...more], { env: { FORCE_COLOR: "1" } });
      expect(stdout).not.toContain("\u001b");
      expect(stdout).not.toMatch(/undefined|NaN|\[object|null/);
      expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
    },
  );

  test("says that none is without fault, and each kind of fault once", async () => {
    const { stdout } = await rideon(["gears", join(SITE, "gala.yaml"), "--teeth", TEETH]);
    expect(words(stdout)).toMatch(/^No gearing cures what is wrong here: .* The least bad of 46 ways/);
    const faults = /What is wrong with them\n([\s\S]*?)\n\n/.exec(stdout)?.[1] ?? "";
    expect(faults.match(/the wheels slip/g)).toHaveLength(1);
    expect(words(faults)).toMatch(/^ ?1 to 11, now it starts on at most/);
  });

  test("tells links, wrap and slack where the loco file gives centres, and what it took for want of them", async () => {
    const centres = ["--set", "loco.gears.1.centres=200 mm", "--set", "loco.gears.2.centres=150 mm"];
    const given = (await rideon(["gears", PLAN, "--teeth", TEETH, ...centres])).stdout;
    expect(given).toMatch(/^ +links +\d+ +\d+$/m);
    const without = (await rideon(["gears", PLAN, "--teeth", TEETH])).stdout;
    expect(without).not.toMatch(/^ +links/m);
    expect(without).toContain("Without centre distances in the loco file");
  });
});

test("gears --out writes the answer alone", async () => {
  const folder = emptyFolder();
  expect((await rideon(["gears", PLAN, "--teeth", TEETH, "--out", folder])).status).toBe(0);
  expect(readdirSync(folder)).toEqual(["answer.json"]);
});

test("gears 130: interrupted among its runs it leaves nothing", async () => {
  const folder = emptyFolder();
  const child = start(["gears", PLAN, "--set", "duration=20 h", "--step", "0.001", "--out", join(folder, "results")]);
  const end = ended(child);
  await until(() => existsSync(join(folder, "results")));
  child.kill("SIGINT");
  expect(await end).toMatchObject({ status: 130, stdout: "" });
  expect(readdirSync(folder)).toEqual([]);
});

test("gears --help ends with an example", async () => {
  const { stdout } = await rideon(["gears", "--help"]);
  expect(stdout.trimEnd().split("\n").at(-1)).toMatch(/^ {2}rideon gears\b/);
});
