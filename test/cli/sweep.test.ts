import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { describe, expect, test } from "vitest";
import { rideon, siteFolder, start } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const VARIED = ["--vary", "passengers=2..5", "--vary", "rail=dry,wet,muddy", "--ask", "climb", "--quiet"];
const swept = (cwd: string, ...args: string[]) => rideon(["sweep", "plan.yaml", ...args], { cwd });
const read = (...path: string[]) => readFileSync(join(...path), "utf8");

describe("sweep", () => {
  test("is the same file by one worker and by two, in shares and gathered, a share killed and run again", async () => {
    const cwd = siteFolder();
    const [one] = await Promise.all([
      swept(cwd, ...VARIED, "--workers", "1", "--out", "one"),
      swept(cwd, ...VARIED, "--workers", "2", "--out", "two"),
      swept(cwd, ...VARIED, "--share", "1/2", "--out", "parts"),
    ]);
    expect(one.status).toBe(0);
    expect(oneLine(one.stdout)).toMatch(
      /^12 cases: 8 completed and 4 cannot be used\. 4 cases tie for the best, the first of them case 1: passengers_it_can_restart 7\./,
    );
    const whole = read(cwd, "one", "sweep.csv");
    expect(read(cwd, "two", "sweep.csv")).toBe(whole);
    // Nonsense is a row that says why, and the rest go on.
    expect(whole.match(/,invalid,.*muddy"" is not one of dry, damp, wet, greasy/g)).toHaveLength(4);
    expect(whole.trimEnd().split("\n")).toHaveLength(2 + 12);

    const share = start(["sweep", "plan.yaml", ...VARIED, "--share", "2/2", "--out", "parts", "--workers", "1"], {
      cwd,
    });
    const ended = new Promise((resolve) => share.on("exit", resolve));
    const part = join(cwd, "parts", "sweep-2-of-2.csv");
    while (!existsSync(part) || read(part).split("\n").length < 4) await setTimeout(5);
    share.kill("SIGKILL");
    await ended;
    const early = await swept(cwd, "--gather", "parts/sweep-*-of-2.csv", "--out", "early");
    if (read(part).trimEnd().split("\n").length < 2 + 6) {
      expect(early.status).toBe(2);
      expect(early.stderr).toMatch(/cases? \d+.* missing: .*sweep-2-of-2\.csv ends at \d+/);
    }
    expect((await swept(cwd, ...VARIED, "--share", "2/2", "--out", "parts")).status).toBe(0);
    expect((await swept(cwd, "--gather", "parts/sweep-*-of-2.csv", "--out", "parts")).status).toBe(0);
    expect(read(cwd, "parts", "sweep.csv")).toBe(whole);

    const other = await swept(cwd, ...VARIED, "--vary", "laps=1,2", "--out", "one");
    expect(other.status).toBe(2);
    expect(other.stderr).toContain("is of another sweep, or of files that have changed since");
    expect(read(cwd, "one", "sweep.csv")).toBe(whole);
  });

  test("sets designs side by side on a page, with what each would take, and draws a map", async () => {
    const cwd = siteFolder();
    writeFileSync(
      join(cwd, "other.yaml"),
      read(cwd, "loco.yaml").replace("[11, 44]", "[11, 48]").replace("name: Teasel", "name: Gorse"),
    );
    const { status, stdout } = await swept(
      ...([
        cwd,
        "--beside",
        "other.yaml",
        "--vary",
        "passengers=2,4",
        "--ask",
        "climb",
        "--best",
        "restart_gradient_percent",
      ] as const),
      ...["--out", "found", "--svg", "map.svg", "--json"],
    );
    expect(status).toBe(0);
    const answer = JSON.parse(stdout);
    expect(answer).toMatchObject({ command: "sweep", cases: 4, done: 4, outcomes: { completed: 4 } });
    // Grip decides: geared lower it starts on no more.
    expect(answer.best.map(({ settings }: { settings: object }) => settings).slice(0, 2)).toEqual([
      { loco: "loco.yaml", passengers: "2" },
      { loco: "other.yaml", passengers: "2" },
    ]);
    expect(answer.best[0].figures).toEqual(answer.best[1].figures);
    const page = read(cwd, "found", "sweep.html");
    expect(page).toContain("What is otherwise with Gorse");
    expect(page).toMatch(/gears\.1\.teeth<\/th><td>\[11, 44\]<\/td><td>\[11, 48\]/);
    expect(page).toMatch(/<li>.*sprocket.*44 teeth.*48 teeth/);
    expect(page).toContain("decided by your club&#39;s");
    expect(read(cwd, "map.svg").match(/data-cell="\d"/g)).toHaveLength(4);
  });

  test("takes cases of a file, prints them, and asks what a need asks", async () => {
    const cwd = siteFolder();
    writeFileSync(join(cwd, "cases.csv"), 'passengers,loco.gears.1.teeth\n2,"[11, 44]"\n40,\n');
    const listed = await swept(cwd, "--cases", "cases.csv", "--vary", "rail=dry,wet", "--list");
    expect(listed.stdout).toBe(
      'case,passengers,loco.gears.1.teeth,rail\n1,2,"[11, 44]",dry\n2,2,"[11, 44]",wet\n3,40,,dry\n4,40,,wet\n',
    );
    const { stdout } = await swept(
      cwd,
      "--cases",
      "cases.csv",
      "--ask",
      "climb,run",
      "--best",
      "energy_Wh",
      "--need",
      "restarts=yes",
    );
    expect(oneLine(stdout)).toMatch(
      /^2 cases: 1 completed and 1 stalled\. The best that has restarts=yes is case 1: energy_Wh 1\d\.\d\./,
    );
    expect(oneLine(stdout)).toContain("Whether they stop in time was not asked");
  });

  test("tells of each question what its own command tells with the same set", async () => {
    const cwd = siteFolder();
    const set = ["--set", "track.rail=damp", "--passengers", "3"];
    const json = async (...args: string[]) => JSON.parse((await rideon([...args, ...set, "--json"], { cwd })).stdout);
    const [row, gears, size, check, parts, wiring] = await Promise.all([
      (async () => {
        const vary = ["--vary", "rail=damp", "--passengers", "3", "--json"];
        const ask = ["--ask", "gears,size,check,shafts,parts,wiring", "--teeth", "11,12,38,44,57"];
        const { stdout, status } = await swept(cwd, ...vary, ...ask);
        expect(status).toBe(0);
        return JSON.parse(stdout).best[0].figures;
      })(),
      json("gears", "plan.yaml", "--teeth", "11,12,38,44,57"),
      json("size", "plan.yaml"),
      json("check", "plan.yaml"),
      json("parts", "plan.yaml"),
      json("wiring", "plan.yaml"),
    ]);
    // As many digits as a row has.
    const cell = (value: number | null | undefined) => (value == null ? null : Number(value.toPrecision(6)));
    const line = (part: string) => parts.lines.find((each: { part: string }) => each.part === part);
    const supply = size.supplies.find(({ voltage_V }: { voltage_V: number }) => voltage_V === 24);
    const [best] = gears.rows;
    expect(row).toMatchObject({
      chosen_teeth: best.teeth.map((pair: number[]) => pair.join("/")).join(" "),
      chosen_speed_mps: cell(best.speed_mps),
      chosen_rms_motor_current_A: cell(best.rms_motor_current_A),
      chosen_faults: best.faults.length,
      chosen_gears_will_do: best.faults.length === 0,
      own_teeth: "11/44 12/38",
      own_restart_gradient_percent: cell(gears.own.restart_gradient_percent),
      own_peak_winding_temperature_C: cell(gears.own.peak_winding_temperature_C),
      own_gears_will_do: gears.own.faults.length === 0,
      motor_continuous_power_W: cell(size.motor_continuous_power_W),
      starting_force_N: cell(size.starting_force_N),
      wanted_ratio: cell(size.ratio),
      lead_acid_24V_Ah: cell(supply.lead_acid_capacity_Ah),
      breaker_24V_A: supply.breaker_rating_A,
      wanted_brake_N: cell(size.brake_force_line_N),
      grips_wet: size.restarts_wet,
      ratio: cell(check.ratio),
      pull_at_current_limit_N: cell(check.pull_at_current_limit_N),
      grip_N: cell(check.grip_N),
      warnings: check.warnings.length,
      axle_least_diameter_m: cell(parts.shafts.rows.at(-1).least_diameter_m),
      // Their diameters are not in the files.
      least_shaft_margin: null,
      weakest_shaft: null,
      shafts_will_do: null,
      parts_needed: parts.needed,
      parts_wanting: parts.wanting,
      breaker_to_buy_A: line("breaker").wanted.current_A,
      motor_cable_to_buy_mm2: line("motor_cable").wanted.area_mm2,
      brake_to_buy_N: cell(line("brake").figures.force_N),
      battery_cable_drop_percent: cell(wiring.cables[0].drop_at_peak_percent),
      short_circuit_A: cell(wiring.short_circuit_A),
      not_fitted: wiring.path.filter(({ fitted }: { fitted: boolean }) => !fitted).length,
    });
  });

  test("asks size of a loco that has no drive yet, and tells words, units and bands as the others", async () => {
    const cwd = siteFolder();
    const loco = read(cwd, "loco.yaml").replace(/^motor:[\s\S]*?(?=^wiring:)/m, "");
    expect(loco).not.toContain("battery:");
    writeFileSync(join(cwd, "loco.yaml"), loco);
    const asks = ["--vary", "speed=3 mph,4 mph", "--ask"];
    const sized = await swept(cwd, ...asks, "size", "--bands", "--draws", "20", "--out", "found", "--svg", "speed.svg");
    expect(oneLine(sized.stdout)).toMatch(/^2 cases: 2 completed\. The best is case 1: motor_continuous_power_W \d+\./);
    expect(sized.stdout).not.toContain("--ask limits");
    const [, head = "", first = ""] = read(cwd, "found", "sweep.csv").split("\n");
    const at = (name: string) => Number(first.split(",")[head.split(",").indexOf(name)]);
    expect(at("motor_continuous_power_W_p05")).toBeLessThan(at("motor_continuous_power_W"));
    expect(at("motor_continuous_power_W_p95")).toBeGreaterThan(at("motor_continuous_power_W"));
    expect(read(cwd, "speed.svg")).toContain("motor continuous power, W");
    // Everything else needs one.
    const run = await swept(cwd, ...asks, "size,run");
    expect([run.status, run.stderr]).toEqual([1, expect.stringContaining("motor is missing")]);
  });

  test("says of what will not do what was found and what is wanted, before anything is worked out", async () => {
    const cwd = siteFolder();
    const usage = async (...args: string[]) => {
      const { status, stderr, stdout } = await rideon(["sweep", ...args], { cwd });
      expect([status, stdout]).toEqual([2, ""]);
      return stderr;
    };
    expect(await usage("plan.yaml")).toContain("nothing is varied");
    expect(await usage("-", "--vary", "passengers=1")).toContain("give it as a file");
    expect(await usage("plan.yaml", "--vary", "pasengers=1..3")).toContain("did you mean passengers?");
    const asks = (questions: string, ...more: string[]) =>
      usage("plan.yaml", "--vary", "passengers=1", "--ask", questions, ...more);
    expect(await asks("speed")).toContain("one or more of run, laps, climb, brakes, limits, gears, size, check,");
    expect(await asks("laps,trial")).toMatch(/trial cannot be asked of a grid: .*a sheet to fill in/);
    expect(await asks("compare")).toContain("one logged run beside one plan");
    expect(await asks("coastdown")).toContain("it reduces what was measured");
    expect(await usage("plan.yaml", "--vary", "passengers=1", "--bands")).toContain(
      "what limits tells has no bands; ask run, laps, climb, brakes, gears or size",
    );
    expect(await asks("check,parts", "--bands")).toContain("what check and parts tell has no bands");
    expect(await asks("check", "--teeth", "11,44")).toContain("gears, which is not asked here");
    expect(await asks("gears", "--teeth", "3")).toContain("whole numbers from 5 to 200");
    expect(await asks("check", "--best", "ratio")).toContain("neither more nor less of it is better");
    expect(await usage("plan.yaml", "--vary", "passengers=1..3", "--share", "4/3")).toContain("such as 3/8");
    expect(await usage("plan.yaml", "--vary", "passengers=1..60", "--vary", "laps=1..600")).toContain("--out results");
    expect(await usage("--gather", "nosuch-*.csv", "--out", "x")).toContain("there is no file of such a name");
  });
});
