import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, ended, rideon, SITE, shell, siteFolder, start, until } from "./command.js";

const SITE_FILES = readdirSync(SITE).sort();
const text = (...path: string[]) => readFileSync(join(...path), "utf8");

/** Until a file of the command's own is begun: what it reads is read by then. */
const begun = (folder: string) => until(() => readdirSync(folder).some((name) => name.endsWith(".tmp")));

describe.concurrent("no output takes the place of what is read, or of another", () => {
  test.each([
    ["run", "--svg", "plan.yaml", "plan.yaml would take the place of plan.yaml, which is read"],
    ["climb", "--svg", "./loco.yaml", "./loco.yaml would take the place of loco.yaml, which is read"],
    ["gears", "--svg", "track.csv", "track.csv would take the place of track.csv, which is read"],
  ])("%s %s %s", async (command, option, file, message) => {
    const folder = siteFolder();
    const before = text(folder, file);
    const { status, stdout, stderr } = await rideon([command, option, file], { cwd: folder });
    expect([status, stdout, stderr]).toEqual([2, "", `rideon: error: ${message}\n`]);
    expect(text(folder, file)).toBe(before);
    expect(readdirSync(folder).sort()).toEqual(SITE_FILES);
  });

  test("--out, where the profile has the name of an output", async () => {
    const folder = siteFolder();
    const track = text(folder, "track.csv");
    writeFileSync(join(folder, "trace.csv"), track);
    const set = ["--set", "track.profile=trace.csv"];
    const { status, stderr } = await rideon(["run", "--out", ".", ...set], { cwd: folder });
    expect([status, stderr]).toEqual([
      2,
      "rideon: error: trace.csv would take the place of trace.csv, which is read\n",
    ]);
    expect(text(folder, "trace.csv")).toBe(track);
  });

  test("--svg onto a file of --out", async () => {
    const folder = siteFolder();
    const { status, stderr } = await rideon(["run", "--out", "results", "--svg", "results/answer.json"], {
      cwd: folder,
    });
    expect(status).toBe(2);
    expect(stderr).toContain("results/answer.json would be written twice");
    expect(readdirSync(folder).sort()).toEqual(SITE_FILES);
  });
});

describe.concurrent("all or nothing", () => {
  test("a folder in the way of one file is told before anything runs, and no other file is replaced", async () => {
    const folder = siteFolder();
    mkdirSync(join(folder, "results", "answer.json"), { recursive: true });
    writeFileSync(join(folder, "results", "trace.csv"), "older");
    const { status, stdout, stderr } = await rideon(["run", "--out", "results"], { cwd: folder });
    expect([status, stdout]).toEqual([3, ""]);
    expect(stderr).toContain("results/answer.json cannot be written: a folder of this name is in the way");
    expect(readdirSync(join(folder, "results")).sort()).toEqual(["answer.json", "trace.csv"]);
    expect(text(folder, "results", "trace.csv")).toBe("older");
  });

  // A file may be no larger than so many KB: the disk takes part of a text, and then no more, as a full one does.
  test.each([
    ["the answer is printed", "run --json > printed", "the output cannot be written: it would be larger"],
    ["the help is printed", "run --help > printed", "the output cannot be written: it would be larger"],
    ["files are written", "run --out results >/dev/null", "results/trace.csv cannot be written: it would be larger"],
    [
      "a picture is written",
      "climb --svg deep/down/p.svg >/dev/null",
      "deep/down/p.svg cannot be written: it would be",
    ],
    ["a folder is started", "new line/here", "line/here/loco.yaml cannot be written: it would be larger"],
  ])("a disk that fills up while %s", async (_, line, message) => {
    const folder = siteFolder();
    const { status, stderr } = await shell(`ulimit -f 1; $RIDEON ${line}`, folder);
    expect(status).toBe(3);
    expect(stderr).toContain(message);
    expect(
      readdirSync(folder)
        .filter((name) => name !== "printed")
        .sort(),
    ).toEqual(SITE_FILES);
  });

  test.each([
    ["SIGHUP", 129],
    ["SIGQUIT", 131],
  ] as const)("%s leaves old files and nothing else", async (signal, status) => {
    const folder = siteFolder();
    writeFileSync(join(folder, "answer.json"), "old");
    const child = start(["laps", "--out", ".", "--svg", "new/picture.svg", "--step", "0.0005"], { cwd: folder });
    const end = ended(child);
    await begun(join(folder));
    child.kill(signal);
    expect((await end).status).toBe(status);
    expect(text(folder, "answer.json")).toBe("old");
    expect(readdirSync(folder).sort()).toEqual([...SITE_FILES, "answer.json"].sort());
  });
});

