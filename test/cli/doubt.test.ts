import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const plan = `${SITE}plan.yaml`;
const saturday = `${SITE}saturday.yaml`;
const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");

describe("how sure an answer is", () => {
  test("is the same for the same seed on one thread and on two, in the whole document", async () => {
    const [one, two, other] = await Promise.all(
      [
        ["--workers", "1", "--seed", "5"],
        ["--workers", "2", "--seed", "5"],
        ["--workers", "2", "--seed", "6"],
      ].map((args) => rideon(["climb", plan, "--draws", "40", "--json", ...args])),
    );
    expect(one!.status).toBe(0);
    expect(two!.stdout).toBe(one!.stdout);
    expect(other!.stdout).not.toBe(one!.stdout);
    const document = JSON.parse(one!.stdout);
    expect(document).toMatchObject({ draws: 40, seed: 5 });
    expect(Object.keys(document.bands.passengers_it_can_restart)).toEqual(["p05", "p25", "p50", "p75", "p95"]);
    expect(document.chances.restarts).toBeGreaterThan(0.5);
    for (const { path, share, how, band_then } of document.measure_first) {
      expect(path).toMatch(/^(?:loco|plan|track)\./);
      expect(share).toBeGreaterThan(0);
      expect(how).not.toBe("");
      expect(band_then.p05).toBeLessThanOrEqual(band_then.p95);
    }
  });

  test("follows the answer, tells safety at its bad end, and names what to measure", async () => {
    const { status, stdout } = await rideon(["brakes", saturday], { bands: true });
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text.indexOf("How sure this is")).toBeGreaterThan(text.indexOf("competent person"));
    expect(text).toMatch(/longest stop, braked \d+ m [\d.]+ m to \d+ m/);
    expect(text).toMatch(/stops within sight from the hardest places in (?:nearly all|\d+) of 100/);
    expect(text).toMatch(/nineteen of twenty: longest stop, braked no more than \d+ m/);
    expect(text).toMatch(/What to measure first: shares of the spread of longest stop/);
    expect(text.trimEnd()).toMatch(/Next: .* limits .*saturday\.yaml$/);
  });

  test("a train that mostly runs away has no distance to be counted on", async () => {
    const folder = siteFolder();
    writeFileSync(
      join(folder, "track.csv"),
      "distance_m,height_m,place\n0,0,Shed\n60,0.5,\n120,2,\n180,2.6,\n240,2.6,Far\n",
    );
    const args = ["brakes", join(folder, "plan.yaml"), "--set", "track.kind=end-to-end"];
    const [text, json] = await Promise.all([
      rideon(args, { bands: true }),
      rideon([...args, "--json"], { bands: true }),
    ]);
    const { told_in, chances } = JSON.parse(json.stdout);
    expect(chances.runs_away_unbraked).toBeGreaterThan(0.5);
    expect(told_in.run_on_m ?? 0).toBeLessThan(0.5);
    const said = oneLine(text.stdout);
    expect(said).toMatch(/It runs away with no brake on in (?:nearly all|all|\d+) of 100/);
    expect(said).not.toContain("To be counted on in nineteen of twenty");
  });

  test("--sure leaves it out, from text and document", async () => {
    const [text, json] = await Promise.all([
      rideon(["climb", plan, "--sure"]),
      rideon(["climb", plan, "--sure", "--json"]),
    ]);
    expect(text.stdout).not.toContain("How sure");
    expect(JSON.parse(json.stdout).bands).toBeUndefined();
  });

  test("check leads with what to measure", async () => {
    const { stdout } = await rideon(["check", plan], { bands: true });
    const text = oneLine(stdout);
    expect(text.indexOf("What to measure first")).toBeGreaterThan(0);
    expect(text.indexOf("What to measure first")).toBeLessThan(text.indexOf("Train and gears"));
  });

  test("a figure typed with its doubt narrows the band, and the safe side counts its ends", async () => {
    const given = ["--set", "loco.resistance.rolling=10 ± 1 N/kN"];
    const [wide, narrow, safe] = await Promise.all([
      rideon(["brakes", plan, "--json", "--draws", "60"]),
      rideon(["brakes", plan, "--json", "--draws", "60", ...given]),
      rideon(["limits", plan, "--json", ...given]),
    ]);
    const width = ({ stdout }: { stdout: string }) => {
      const { p05, p95 } = JSON.parse(stdout).bands.run_on_m;
      return p95 - p05;
    };
    expect(width(narrow!)).toBeLessThan(0.75 * width(wide!));
    const { counted } = JSON.parse(safe!.stdout);
    expect(counted.rolling_stopping).toBeCloseTo(0.009, 6);
    expect(counted.rolling_pulling).toBeCloseTo(0.011, 6);
  });

  test.each([
    ["passengers=6 ± 1", "puts a count in doubt"],
    ["passenger_mass=20 ± 30 kg", "goes down to -10 kg and must be at least 1 kg"],
    ["loco.gears.1.efficiency=0.95 ± 0.1", "goes up to 1.05 and must be at most 1"],
    ["loco.battery.each.capacity=5 ± 9 Ah", "goes down to -4 Ah"],
  ])("%s is refused where it stands", async (set, message) => {
    const { status, stderr } = await rideon(["check", plan, "--set", set]);
    expect(status).toBe(2);
    expect(stderr).toContain(`--set ${set}`);
    expect(stderr).toContain(message);
  });

  test.each(["0", "5.5", "many"])("--draws %s is refused", async (draws) => {
    const { status, stderr } = await rideon(["climb", plan, "--draws", draws]);
    expect(status).toBe(2);
    expect(stderr).toContain("it is a whole number from 20");
  });
});
