import { createWriteStream, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { describe, expect, test } from "vitest";
import { emptyFolder, ended, rideon, SITE, siteFolder, start, withPipe } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

test.skipIf(process.platform === "win32")("a pipe that somebody writes into is read to its end", async () => {
  const folder = withPipe();
  const child = start(["check"], { cwd: folder });
  const end = ended(child);
  const text = readFileSync(join(SITE, "track.csv"), "utf8");
  const pipe = createWriteStream(join(folder, "track.csv"));
  pipe.write(text.slice(0, 100));
  await setTimeout(300);
  pipe.end(text.slice(100));
  const { status, stdout } = await end;
  expect(status).toBe(0);
  expect(stdout).toContain("ruling gradient");
});

describe.concurrent("a lever hardly open", () => {
  test.each([["run"], ["laps"], ["gears"], ["climb"]])(
    "%s tells of a train that stands, in figures",
    async (command) => {
      const svg = join(emptyFolder(), "picture.svg");
      const { status, stdout } = await rideon([command, PLAN, "--lever", "0.01", "--svg", svg]);
      expect(status).toBe(0);
      for (const text of [stdout, readFileSync(svg, "utf8")])
        expect(text).not.toMatch(/unlimited|NaN|Infinity|undefined/);
    },
  );
});

test("a lap traced by the millisecond is drawn, in a file no larger than any other", async () => {
  const svg = join(emptyFolder(), "lap.svg");
  const { status } = await rideon(["run", PLAN, "--every", "0.001", "--svg", svg]);
  expect(status).toBe(0);
  const picture = readFileSync(svg, "utf8");
  expect(picture).not.toMatch(/NaN|undefined/);
  expect(picture.length).toBeLessThan(500_000);
});

describe.concurrent("values far from any", () => {
  test.each([
    ["loco.motor.heat.mass=0.00001 kg", "at least 0.05 kg"],
    ["loco.battery.each.polarisation={ resistance: 4 mohm, time: 0.0001 s }", "at least 0.1 s"],
    ["loco.motor.inertia=1e-9 kg m^2", "at least"],
    ["loco.wheels.wheelset_inertia=0 kg m^2", "at least"],
    ["loco.resistance.rolling_per_speed=1000 s/m", "at most 0.05 s/m"],
    ["loco.resistance.sliding_length=700 m", "at most 10 m"],
    ["loco.wiring.fuse.rating=1e-6 A", "at least 0.1 A"],
  ])("%s is refused, with what would do", async (set, hint) => {
    const { status, stderr } = await rideon(["check", PLAN, "--set", set]);
    expect(status).toBe(2);
    expect(stderr).toContain(hint);
  });

  test("a radius of a hand's breadth is told at its row", async () => {
    const folder = siteFolder();
    const track = readFileSync(join(folder, "track.csv"), "utf8");
    writeFileSync(join(folder, "track.csv"), track.replace("24,0,28,,", "24,0,0.05,,"));
    const { status, stderr } = await rideon(["check"], { cwd: folder });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^track\.csv:4: error: radius: a radius of 0\.05 m is less than any railway's/);
  });

  test("energy that is not accounted for is status 3, in one line", async () => {
    const { status, stdout, stderr } = await rideon([
      ...["run", PLAN, "--set", "loco.gears.1.teeth=[10, 200]", "--set", "loco.wheels.diameter=20 mm"],
      ...["--set", "loco.motor.nameplate.speed=95.5 rpm", "--step", "0.1"],
    ]);
    expect([status, stdout]).toEqual([3, ""]);
    expect(stderr).toMatch(/^rideon: error: the run could not be finished: .*\n$/);
  });
});
