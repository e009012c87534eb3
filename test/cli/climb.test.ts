import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

/** Keys that scripts rely on: they may gain others, never lose one of these. */
const CLIMB = [
  "rail",
  "charge",
  "ruling_gradient_percent",
  "ruling_gradient_compensated_percent",
  "passengers_it_can_restart",
  "rows",
];
const ROW = ["passengers", "train_mass_kg", "restart_gradient_percent", "running_gradient_percent", "limited_by"];

interface Row {
  passengers: number;
  train_mass_kg: number;
  restart_gradient_percent: number;
  running_gradient_percent: number;
  restarts_here: boolean;
}

async function answerOf(...args: string[]) {
  const { status, stdout } = await rideon(["climb", ...args, "--json"]);
  expect(status).toBe(0);
  expect(stdout).not.toMatch(/NaN|Infinity/);
  return JSON.parse(stdout);
}

const textOf = async (...args: string[]): Promise<string> => (await rideon(["climb", ...args])).stdout;
const words = (text: string): string => text.replaceAll(/\s+/g, " ");

describe.concurrent("climb --json", () => {
  test("has every key there is, and another rail beside it", async () => {
    const answer = await answerOf(PLAN);
    expect(Object.keys(answer)).toEqual(expect.arrayContaining(CLIMB));
    expect(Object.keys(answer.rows[0])).toEqual(expect.arrayContaining(ROW));
    expect(answer).toMatchObject({ command: "climb", format: 1, rail: "dry", other_rail: { rail: "wet" } });
    expect(answer.step_s).toBeGreaterThan(0);
  });

  test("a heavier train restarts on less, less on wet rail, and keeps running on more", async () => {
    const { rows, other_rail } = await answerOf(PLAN);
    rows.slice(1).forEach((row: Row, i: number) => {
      expect(row.train_mass_kg).toBeGreaterThan(rows[i].train_mass_kg);
      expect(row.restart_gradient_percent).toBeLessThan(rows[i].restart_gradient_percent);
      expect(row.running_gradient_percent).toBeGreaterThan(row.restart_gradient_percent);
    });
    other_rail.rows.forEach((row: Row, i: number) => {
      expect(row.restart_gradient_percent).toBeLessThan(rows[i].restart_gradient_percent);
    });
  });

  // Statics: the grip of half the weight of loco and driver, dry (0.25), against gravity and breakaway, 1.5 times rolling at the stiff end of its range (0.012).
  test("restarts as far as the driven wheels grip, worked out by hand", async () => {
    const { rows } = await answerOf(PLAN);
    for (const { train_mass_kg, restart_gradient_percent } of rows as Row[]) {
      const sine = restart_gradient_percent / 100;
      const grip_kg = 0.25 * 0.5 * (165 + 82) * Math.sqrt(1 - sine ** 2);
      expect(sine).toBeCloseTo(grip_kg / train_mass_kg - 1.5 * 0.012, 9);
    }
  });

  test("tells the load that it restarts with, the next that it does not, and a working gets round with the first", async () => {
    const { passengers_it_can_restart: most, rows } = await answerOf(PLAN);
    expect(rows[most].restarts_here).toBe(true);
    expect(rows[most + 1].restarts_here).toBe(false);
    const outcome = async (passengers: number) =>
      JSON.parse((await rideon(["run", PLAN, "--passengers", String(passengers), "--json"])).stdout).outcome;
    expect(await outcome(most)).toBe("completed");
  });

  test("is null where it does not restart even empty", async () => {
    const answer = await answerOf(PLAN, "--rail", "greasy");
    expect(answer).toMatchObject({ passengers_it_can_restart: null, other_rail: { rail: "dry" } });
  });

  test("goes by the grip given in place of rail", async () => {
    const good = await answerOf(PLAN, "--set", "track.rail=null", "--set", "track.adhesion=0.22");
    expect(good).toMatchObject({ rail: "grip 0.22", other_rail: { rail: "wet" } });
    const poor = await answerOf(PLAN, "--set", "track.rail=null", "--set", "track.adhesion=0.12");
    expect(poor.other_rail.rail).toBe("dry");
  });

  test("looks beyond the seats and the load that fails, whatever is aboard", async () => {
    const [six, forty] = await Promise.all([answerOf(PLAN), answerOf(PLAN, "--passengers", "40")]);
    expect(forty.rows).toEqual(six.rows);
    expect(forty.passengers_it_can_restart).toBe(six.passengers_it_can_restart);
    expect(forty.warnings.map(({ code }: { code: string }) => code)).toContain("more_passengers_than_seats");
  });
});