describe.concurrent("files are read once", () => {
  test("a report quotes the plan it worked with, though the file has changed since", async () => {
    const folder = siteFolder();
    const out = emptyFolder();
    const child = start(["report", "--out", out, "--quiet"], { cwd: folder });
    const end = ended(child);
    await begun(out);
    writeFileSync(join(folder, "plan.yaml"), "# Another plan altogether.\n");
    expect((await end).status).toBe(0);
    const page = text(out, "report.html");
    expect(page).toContain("The plan says of itself: <q>A quiet Sunday");
    expect(page).not.toContain("Another plan");
  });
});

describe.concurrent("nothing that a terminal would obey reaches it", () => {
  /** Escape, a C1 introducer, and marks that turn the direction of writing. */
  const STRANGE = ["\u001b[31m", "\u009b31m", "\u202e", "\u2066", "\u200f"];
  const odd = new RegExp(`[${STRANGE.map((mark) => mark[0]).join("")}]`);

  test.each(STRANGE.map((mark) => [`U+${mark.charCodeAt(0).toString(16).padStart(4, "0")}`, mark]))(
    "%s in a name is refused, and not repeated",
    async (_, mark) => {
      const folder = siteFolder();
      writeFileSync(join(folder, "loco.yaml"), text(folder, "loco.yaml").replace("Teasel", `"Tea${mark}sel"`));
      writeFileSync(join(folder, "track.csv"), text(folder, "track.csv").replace("Heron", `Her${mark}on`));
      const { status, stdout, stderr } = await rideon(["check", "--json"], { cwd: folder });
      expect([status, stdout]).toEqual([1, ""]);
      expect(stderr).toMatch(/^track\.csv:\d+: error: place: the text has characters that cannot be printed$/m);
      expect(stderr).not.toMatch(odd);
    },
  );

  test("nor in the name of a file or a folder", async () => {
    const folder = siteFolder();
    const name = `a${STRANGE.join("")}b`;
    writeFileSync(join(folder, `${name}.yaml`), text(folder, "plan.yaml"));
    writeFileSync(join(folder, `${name}.csv`), text(folder, "track.csv").replace("0,0", "0,x"));
    const told = await Promise.all([
      rideon(["check", `${name}.yaml`, "--json"], { cwd: folder }),
      rideon(["check", `${name}.yaml`, "--set", `loco.name=${name}`], { cwd: folder }),
      rideon(["check", "--set", `track.profile=${name}.csv`], { cwd: folder }),
      rideon(["check", `${name}.none`], { cwd: folder }),
      rideon(["new", name], { cwd: folder }),
      rideon(["report", `${name}.yaml`, "--card"], { cwd: folder }),
      rideon([name], { cwd: folder }),
      rideon(["run", `--${name}`], { cwd: folder }),
    ]);
    expect(told.map(({ status }) => status)).toEqual([0, 2, 2, 1, 0, 0, 2, 2]);
    for (const { stdout, stderr } of told) expect(stdout + stderr).not.toMatch(odd);
  });

  test("a long value is cut where it is repeated", async () => {
    const long = "x".repeat(50_000);
    const told = await Promise.all(
      [
        ["check", "--set", `loco.mass=${long}`],
        ["check", "--set", `${long}=3`],
        ["check", "--set", `driver.rides=${long}`],
        ["check", "--speed", `4 ${long}`],
        ["check", "--units", long],
        ["check", long],
        ["new", long],
        [long],
      ].map((args) => rideon(args, { cwd: SITE })),
    );
    for (const { status, stdout, stderr } of told) {
      expect(status).toBeGreaterThan(0);
      expect(stdout).toBe("");
      expect(stderr.length).toBeLessThan(1100);
    }
  });

  test.each([
    ["run", "--svg", ""],
    ["run", "--out", ""],
    ["trial", "--readings", ""],
    ["new", ""],
    ["check", ""],
  ])("%s %s with an empty name is a wrong command line", async (...args) => {
    const { status, stdout, stderr } = await rideon(args, { cwd: siteFolder() });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^rideon: error: [-\w]+: the name is empty\n$/);
  });
});
