import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const PLAN = join(SITE, "plan.yaml");
const HEAD = "reading,voltage_V,current_A,charge_Ah\n";
const read = (rows: string, ...args: string[]) => rideon(["battery", "-", PLAN, ...args], { input: HEAD + rows });

describe("battery", () => {
  test("tells charge, health and resistance with their doubt, what they hang on, and the lines to paste", async () => {
    const { status, stdout } = await rideon(["battery", join(SITE, "battery.csv"), PLAN]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(
      /^The battery is 93 % full, it has 90 % of its label's charge left and each battery has 7\.8 mohm\./,
    );
    expect(text).toContain("from 3 loads");
    expect(text).toContain("taken to 25 °C from 15 °C, which is assumed: the plan tells no air_temperature");
    expect(text).toMatch(/resistance: 0\.0078\d* ± 0\.00\d+ ohm # measured \d{4}-\d\d-\d\d at its terminals/);
    expect(text).toMatch(/charge: 0\.61 to 1\.00 # measured/);
  });

  test("puts the battery's figures into the loco's file and the charge into the plan's, which are then used", async () => {
    const folder = siteFolder();
    for (const file of ["loco.yaml", "plan.yaml"])
      expect((await rideon(["battery", join(SITE, "battery.csv"), PLAN, "--into", join(folder, file)])).status).toBe(0);
    expect(readFileSync(join(folder, "loco.yaml"), "utf8")).toMatch(/health: 0\.\d+ to 1\.\d+ {2}# measured/);
    expect(readFileSync(join(folder, "plan.yaml"), "utf8")).toContain("charge: 0.61 to 1.00");
    expect((await rideon(["check", join(folder, "plan.yaml")])).status).toBe(0);
  });

  test("says what is missing and what it would tell", async () => {
    const rested = oneLine((await read("rested,25.1,,\n")).stdout);
    expect(rested).toContain("Resistance: read volts and amps at two loads");
    expect(rested).toContain("Health: count the ampere-hours of a run from full to the cut-out");
    const one = oneLine((await read("rested,25.1,,\nload,24.5,40,\n")).stdout);
    expect(one).toContain("what sags slowly is in it");
    expect(one).toContain("its maker's own table of rested volts (rested_voltage); how warm it was");
  });

  test("volts that no battery rests at tell no charge", async () => {
    const { status, stdout } = await read("rested,26.9,,\nload,24.9,40,\n");
    expect(status).toBe(0);
    expect(oneLine(stdout)).toMatch(/^The rested volts are above those of a full battery, and tell no charge\./);
    expect(stdout).not.toContain("measured");
    expect(stdout.match(/charged not long ago/g)).toHaveLength(1);
    // Its surface charge would be taken for resistance.
    expect(oneLine(stdout)).toContain("those of a battery off its charger, and make a load look harder than it is");
  });

  test("the flat volts of lithium iron phosphate tell no charge, which is said and put nowhere", async () => {
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const lithium = readFileSync(loco, "utf8")
      .replace("chemistry: lead-acid", "chemistry: lifepo4")
      .replace("in_series: 2", "in_series: 1")
      .replace("voltage: 12 V", "voltage: 24 V")
      .replace(/capacity: \{.*\}/, "capacity: 60 Ah");
    writeFileSync(loco, lithium);
    const { stdout } = await rideon(["battery", "-", join(folder, "plan.yaml")], { input: `${HEAD}rested,26.4,,\n` });
    expect(oneLine(stdout)).toMatch(/^The volts do not tell how full the battery is\./);
    expect(stdout).toMatch(/state of charge +not told +\d+ % +\d+ %/);
    expect(oneLine(stdout)).toContain("Count ampere-hours from full instead");
    expect(stdout).not.toContain("To paste into the plan file");
  });

  test("readings that tell nothing have no table, and one load is one", async () => {
    for (const [rows, first] of [
      ["rested,22,,\n", "The rested volts are below those of an empty battery, and tell no charge."],
      ["load,24.9,12.4,\n", "These readings tell nothing of the battery yet."],
    ] as const) {
      const { stdout } = await read(rows);
      expect(oneLine(stdout).startsWith(first)).toBe(true);
      expect(stdout).not.toContain("Nineteen in twenty");
      expect(stdout).not.toContain("1 loads");
    }
    expect(oneLine((await read("load,24.9,12.4,\n")).stdout)).toContain("Resistance: one load alone tells none.");
  });

  test("volts below those of an empty one, and more than any label holds: told, and put nowhere", async () => {
    const text = oneLine((await read("rested,21.9,,\nemptied,,5,105\n")).stdout);
    expect(text).toContain("21.9 V is below what an empty one rests at");
    expect(text).toMatch(/^The ampere-hours would be 1\d\d % of its label's charge, which no battery has\./);
    expect(text).toContain("no battery gives so much more than its label");
    expect(text).not.toContain("To paste");
  });

  test("JSON has what was fitted, its correlation and rms", async () => {
    const answer = JSON.parse((await rideon(["battery", join(SITE, "battery.csv"), PLAN, "--json"])).stdout);
    expect(answer.fitted.map(({ path }: { path: string }) => path)).toEqual([
      "plan.charge",
      "loco.battery.each.resistance",
      "loco.battery.health",
    ]);
    for (const { value, low, high } of answer.fitted) expect(low <= value && value <= high).toBe(true);
    expect(answer.correlation).toHaveLength(3);
    expect(answer.rms).toBeGreaterThan(0);
  });

  test("what will not do is told with its line", async () => {
    const refused = async (rows: string) => {
      const { status, stderr } = await read(rows);
      expect(status).toBe(1);
      return stderr;
    };
    expect(await refused("restd,25,,\n")).toContain(
      'stdin:2: error: reading: "restd" is none of rested, load, emptied; did you mean rested?',
    );
    expect(await refused("rested,12.7,,\n")).toContain("volts are the whole battery's");
    expect(await refused("load,40,24.5,\n")).toContain("and not one's of several or the amps");
    expect(await refused("load,24.2,20,\nload,24.6,50,\n")).toContain(
      "stdin:3: error: the volts do not fall from 20 A to 50 A",
    );
    expect(await refused("emptied,,15,400\n")).toContain("400 Ah were taken out of a battery that by its label holds");
    expect(await refused("rested,,,\nload,24,,\n")).toMatch(
      /stdin:2: error: rested: the volts are blank\nstdin:3: error: load: the amps are wanted/,
    );
  });
});
