import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

/** Keys that scripts rely on: they may gain others, never lose one of these. */
const HEADING = ["rideon", "format", "command", "caution", "warnings", "assumed", "step_s", "step_error"];
const RUN = [
  "outcome",
  "laps",
  "distance_m",
  "time_s",
  "charge_used_Ah",
  "energy_Wh",
  "top_speed_mps",
  "mean_speed_mps",
  "peak_motor_current_A",
  "rms_motor_current_A",
  "peak_battery_current_A",
  "rms_battery_current_A",
  "lowest_battery_voltage_V",
  "state_of_charge_end",
  "peak_winding_temperature_C",
  "over_temperature_at_s",
  "peak_adhesion_used",
  "least_margins",
  "events",
  "energy_balance",
];
const LAPS = [
  "laps_to_reserve",
  "laps_to_end",
  "ended_by",
  "ended_at_m",
  "time_s",
  "distance_m",
  "energy_per_lap_Wh",
  "charge_per_lap_Ah",
  "per_lap",
  "hand_check_time_h",
  "hand_check_differs",
  "state_of_charge_end",
  "charge_used_Ah",
];
const TRACE =
  "time_s,lap,chainage_m,distance_m,speed_mps,wheel_speed_mps,acceleration_mps2,mode,lever,duty,limited_by,motor_current_A," +
  "motor_voltage_V,motor_speed_rpm,battery_current_A,battery_voltage_V,state_of_charge,available_share,tractive_force_N," +
  "gradient_force_N,curve_force_N,rolling_force_N,air_force_N,brake_force_N,adhesion_used,winding_temperature_C," +
  "case_temperature_C,breaker_heating,height_m,gradient_percent,passengers";

const answerOf = async (...args: string[]) => {
  const { status, stdout } = await rideon(args);
  expect(status).toBe(0);
  return JSON.parse(stdout);
};

describe.concurrent("--json", () => {
  test.each([
    ["run", RUN],
    ["laps", LAPS],
    ["check", []],
  ])("%s: one document with every key there is", async (command, keys) => {
    const { stdout } = await rideon([command, PLAN, "--json"]);
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ format: 1, command, step_error: null });
    expect(Object.keys(document)).toEqual(expect.arrayContaining([...HEADING, ...keys]));
    expect(Object.keys(document).slice(0, HEADING.length)).toEqual(HEADING);
    expect(document.warnings[0]).toEqual({
      code: expect.stringMatching(/^[a-z_]+$/),
      file: expect.any(String),
      line: expect.any(Number),
      column: expect.any(Number),
      message: expect.any(String),
    });
    expect(document.assumed[0]).toEqual({
      key: expect.any(String),
      value: expect.any(String),
      amount: expect.any(Number),
      source: expect.any(String),
    });
    expect(stdout).not.toMatch(/NaN|Infinity/);
  });

  test("what does not exist is null", async () => {
    const answer = await answerOf("laps", join(SITE, "gala.yaml"), "--json");
    expect(answer).toMatchObject({
      laps_to_end: 0,
      energy_per_lap_Wh: null,
      charge_per_lap_Ah: null,
      ended_by: "stalled",
    });
  });

  test("sampling never changes a step: the answer does not depend on --every", async () => {
    const folder = emptyFolder();
    const run = (every: string) => answerOf("run", PLAN, "--json", "--out", folder, "--every", every);
    expect(await run("0.13")).toEqual(await run("0.5"));
  });

  test("--check-step gives the plain difference to half the step, key by key", async () => {
    const whole = await answerOf("run", PLAN, "--json", "--step", "0.1", "--check-step");
    const half = await answerOf("run", PLAN, "--json", "--step", "0.05");
    expect(whole.step_s).toBe(0.1);
    expect(half).toMatchObject({ step_s: 0.05, step_error: null });
    expect(whole.step_error.time_s).toBe(whole.time_s - half.time_s);
    expect(whole.step_error.energy_balance.copper_J).toBe(whole.energy_balance.copper_J - half.energy_balance.copper_J);
    expect(whole.step_error.time_s).not.toBe(0);
  });
});

describe.concurrent("--set and its short forms", () => {
  test("say the same", async () => {
    const short = await answerOf(
      "run",
      PLAN,
      "--json",
      "--passengers",
      "2",
      "--speed",
      "3 mph",
      "--rail",
      "wet",
      "--charge",
      "80 %",
    );
    const sets = ["passengers=2", "speed=3 mph", "track.rail=wet", "charge=0.8"].flatMap((set) => ["--set", set]);
    expect(await answerOf("run", PLAN, "--json", ...sets)).toEqual(short);
    expect(short.top_speed_mps).toBeLessThan(1.4);
  });

  test("a lever in the command line takes the place of the plan's speed", async () => {
    const answer = await answerOf("run", PLAN, "--json", "--lever", "0.4", "--laps", "2");
    expect(answer.laps).toBe(2);
  });

  test("- reads the plan from standard input; its files are found from the current folder", async () => {
    const input = readFileSync(PLAN, "utf8");
    const piped = await rideon(["run", "-", "--json"], { cwd: SITE, input });
    expect(piped.status).toBe(0);
    const named = await rideon(["run", "plan.yaml", "--json"], { cwd: SITE });
    expect(piped.stdout).toBe(named.stdout);
  });
});

