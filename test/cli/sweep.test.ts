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
      /^12 cases: 8 completed and 4 cannot be used\. The best is case 1: passengers_it_can_restart 7\./,
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
    expect(await usage("plan.yaml", "--vary", "passengers=1", "--ask", "gears")).toContain(
      "run, laps, climb, brakes, limits",
    );
    expect(await usage("plan.yaml", "--vary", "passengers=1", "--bands")).toContain(
      "has no bands; ask run, laps, climb or brakes",
    );
    expect(await usage("plan.yaml", "--vary", "passengers=1..3", "--share", "4/3")).toContain("such as 3/8");
    expect(await usage("plan.yaml", "--vary", "passengers=1..60", "--vary", "laps=1..600")).toContain("--out results");
    expect(await usage("--gather", "nosuch-*.csv", "--out", "x")).toContain("there is no file of such a name");
  });
});
