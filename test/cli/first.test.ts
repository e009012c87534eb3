import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { rideon, SITE, shell } from "./command.js";

const ROOT = join(SITE, "../..");
const PLAN = join(SITE, "plan.yaml");
const GALA = join(SITE, "gala.yaml");
const linesOf = async (...args: string[]) => (await rideon(args)).stdout.trimEnd().split("\n");
const firstOf = async (...args: string[]) => (await linesOf(...args)).slice(0, 3).join(" ");
/** What is to be pasted. */
const nextOf = async (...args: string[]) =>
  /\nNext:\n([\s\S]*)$/
    .exec((await rideon(args)).stdout)?.[1]
    ?.trim()
    .replaceAll(/ \\\n */g, " ") ?? "";
const sets = (...pairs: string[]) => pairs.flatMap((pair) => ["--set", pair]);

describe.concurrent("the first line is the answer", () => {
  test.each([
    ["check", [PLAN], /^The files can be used: geared 12\.7 to 1/],
    ["run", [PLAN], /^Completed: 1 lap done/],
    ["run", [GALA], /^Stalled at .*, past Heron Bank/],
    ["laps", [PLAN], /^\d+ laps with 50 % kept in reserve/],
    ["laps", [GALA], /^It stalls at .*, before it has done a lap, with 99.* that ends the day, not the charge/],
    ["laps", [PLAN, ...sets("loco.wiring.breaker.rating=10 A")], /^It trips its breaker at /],
    ["laps", [PLAN, ...sets("duration=1 h")], /^\d+ laps in the 1 h that the plan has; .* a charge lasts longer/],
    ["laps", [PLAN, "--charge", "0.3"], /^It begins with 30 % of the charge, less than the 50 %/],
    ["gears", [GALA], /^No gearing cures what is wrong here: the driven wheels slip/],
    ["limits", [PLAN], /^By these sums it may carry no passengers here: it has no brake\./],
    ["limits", [GALA], /^By these sums it may carry no passengers here/],
  ])("%s %j", async (command, args, first) => {
    expect(await firstOf(command, ...args)).toMatch(first);
  });
});

describe.concurrent("at most some sixty lines, and all with --all", () => {
  test.each(["check", "run"])("%s", async (command) => {
    const [short, long] = await Promise.all([linesOf(command, PLAN), linesOf(command, PLAN, "--all")]);
    expect(short.length).toBeLessThanOrEqual(60);
    expect(long.length).toBeGreaterThan(90);
  });
  test("check leads with five figures to measure, each with how", async () => {
    const lines = await linesOf("check", PLAN);
    const at = lines.indexOf("Measure first, of what is assumed");
    expect(at).toBeLessThan(6);
    const found = lines.slice(at + 1, lines.indexOf("", at));
    expect(found.filter((line) => /^ {2}\S/.test(line))).toHaveLength(5);
    expect(found.join(" ")).toMatch(/rolling resistance +taken as 0\.01: pull the train/);
  });
});

