import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, ended, rideon, SITE, shell, siteFolder, start, until } from "./command.js";

const PLAN = join(SITE, "plan.yaml");

describe.concurrent("exit status, and which stream says what", () => {
  test("0: the question was answered, and standard output has the answer alone", async () => {
    const { status, stdout, stderr } = await rideon(["run", PLAN]);
    expect(status).toBe(0);
    expect(stdout).toContain("Completed");
    expect(stdout).not.toContain("warning:");
    expect(stderr).toMatch(/^\S+loco\.yaml:\d+:\d+: warning: /m);
  });

  test("0: a train that stalls is an answer", async () => {
    const { status, stdout } = await rideon(["run", join(SITE, "gala.yaml")]);
    expect(status).toBe(0);
    expect(stdout).toContain("Stalled at");
  });

  test("1: warnings under --strict; the answer is given all the same", async () => {
    const { status, stdout } = await rideon(["check", PLAN, "--strict"]);
    expect(status).toBe(1);
    expect(stdout).toContain("ruling gradient");
  });

  test("1: no plan here, and how to start one", async () => {
    const { status, stdout, stderr } = await rideon(["run"], { cwd: emptyFolder() });
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toBe("plan.yaml: error: there is no plan here; rideon new starts one\n");
  });

  test("1: every problem of every file, one to a line, and nothing on standard output even under --json", async () => {
    const folder = siteFolder();
    const loco = readFileSync(join(folder, "loco.yaml"), "utf8");
    writeFileSync(
      join(folder, "loco.yaml"),
      loco.replace("mass: 165 kg", "mass: 165").replace("ramp: 3 s", "rmap: 3 s"),
    );
    writeFileSync(join(folder, "track.csv"), "distance_m,height_m\n0,0\n0,1\n");
    const { status, stdout, stderr } = await rideon(["run", "--json"], { cwd: folder });
    expect([status, stdout]).toEqual([1, ""]);
    const lines = stderr.trimEnd().split("\n");
    expect(lines.every((line) => /^[\w.]+:\d+(?::\d+)?: error: ./.test(line))).toBe(true);
    expect(lines.map((line) => line.split(":")[0])).toEqual(
      expect.arrayContaining(["loco.yaml", "loco.yaml", "track.csv"]),
    );
    expect(stderr).toContain("did you mean ramp?");
  });

  test("1: problems that only the whole train shows stand at their keys as well", async () => {
    const folder = siteFolder();
    const plan = readFileSync(join(folder, "plan.yaml"), "utf8");
    writeFileSync(join(folder, "plan.yaml"), plan.replace("rides: loco", "rides: Tender"));
    const { status, stderr } = await rideon(["check"], { cwd: folder });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^plan\.yaml:8:\d+: error: driver\.rides: no car is called "Tender"/);
  });

  test.each([
    [["rnu"], "did you mean run?"],
    [["run", "--speeds", "3 mph"], "did you mean --speed?"],
    [["run", PLAN, "--set", "loco.masss=3 kg"], "did you mean mass?"],
    [["run", PLAN, "--passengers", "2.5"], "not a whole number"],
    [["check", PLAN, "--speed", "4"], 'error: --speed 4: speed: "4" has no unit; write it like 4 mph'],
    [["check", PLAN, "--speed", "4 mph", "--lever", "1"], "error: --lever 1: lever cannot stand beside speed"],
    [["check", PLAN, "--rail", "sandy"], "error: --rail sandy: track.rail"],
    [["check", PLAN, "--charge", ""], "error: --charge: there is no value"],
    [["run", PLAN, "--step", "0.7"], "it is seconds, from 0.0001 to 0.5"],
    [["run", PLAN, "--step", "a tenth"], "it is seconds, from 0.0001 to 0.5"],
    [["run", PLAN, "--every", "0"], "at least 0.001"],
    [["run", PLAN, "--units", "furlongs"], "metric, imperial"],
    [["run", PLAN, "--rail"], "--rail has no value"],
    [["run", PLAN, PLAN], "too many arguments"],
    [["run", PLAN, "--set", "driver.rides=Tender"], 'no car is called "Tender"'],
    [["plan.yaml"], "did you mean rideon run plan.yaml?"],
    [[], "Usage: rideon"],
  ])("2: %j is a command line that is wrong", async (args, hint) => {
    const { status, stdout, stderr } = await rideon(args);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain(hint);
    if (args.length > 0) expect(stderr).toMatch(/^(?:rideon: error: [^\n]+\n)+$/);
  });

  test("3: the disk would not", async () => {
    const folder = siteFolder();
    const { status, stderr } = await rideon(["run", "--out", "track.csv/results"], { cwd: folder });
    expect(status).toBe(3);
    expect(stderr).toContain(
      "rideon: error: track.csv/results cannot be written: a file stands where a folder is wanted\n",
    );
    const full = await shell("$RIDEON run > /dev/full", folder);
    expect(full.status).toBe(3);
    expect(full.stderr).toContain("the output cannot be written");
  });

  // There a system lets nobody make a folder, and Node's own way of making several once never came back from it.
  test.skipIf(process.platform !== "linux")("3: where no folder can be made, it says so at once", async () => {
    const { status, stderr } = await rideon(["run", "--out", "/proc/nowhere/results"], { cwd: siteFolder() });
    expect(status).toBe(3);
    expect(stderr).toContain("rideon: error: /proc/nowhere cannot be written: there is no such place\n");
  });

  test("130: interrupted in the middle, it leaves the old files and nothing else", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "answer.json"), "old");
    const child = start(["laps", "--out", ".", "--step", "0.0005"], { cwd: folder });
    const end = ended(child);
    await until(() => readdirSync(folder).some((name) => name.endsWith(".tmp")));
    child.kill("SIGINT");
    expect(await end).toMatchObject({ status: 130, stdout: "" });
    expect(readFileSync(join(folder, "answer.json"), "utf8")).toBe("old");
    expect(readdirSync(folder).sort()).toEqual([...readdirSync(SITE), "answer.json"].sort());
  });

  test.each(["true", "head -c 1 >/dev/null"])("0 and silent: whoever reads (%s) has had enough", async (reader) => {
    expect(await shell(`$RIDEON laps --json --quiet 2>errors | ${reader}`, siteFolder())).toEqual({
      status: 0,
      stdout: "",
      stderr: "",
    });
    const folder = siteFolder();
    await shell(`$RIDEON run --out results 2>errors | ${reader}`, folder);
    expect(readFileSync(join(folder, "errors"), "utf8")).not.toMatch(/EPIPE|error/);
    expect(readdirSync(join(folder, "results")).sort()).toEqual(["answer.json", "events.csv", "trace.csv"]);
  });
});

