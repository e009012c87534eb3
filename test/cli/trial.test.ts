import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { type Ended, emptyFolder, ended, rideon, SITE, siteFolder, start } from "./command.js";

const PLAN = join(SITE, "plan.yaml");
const BRAKED = join(SITE, "saturday.yaml");

interface Reading {
  reading: string;
  unit: string;
  expected: number | "yes" | "no" | null;
  low: number | null;
  high: number | null;
  yes_probability: number | null;
}

interface Answer {
  steps: { step: string; caution: string; readings: Reading[] }[];
  causes: { cause: string; probability: number; evidence: string; evidence_readings: object[] }[] | null;
  next_reading: { reading: string } | null;
  faults: { symptom: string; causes: { cause: string; where: string; readings: Read[] }[] }[];
}

interface Read {
  reading: string;
  unit: string;
  value: number | null;
}

const words = (text: string): string => text.replaceAll(/\s+/g, " ");

function json({ status, stdout, stderr }: Ended): Answer {
  expect(status, stderr).toBe(0);
  expect(stdout).not.toMatch(/NaN|Infinity/);
  return JSON.parse(stdout);
}

function sheetFile(rows: readonly (readonly [reading: string, value: string])[]): string {
  const file = join(emptyFolder(), "filled.csv");
  writeFileSync(file, `reading,value\n${rows.map((row) => row.join(",")).join("\n")}\n`);
  return file;
}

const judged = (rows: readonly (readonly [string, string])[], ...args: string[]): Promise<Ended> =>
  rideon(["trial", PLAN, "--readings", sheetFile(rows), ...args]);

/** A value as a person writes it, in the sheet's own unit. */
const typed = (value: number, unit: string): string =>
  unit === "yes/no"
    ? value === 1
      ? "yes"
      : "no"
    : unit === "turns"
      ? value.toFixed(2)
      : `${value.toFixed(2)} ${unit}`;

const STEPS = [
  "looks",
  "before_power",
  "battery_at_rest",
  "on_stands",
  "held",
  "rolling",
  "first_run",
  "restart",
  "stops",
  "parked",
  "after_laps",
];