describe.concurrent("--out", () => {
  test("writes whole files of the named columns, and touches nothing else", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "trace.csv"), "older");
    const { status, stdout, stderr } = await rideon(["run", "--out", ".", "--json", "--every", "2"], { cwd: folder });
    expect(status).toBe(0);
    expect(stderr).toContain("written: trace.csv, events.csv, answer.json");
    expect(readdirSync(folder).sort()).toEqual([...readdirSync(SITE), "answer.json", "events.csv", "trace.csv"].sort());
    expect(readFileSync(join(folder, "answer.json"), "utf8")).toBe(stdout);
    const trace = readFileSync(join(folder, "trace.csv"), "utf8");
    expect(trace.split("\n")[0]).toBe(TRACE);
    const rows = parse(trace, { columns: true }) as Record<string, string>[];
    const answer = JSON.parse(stdout);
    expect(Number(rows.at(-1)?.["time_s"])).toBeCloseTo(answer.time_s, 3);
    expect(rows.filter(({ time_s }) => Number(time_s) % 2 === 0).length).toBeGreaterThan(answer.time_s / 2 - 1);
    expect(
      Math.max(...Object.values(rows[20] ?? {}).map((cell) => cell.replace(/^-?0?\.?0*|\./g, "").length)),
    ).toBeLessThanOrEqual(7);
    const events = parse(readFileSync(join(folder, "events.csv"), "utf8"), { columns: true }) as Record<
      string,
      string
    >[];
    expect(Object.keys(events[0] ?? {})).toEqual(["time_s", "lap", "chainage_m", "kind", "detail"]);
    expect(events.length).toBe(answer.events.length);
  });

  test("makes the folder", async () => {
    const folder = emptyFolder();
    const { status } = await rideon(["check", PLAN, "--out", "a/b", "--quiet"], { cwd: folder });
    expect(status).toBe(0);
    expect(readdirSync(join(folder, "a", "b"))).toEqual(["answer.json"]);
  });
});

describe.concurrent("the text", () => {
  test.each([["run"], ["laps"], ["check"]])(
    "%s: in plain characters without a terminal, within 80 columns, with the caution",
    async (command) => {
      const { stdout } = await rideon([command, PLAN], { env: { FORCE_COLOR: "1" } });
      expect(stdout).not.toContain("\u001b");
      expect(stdout).not.toMatch(/undefined|NaN|\[object|null/);
      const words = stdout.replaceAll("\n", " ");
      expect(words).toContain("Prove it on your own track with nobody aboard");
      expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
    },
  );

  test("speaks in the units typed, the other beside them; --units turns it round", async () => {
    expect((await rideon(["run", PLAN])).stdout).toMatch(/4 mph \(1\.79 m\/s\) on dry rail/);
    expect((await rideon(["run", PLAN, "--units", "metric"])).stdout.replaceAll(/\s+/g, " ")).toMatch(
      /6\.44 km\/h \(1\.79 m\/s\) on dry rail/,
    );
  });

  test("a stalled train is told what held it back, and what that does to motor and breaker", async () => {
    const words = (await rideon(["run", join(SITE, "gala.yaml")])).stdout.replaceAll("\n", " ");
    expect(words).toMatch(/It pulls \d+ N and would need \d+ N to start\. The driven wheels grip up to \d+ N/);
    expect(words).toMatch(/With the lever held there, [\d.]+ A in the motor and [\d.]+ A from the battery/);
  });

  test("wheels that slip are told among the margins, not how far they were from it", async () => {
    const { stdout } = await rideon(["run", PLAN, "--lever", "0.9", "--rail", "greasy"]);
    expect(stdout).toMatch(/^Stands slipping at 0 m/m);
    expect(stdout).toMatch(/^ {2}slipping +slipped once +first at 0 m, Wharf Lane$/m);
    expect(stdout.replaceAll("\n", " ")).toContain("Its driven wheels spin");
  });

  test("--quiet leaves answers and warnings", async () => {
    const { stdout, stderr } = await rideon(["run", PLAN, "--quiet"]);
    expect(stdout).toContain("Completed");
    expect(stdout).not.toContain("are assumed because");
    expect(stderr).toContain("warning:");
  });
});
