import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

/** The invented loco before anything of its drive is bought. */
const BARE = "name: Teasel\ngauge: 7 1/4 in\nmass: 165 kg\nwheels: { diameter: 170 mm, driven_axles: 1 }\n";

function bareSite(): string {
  const folder = siteFolder();
  writeFileSync(join(folder, "loco.yaml"), BARE);
  return join(folder, "plan.yaml");
}

async function answerOf(plan: string, ...args: string[]) {
  const { status, stdout } = await rideon(["size", plan, ...args, "--json"]);
  expect(status).toBe(0);
  expect(stdout).not.toMatch(/NaN|Infinity/);
  return JSON.parse(stdout);
}

const words = (text: string): string => text.replaceAll(/\s+/g, " ");

describe.concurrent("size --json", () => {
  test("needs no motor, gears, controller or battery", async () => {
    const answer = await answerOf(bareSite());
    expect(answer).toMatchObject({ command: "size", format: 1, step_s: null, step_error: null, duration_h: 4 });
    expect(answer.supplies.map(({ voltage_V }: { voltage_V: number }) => voltage_V)).toEqual([12, 24, 36, 48]);
    expect(answer.motor_continuous_power_W).toBeGreaterThan(0);
    expect(answer.assumed.map(({ key }: { key: string }) => key)).toContain("plan.duration");
  });

  test("of a loco that has a motor all the same, it is left out; gears are kept", async () => {
    const [whole, geared] = await Promise.all([
      answerOf(PLAN),
      answerOf(PLAN, ...["motor", "controller", "battery"].flatMap((key) => ["--set", `loco.${key}=null`])),
    ]);
    const { warnings, assumed, ...figures } = geared;
    expect(whole).toMatchObject(figures);
    expect(whole.ratio).toBeCloseTo((44 / 11) * (38 / 12), 9);
  });

  // Ohm and Joule: the same power at twice the volts is half the amps.
  test("halves the amps at twice the volts", async () => {
    const { supplies } = await answerOf(bareSite());
    const [at12, at24, , at48] = supplies;
    for (const key of ["battery_rms_current_A", "motor_peak_current_A"]) {
      expect(at12[key] / at24[key]).toBeCloseTo(2, 9);
      expect(at24[key] / at48[key]).toBeCloseTo(2, 9);
    }
    // What cables and controller take goes with the current's square.
    for (const key of ["battery_mean_current_A", "lead_acid_capacity_Ah"]) {
      expect(at12[key] / at24[key]).toBeGreaterThan(2);
      expect(at12[key] / at24[key]).toBeLessThan(2.1);
    }
  });

  test("what does not exist is null: no brake stops it before the driver has acted", async () => {
    const answer = await answerOf(bareSite(), "--speed", "30 mph");
    expect(answer).toMatchObject({ brake_force_level_N: null, braked_weight_wet_N: null });
  });
});

describe.concurrent("what size cannot use", () => {
  test("1: a key of the drive that is there is read, and told where it is wrong", async () => {
    const plan = bareSite();
    writeFileSync(join(plan, "../loco.yaml"), `${BARE}battery: { chemistry: lead-acid, in_serise: 2 }\n`);
    const { status, stdout, stderr } = await rideon(["size", plan]);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toContain("did you mean in_series?");
  });

  test("1 or 2: a lever gives no speed to size for", async () => {
    const typed = await rideon(["size", PLAN, "--lever", "0.5"]);
    expect(typed).toMatchObject({ status: 2, stdout: "" });
    expect(typed.stderr).toContain("sizing needs the speed to run at");
  });

  test("other commands go on wanting a drive", async () => {
    const { status, stderr } = await rideon(["run", bareSite()]);
    expect(status).toBe(1);
    expect(stderr).toContain("motor is missing");
  });
});

describe.concurrent("size in words", () => {
  test("begins with the motor; every rule stands under what it rules", async () => {
    const plan = bareSite();
    const [{ stdout }, { rules }] = await Promise.all([rideon(["size", plan]), answerOf(plan)]);
    const text = words(stdout);
    expect(text).toMatch(/^To run 82\d kg at 4 mph \(1\.79 m\/s\) for 4 h here takes a motor of \d+ W at 2750 rpm/);
    for (const rule of rules as string[]) {
      const told = rule.replace(/^[a-z -]+: |^and /, "");
      expect(text).toContain(told);
    }
  });

  test("gives amps at the usual voltages side by side", async () => {
    const { stdout } = await rideon(["size", PLAN]);
    expect(stdout).toMatch(/^ +12 V +24 V +36 V +48 V$/m);
    expect(stdout).toMatch(/^ +battery, in the mean +[\d.]+ A +[\d.]+ A +[\d.]+ A +[\d.]+ A$/m);
    expect(stdout).toMatch(/^ +breaker +\d+ A [BCD] +/m);
  });

  test("says which keys it does not look at, and that gears are kept", async () => {
    const text = words((await rideon(["size", PLAN])).stdout);
    expect(text).toContain("What the loco file says of motor, controller and battery is not looked at here");
    expect(text).toContain("Its gears are kept.");
    expect(words((await rideon(["size", bareSite()])).stdout)).not.toContain("not looked at here");
  });

  test.each([[[]], [["--units", "imperial"]], [["--speed", "15 mph"]], [["--speed", "30 mph"]]])(
    "%j: plain, within 80 columns, with the caution",
    async (more) => {
      const { stdout } = await rideon(["size", PLAN, ...more], { env: { FORCE_COLOR: "1" } });
      expect(stdout).not.toContain("\u001b");
      expect(stdout).not.toMatch(/undefined|NaN|\[object|null/);
      expect(words(stdout)).toContain("Prove it on your own track with nobody aboard");
      expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
    },
  );

  test("says so where nothing is large enough", async () => {
    const text = words((await rideon(["size", PLAN, "--speed", "15 mph"])).stdout);
    expect(text).toContain("none: no usual size is large enough");
    expect(text).toContain("run slower in the wet");
    const fast = words((await rideon(["size", PLAN, "--speed", "30 mph"])).stdout);
    expect(fast).toContain("none stops it within 20 m (65.6 ft) from everywhere here at that speed: run slower");
  });
});