describe.concurrent("trial --json", () => {
  test("the steps in order, each with its caution; every expected reading inside its band", async () => {
    const answer = json(await rideon(["trial", BRAKED, "--json"]));
    expect(answer).toMatchObject({ command: "trial", format: 1, causes: null, next_reading: null, step_error: null });
    expect(answer.steps.map(({ step }) => step)).toEqual(STEPS);
    for (const { caution } of answer.steps) expect(caution).toMatch(/^[A-Z].*\.$/);
    const readings = answer.steps.flatMap((step) => step.readings);
    expect(readings.length).toBeGreaterThan(40);
    expect(new Set(readings.map(({ reading }) => reading)).size).toBe(readings.length);
    for (const { reading, unit, expected, low, high, yes_probability } of readings) {
      expect(unit, reading).toMatch(/^(V|A|N|m\/s|m|mm|s|rpm|turns|°C|yes\/no)$/);
      if (unit === "yes/no")
        expect([["yes", "no"].includes(String(expected)), low, yes_probability === null]).toEqual([true, null, false]);
      else if (expected !== null) {
        expect(low, reading).toBeLessThanOrEqual(Number(expected));
        expect(high, reading).toBeGreaterThanOrEqual(Number(expected));
      }
    }
  });

  test("a sheet filled with what should be read says that nothing is wrong", async () => {
    const { steps } = json(await rideon(["trial", PLAN, "--json"]));
    const rows = steps
      .filter(({ step }) => step !== "after_laps")
      .flatMap(({ readings }) => readings)
      .flatMap(({ reading, unit, expected }): [string, string][] =>
        expected === null ? [] : [[reading, typeof expected === "number" ? typed(expected, unit) : expected]],
      );
    const { causes } = json(await judged(rows, "--json"));
    expect(causes?.[0]).toMatchObject({ cause: "nothing_wrong" });
    expect(causes?.[0]?.probability).toBeGreaterThan(0.9);
    expect(causes?.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  });

  // A law of consistency, not a check on the figures: what the fault table has a cause read is told as that cause.
  test("a sheet filled from the fault table names the fault", async () => {
    const { faults, steps } = json(await rideon(["trial", PLAN, "--json"]));
    const [rest] = steps.flatMap(({ readings }) => readings).filter(({ reading }) => reading === "rest_volts");
    const standing = faults.find(({ symptom }) => symptom === "amps_without_movement")?.causes ?? [];
    const held = standing.find(({ where }) => where === "the driven wheels cannot turn");
    const rows = (held?.readings ?? []).flatMap(({ reading, unit, value }): [string, string][] =>
      value === null ? [] : [[reading, typed(value, unit)]],
    );
    expect(rows.length).toBeGreaterThan(2);
    const { causes } = json(await judged([...rows, ["rest_volts", typed(Number(rest?.expected), "V")]], "--json"));
    expect(causes?.[0]).toMatchObject({ cause: "held_wheel" });
    expect(causes?.[0]?.evidence).toContain("running on the level");
    expect(causes?.[0]?.evidence_readings.length).toBeGreaterThan(0);
  });

  test("a prior moves what is likely, and is told", async () => {
    const rows: [string, string][] = [
      ["run_speed", "3.7 mph"],
      ["rest_volts", "25.3 V"],
    ];
    const [without, withPrior] = await Promise.all([
      judged(rows, "--json"),
      judged([...rows, ["prior.bad_joint", "50"]], "--json"),
    ]);
    const joint = (ended: Ended) => json(ended).causes?.find(({ cause }) => cause === "bad_joint")?.probability ?? 0;
    expect(joint(withPrior)).toBeGreaterThan(2 * joint(without));
    expect(json(withPrior)).toMatchObject({ priors: { bad_joint: 50 } });
  });
});

describe.concurrent("trial in words", () => {
  test("safety comes first, then the steps; a train without a brake is kept off the slope", async () => {
    const { status, stdout } = await rideon(["trial", PLAN, "--long"], { env: { FORCE_COLOR: "1" } });
    expect(status).toBe(0);
    expect(stdout).not.toContain("\u001b");
    expect(stdout).not.toMatch(/undefined|NaN|\[object|null/);
    expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
    const text = words(stdout);
    const places = [
      "SAFETY FIRST",
      "Nobody aboard, wheels chocked, and a second person with a hand on the isolator",
      "into a short circuit",
      "Chains and sprockets take fingers",
      "Never stand, kneel or reach in front of it",
      "THIS TRAIN HAS NO BRAKE",
      "How the sheet is read",
      "nineteen sound locos in twenty",
      "1. Before any power",
      "2. Look first, before any number",
      "It does not move at all",
      "3. The battery at rest",
      "LEAVE THIS OUT",
      "WHAT IT COULD BE",
      "It trips (here: breaker of 50 A)",
      "Prove it on your own track with nobody aboard",
    ];
    const found = places.map((each) => text.indexOf(each));
    expect(found).not.toContain(-1);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(stdout).toMatch(/^ {2}rest_volts +25\.30 V +24\.\d\d to 25\.\d\d V +______$/m);
    expect(stdout).toMatch(/^ {2}run_forwards +yes +yes \/ no$/m);
    expect(stdout.match(/\[ \]/g)?.length).toBeGreaterThan(5);
  });

  test("a loco held fast is told from a flat battery, with what to do first and why not the others", async () => {
    const { status, stdout, stderr } = await judged([
      ["rest_volts", "25.3 V"],
      ["run_speed", "0 mph"],
      ["run_motor_amps", "74 A"],
      ["run_battery_volts", "24.9 V"],
    ]);
    expect(status, stderr).toBe(0);
    const text = words(stdout);
    expect(text).toMatch(/^Almost certainly \(over 99 %\): (something is held fast|the driven wheels cannot turn)/);
    expect(text).toContain("What to do Power off, isolator open, wheels chocked. Chocks out only once");
    expect(text).toMatch(/Why not the others .*a flat battery: .* would be/);
    expect(text).toMatch(/run_motor_amps +74\.0 A .*OUTSIDE/);
    expect(text).not.toContain("SAFETY FIRST");
    expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
  });

  test("where little is known it says so, and which reading to take next, with what each cause has there", async () => {
    const text = words(
      (
        await judged([
          ["rest_volts", "25.3 V"],
          ["stands_rpm_full", "218 rpm"],
        ])
      ).stdout,
    );
    expect(text).toMatch(/Read next \w+\. /);
    expect(text).toMatch(/if it is it reads .*\d/);
  });

  test("a tooth count is named where one explains the speed", async () => {
    const text = words(
      (
        await judged([
          ["rest_volts", "25.3 V"],
          ["stands_rpm_full", "287 rpm"],
          ["motor_turns", "10.86"],
          ["run_speed", "2.12 m/s"],
          ["wheel_diameter", "170 mm"],
        ])
      ).stdout,
    );
    // 11/44 and 12/38 are 12.67 to 1; 14 teeth in place of 12 are 10.86 to 1.
    expect(text).toContain(
      "10.9 to 1 in place of 12.7 to 1, such as 14 teeth in place of 12 on the second driving sprocket",
    );
  });

  test("imperial where it is asked for", async () => {
    const { stdout } = await rideon(["trial", BRAKED, "--units", "imperial", "--long"]);
    expect(stdout).toMatch(/^ {2}roll_loco +[\d.]+ lbf +[\d.]+ to [\d.]+ lbf +______$/m);
    expect(stdout).toMatch(/^ {2}stop_loco +\d+ ft +\d+ to \d+ ft +______$/m);
    expect(stdout).toMatch(/^ {2}run_speed +[\d.]+ mph /m);
    expect(stdout).not.toContain("in kg");
  });
});

describe.concurrent("other trains", () => {
  test("there and back, no cars, one battery, series motor, a lever: fewer readings, all in words", async () => {
    const folder = siteFolder();
    const loco = `name: Bee
gauge: 5 in
mass: 60 kg
wheels: { diameter: 110 mm, driven_axles: 2 }
motor: { kind: series, nameplate: { voltage: 24 V, current: 15 A, speed: 2500 rpm, power: 250 W } }
gears: [{ ratio: 6 }]
controller: { motor_current_limit: 40 A }
battery: { chemistry: lifepo4, in_series: 1, each: { voltage: 24 V, capacity: 50 Ah } }
brakes: [{ rail_force: 120 N }]
`;
    writeFileSync(join(folder, "bee.yaml"), loco);
    writeFileSync(join(folder, "ends.csv"), "distance_m,height_m\n0,0\n40,0\n80,0.8\n120,0.8\n");
    const plan = join(folder, "ends.yaml");
    writeFileSync(plan, "loco: bee.yaml\ntrack: { profile: ends.csv, kind: end-to-end }\nlever: 0.4\n");
    const [{ status, stdout, stderr }, short] = await Promise.all([
      rideon(["trial", plan, "--long"]),
      rideon(["trial", plan]),
    ]);
    expect(status, stderr).toBe(0);
    const text = words(stdout);
    expect(words(short.stdout)).toMatch(
      /SERIES WOUND.*neither breaker nor fuse|neither breaker nor fuse.*SERIES WOUND/,
    );
    expect(text).toMatch(/^First outing: Bee For the loco by itself and its driver, no passengers/);
    expect(text).toContain("SERIES WOUND");
    expect(text).toContain("neither breaker nor fuse");
    expect(text).toContain("Gears, shafts and wheels take fingers");
    expect(text).not.toMatch(/stands_rpm|battery_1_volts|undefined|NaN|\[object|null/);
    expect(stdout).toMatch(/^ {2}parked_loco /m);
  });
});

describe.concurrent("--out", () => {
  test("answer, page and a sheet to fill in, which can be read back", async () => {
    const out = join(emptyFolder(), "new");
    const { status, stderr } = await rideon(["trial", PLAN, "--out", out]);
    expect(status, stderr).toBe(0);
    expect(readdirSync(out).sort()).toEqual(["answer.json", "sheet.csv", "trial.html"]);
    const answer: Answer = JSON.parse(readFileSync(join(out, "answer.json"), "utf8"));
    const sheet = readFileSync(join(out, "sheet.csv"), "utf8");
    const rows: { reading: string; value: string; note: string }[] = parse(sheet, { comment: "#", columns: true });
    expect(rows.map(({ reading }) => reading)).toEqual([
      ...answer.steps.flatMap(({ readings }) => readings.map(({ reading }) => reading)),
      ...["run_lever", "wind", "run_place"],
    ]);
    expect(new Set(rows.map(({ value }) => value))).toEqual(new Set([""]));
    const empty = await rideon(["trial", PLAN, "--readings", join(out, "sheet.csv")]);
    expect([empty.status, empty.stdout]).toEqual([1, ""]);
    expect(empty.stderr).toContain("no reading is filled in");
    writeFileSync(join(out, "sheet.csv"), sheet.replace("rest_volts,,", "rest_volts,25.3 V,"));
    const filled = await rideon(["trial", PLAN, "--readings", join(out, "sheet.csv"), "--out", out]);
    expect(filled.status, filled.stderr).toBe(0);
    expect(filled.stderr).toContain("left as it is");
    expect(readFileSync(join(out, "sheet.csv"), "utf8")).toContain("rest_volts,25.3 V,");
    expect(readFileSync(join(out, "trial.html"), "utf8")).toContain("What was read, and what it means");
  });

  test("a sheet.csv that is none of ours is left alone", async () => {
    const out = emptyFolder();
    writeFileSync(join(out, "sheet.csv"), "my,own\n1,2\n");
    const { status } = await rideon(["trial", PLAN, "--out", out, "--quiet"]);
    expect(status).toBe(0);
    expect(readFileSync(join(out, "sheet.csv"), "utf8")).toBe("my,own\n1,2\n");
  });
});

describe.concurrent("what trial cannot use", () => {
  test("1: every problem of the filled sheet, and nothing on standard output", async () => {
    const { status, stdout, stderr } = await judged(
      [
        ["rest_vlots", "25 V"],
        ["run_speed", "3 A"],
      ],
      "--json",
    );
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(/filled\.csv:2: error: reading: rest_vlots .*did you mean rest_volts\?/);
    expect(stderr).toMatch(/filled\.csv:3: error: value: run_speed: "3 A" is a current where a speed is wanted/);
  });

  test("2: no such file, a folder, and both from standard input; told before anything is worked out", async () => {
    const folder = emptyFolder();
    mkdirSync(join(folder, "in"));
    for (const [file, why] of [
      [join(folder, "none.csv"), "there is no such file"],
      [join(folder, "in"), "it is a folder"],
    ] as const) {
      const { status, stdout, stderr } = await rideon(["trial", PLAN, "--readings", file]);
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toContain(`--readings ${file}: ${why}`);
    }
    const both = await rideon(["trial", "-", "--readings", "-"], { input: "" });
    expect(both).toMatchObject({ status: 2, stdout: "" });
  });

  test("a sheet from standard input is called stdin", async () => {
    const { status, stderr } = await rideon(["trial", PLAN, "--readings", "-"], { input: "reading,value\nx,1\n" });
    expect(status).toBe(1);
    expect(stderr).toContain("stdin:2: error: reading: x is not on this loco's sheet");
  });

  test("an interrupt is heard while it works, and leaves no half-written file", async () => {
    const out = join(emptyFolder(), "new");
    const child = start(["trial", PLAN, "--long", "--out", out]);
    setTimeout(() => child.kill("SIGINT"), 1500);
    const { status } = await ended(child);
    // On a busy machine the signal may come before the program does: then the system ends it.
    expect([0, 130, null]).toContain(status);
    if (status !== 0 && existsSync(out)) expect(readdirSync(out)).toEqual([]);
  });
});

describe.concurrent("it does not move", () => {
  test("the short sheet is read in the wind: safety, looks, the way to go and the readings, on 80 lines", async () => {
    const { status, stdout } = await rideon(["trial", BRAKED]);
    expect(status).toBe(0);
    const lines = stdout.trimEnd().split("\n");
    expect(lines.length).toBeLessThanOrEqual(80);
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
    const text = words(stdout);
    const places = [
      "SAFETY FIRST",
      "isolator",
      "Look first",
      "look_chocks",
      "It does not move at all",
      "rest_volts",
      "run_speed",
      "restarts",
    ];
    const found = places.map((each) => text.indexOf(each));
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(found[0]).toBeGreaterThan(0);
  });

  test("holds only what the instruments at hand can read, and never the bank without a brake", async () => {
    const [alone, none] = await Promise.all([
      rideon(["trial", BRAKED, "--with", "voltmeter"]),
      rideon(["trial", PLAN]),
    ]);
    expect(alone.stdout).toMatch(/^ {2}held_controller_volts /m);
    expect(alone.stdout).not.toMatch(/^ {2}(held_motor_amps|held_pull|roll_train|run_speed) /m);
    expect(none.stdout).not.toMatch(/^ {2}restarts /m);
    expect(none.stdout).toContain("THIS TRAIN HAS NO BRAKE");
    const odd = await rideon(["trial", BRAKED, "--with", "stethoscope"]);
    expect([odd.status, odd.stdout]).toEqual([2, ""]);
    expect(odd.stderr).toContain("voltmeter, clamp, balance");
  });

  test("said in one line, with no file; the answer ends with the one thing to look at or read next", async () => {
    const { status, stdout, stderr } = await rideon(["trial", BRAKED, "--saw", "does not move"]);
    expect(status, stderr).toBe(0);
    expect(words(stdout)).toMatch(/^No cause stands out yet.*Look next \w+\. .*if it is it reads/);
    const rows = await rideon(["trial", BRAKED, "--saw", "rest_volts=25.0; run_speed=0", "--json"]);
    const { causes, next_reading } = json(rows);
    expect(causes?.slice(0, 2).map(({ cause }) => cause)).toEqual(expect.arrayContaining(["open_circuit"]));
    expect(next_reading).not.toBeNull();
  });

  test("what is said and cannot be used is a wrong command line", async () => {
    for (const [said, why] of [
      ["it hums", "it is not on this loco's sheet"],
      ["rest_volts=hot", "rest_volts"],
      ["  ", "nothing is said"],
      ["run_place=99999 m", "beyond the end of the line"],
    ] as const) {
      const { status, stdout, stderr } = await rideon(["trial", BRAKED, "--saw", said]);
      expect([status, stdout], said).toEqual([2, ""]);
      expect(stderr, said).toContain(why.startsWith("it is") ? "is not on this loco's sheet" : why);
    }
  });

  test("a number without its unit, and a probe the wrong way round, are taken and told", async () => {
    const { status, stdout } = await judged([
      ["rest_volts", "-25.2"],
      ["run_speed", "0"],
      ["stands_rpm_full", "120 in half a minute"],
    ]);
    expect(status).toBe(0);
    expect(words(stdout)).toMatch(
      /rest_volts: "-25\.2" is taken as -25\.2 V; "-25\.2" is taken without its sign: the probes/,
    );
    expect(words(stdout)).toContain('run_speed: "0" is taken as 0 mph');
  });
});

test("trial --help ends with an example", async () => {
  const { stdout } = await rideon(["trial", "--help"]);
  expect(stdout.trimEnd().split("\n").at(-1)).toMatch(/^ {2}rideon trial\b/);
  expect(stdout).toContain("--readings <FILE>");
});