describe.concurrent("new", () => {
  test("writes files that run as they are, and tells how", async () => {
    const folder = emptyFolder();
    const { status, stdout } = await rideon(["new", "my line"], { cwd: folder });
    expect(status).toBe(0);
    expect(readdirSync(join(folder, "my line")).sort()).toEqual(["loco.yaml", "plan.yaml", "track.csv"]);
    // All that is printed to be pasted: where the command lies far away, that is two lines.
    const [, pasted = ""] = /\nNext:\n([\s\S]*)$/.exec(stdout) ?? [];
    const told = await shell(`${pasted.trimEnd()} --quiet`, folder);
    expect([told.status, told.stdout]).toEqual([0, expect.stringContaining("The files can be used")]);
  });

  test("never overwrites: it says what stands there and writes nothing", async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "track.csv"), "mine");
    const { status, stdout, stderr } = await rideon(["new"], { cwd: folder });
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toBe("track.csv: error: it stands here already; nothing was written\n");
    expect(readFileSync(join(folder, "track.csv"), "utf8")).toBe("mine");
    expect(existsSync(join(folder, "loco.yaml"))).toBe(false);
  });
});

describe.concurrent("help", () => {
  test.each(["new", "check", "run", "laps"])("%s --help ends with an example", async (command) => {
    const { status, stdout } = await rideon([command, "--help"]);
    expect(status).toBe(0);
    expect(stdout.trimEnd().split("\n").at(-1)).toMatch(new RegExp(`^  rideon ${command}\\b`));
  });

  test("--version is the package's", async () => {
    const { version } = JSON.parse(
      readFileSync(new URL("../../packages/sim-cli/package.json", import.meta.url), "utf8"),
    );
    expect(await rideon(["--version"])).toEqual({ status: 0, stdout: `${version}\n`, stderr: "" });
  });
});