describe.concurrent("climb in words", () => {
  test("begins with the sentence that a committee quotes", async () => {
    const text = words(await textOf(PLAN));
    expect(text).toMatch(
      /^On dry rail it restarts with 7 passengers on the steepest bit here, 1 in 71\.1 past Heron Bank; with 8 it does not: the driven wheels have no more grip\. On wet rail it restarts with 2 passengers there;/,
    );
    expect(text).toContain("Prove it on your own track with nobody aboard");
  });

  test.each([[[]], [["--units", "imperial"]], [["--set", "loco.controller.motor_current_limit=40 A"]]])(
    "%j: plain, within 80 columns",
    async (more) => {
      const { stdout } = await rideon(["climb", PLAN, ...more], { env: { FORCE_COLOR: "1" } });
      expect(stdout).not.toContain("\u001b");
      expect(stdout).not.toMatch(/undefined|NaN|\[object|null/);
      expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
    },
  );

  test("draws pull against speed, each line named", async () => {
    const text = await textOf(PLAN);
    expect(text).toMatch(/^ +pull, N, against speed, lever full open; dashed: the motor hot$/m);
    expect(text).toMatch(/^ +800│[\u2800-\u28ff ]+$/m);
    for (const name of ["grip 303", "1 in 44.6", "1 in 71.1", "level"]) {
      expect(text).toMatch(new RegExp(`^[ 0-9]*│.*[\u2800-\u28ff].* ${name.replaceAll(".", "\\.")}$`, "m"));
    }
    expect(text).toMatch(/^ +0 mph +1 +2 +3 +4/m);
  });

  test("tells a hot motor's restart where heat takes from it", async () => {
    const limited = await textOf(PLAN, "--set", "loco.controller.motor_current_limit=30 A", "--rail", "dry");
    expect(words(limited)).toMatch(/With its motor at the 130 °C of its class the sums leave \d+ in place of \d+\./);
    expect(limited).toMatch(/aboard +dry +dry, hot +wet +wet, hot +limited by/);
    expect(await textOf(PLAN)).not.toContain("dry, hot");
  });

  test("a long table is told in part, with the plan's own load marked", async () => {
    const text = await textOf(PLAN, "--set", "cars.Coach.count=8", "--passengers", "13");
    expect(text).toMatch(/^ +→ 13 +[\d.]+ kg/m);
    expect(text).toMatch(/^ +12 +[\d.]+ kg/m);
    expect(text).not.toMatch(/^ +15 +[\d.]+ kg/m);
    expect(words(text)).toContain("The cars have 32 seats.");
  });

  test("without a car there is nobody to carry; with too many aboard it says by how many", async () => {
    const alone = words(await textOf(PLAN, "--set", "cars=null", "--passengers", "0"));
    expect(alone).toMatch(/^On dry rail it restarts on the steepest bit here, .*; there is no car behind it/);
    expect(words(await textOf(PLAN, "--passengers", "40"))).toContain("That is 33 more than it restarts with.");
  });

  test("a level line is called so", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "track.csv"), "distance_m,height_m\n0,0\n100,0\n200,0\n");
    const text = words(await textOf(join(folder, "plan.yaml")));
    expect(text).toMatch(/^On dry rail it restarts with \d+ passengers on this line, which is level/);
  });
});

test("climb --out writes the answer alone; --strict gives 1 for warnings", async () => {
  const folder = emptyFolder();
  const { status, stderr } = await rideon(["climb", PLAN, "--out", folder, "--strict"]);
  expect(status).toBe(1);
  expect(stderr).toContain("warning:");
  expect(readdirSync(folder)).toEqual(["answer.json"]);
});