/** Run by a shell, from where it was printed, it begins with an answer of the next question. */
describe.concurrent("the next line can be pasted", () => {
  const changed = ["--set", "loco.gears.1.teeth=[11, 44]", "--rail", "wet", "--units", "metric"];
  test.each([
    ["check", "size"],
    ["run", "laps"],
    ["climb", "laps"],
    ["laps", "brakes"],
  ])("after %s comes %s", async (command, next) => {
    const line = await nextOf(command, PLAN, ...changed);
    expect(line).toMatch(new RegExp(` ${next} `));
    expect(line).toContain("--set 'loco.gears.1.teeth=[11, 44]' --rail wet --units metric");
    const { stdout } = await promisify(execFile)("sh", ["-c", line]);
    expect(stdout.length).toBeGreaterThan(500);
  });
  test("the last of all is the page, which leads no further", async () => {
    expect(await nextOf("trial", PLAN)).toMatch(/ report .*--out report$/);
  });
  test("a plan that was piped in is not asked again, and nothing is said where notes are not wanted", async () => {
    expect((await linesOf("check", "--quiet", PLAN)).join("\n")).not.toContain("Next:");
    const input = readFileSync(PLAN, "utf8").replaceAll(/: (\w+\.(?:yaml|csv))/g, `: ${SITE}$1`);
    const { status, stdout } = await rideon(["check", "-"], { input });
    expect([status, stdout.includes("Next:")]).toEqual([0, false]);
  });
  test.each(["size", "brakes", "climb"])("%s --help ends with a line that a shell runs", async (command) => {
    const line = (await linesOf(command, "--help")).at(-1)?.trim() ?? "";
    const [run = ""] = (await nextOf("check", PLAN)).split(" size ");
    const pasted = line.replace(/^rideon/, run).replace("plan.yaml", PLAN);
    const { stdout } = await promisify(execFile)("sh", ["-c", pasted]);
    expect(stdout.length).toBeGreaterThan(500);
  });
});

describe.concurrent("what is hardly meant is told", () => {
  test.each([
    ["upside down?", sets("loco.gears.1.teeth=[44, 11]", "loco.gears.2.teeth=[38, 12]")],
    ["is heavy for a loco of a 184.1 mm gauge", sets("loco.mass=9.5 t")],
    ["and the loco's mass is 165 kg in all", sets("loco.battery.each.capacity=600 Ah")],
    ["it hangs below the rail", sets("loco.gears.2.teeth=[12, 76]")],
  ])("%s", async (words, args) => {
    const { stderr } = await rideon(["check", PLAN, ...args]);
    expect(stderr.replaceAll(/\s+/g, " ")).toContain(words);
  });
  test("of the usual stock only what fits under the loco is tried", async () => {
    const { stdout } = await rideon(["gears", PLAN, "--json"]);
    const { rows } = JSON.parse(stdout);
    for (const { faults } of rows) expect(faults.map(({ code }: { code: string }) => code)).not.toContain("below_rail");
  });
});

test("the picture that the README opens with is what the command draws", async () => {
  const { stdout } = await rideon(["brakes", PLAN, "--rail", "wet", "--svg", "-"]);
  expect(readFileSync(join(SITE, "why-brakes.svg"), "utf8")).toBe(stdout);
});

test("the answers that the README shows are what the commands print, line for line", async () => {
  const readme = readFileSync(join(ROOT, "README.md"), "utf8");
  const shown = [...readme.matchAll(/ {4}npm run -s rideon -- ([^\n]*)\n\n```text\n([\s\S]*?)```/g)];
  expect(shown.length).toBeGreaterThanOrEqual(2);
  for (const [, line = "", text = ""] of shown) {
    const { stdout } = await shell(`"${process.execPath}" packages/sim-cli/bin/rideon.js ${line} --quiet`, ROOT);
    const printed = stdout.split("\n");
    const lines = text.trimEnd().split("\n");
    // What is left out stands as three dots.
    expect(lines.filter((each) => each !== "…" && !printed.includes(each))).toEqual([]);
  }
});

test("a run that goes below the reserve says so", async () => {
  const saturday = join(SITE, "saturday.yaml");
  expect((await linesOf("run", saturday, "--laps", "60", "--sure", "--quiet")).join("\n")).toContain(
    "BELOW the 50 % to be kept in reserve",
  );
  expect((await linesOf("run", saturday, "--sure", "--quiet")).join("\n")).not.toContain("BELOW");
});

test("with no brake the end of a line is reached only by shutting off in time, and that is said", async () => {
  const ends = ["--set", "track.kind=end-to-end", "--set", "track.at_ends=turn"];
  const text = (await rideon(["run", PLAN, ...ends])).stdout.replaceAll(/\s+/g, " ");
  expect(text).toMatch(
    /It has no brake: it comes to rest at the end of the line only because .* later than at .* it runs past the end\./,
  );
});
