import { lstatSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { putInto } from "../../packages/sim-cli/src/read/yaml/into.js";
import { emptyFolder, rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const PULLS = join(SITE, "pulls.csv");
const pulled = (text: string, ...args: string[]) => rideon(["pull", "-", "--mass", "600 kg", ...args], { input: text });

describe("pull", () => {
  test("tells rolling with its doubt first, the gradient of the place, and the lines to paste", async () => {
    const { status, stdout } = await rideon(["pull", PULLS, "--mass", "293 kg"]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(/^Rolling resistance 0\.01047 ± 0\.00059, to start 0\.01627 ± 0\.00086: 30\.1 N for 293 kg\./);
    expect(text).toContain("The place falls 1 in 187 going out.");
    expect(text).toMatch(/rolling: 0\.01047 ± 0\.00059 # measured \d{4}-\d\d-\d\d by spring balance, 6 pulls/);
  });

  test("what it puts into a file every command reads, and the bands of the answers narrow", async () => {
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const before = readFileSync(loco, "utf8");
    const width = async () => {
      const { stdout } = await rideon(["brakes", join(folder, "plan.yaml"), "--json", "--draws", "60"]);
      const { p05, p95 } = JSON.parse(stdout).bands.run_on_m;
      return p95 - p05;
    };
    const wide = await width();
    const { status, stdout } = await rideon(["pull", PULLS, "--mass", "293 kg", "--into", loco]);
    expect(status).toBe(0);
    expect(oneLine(stdout)).toMatch(/Changed in .* \+ rolling: 0\.01047 ± 0\.00059/);
    const after = readFileSync(loco, "utf8");
    // Nothing of the file went, and what came is a block of three lines.
    const added = after.split("\n").filter((line) => !before.split("\n").includes(line));
    expect(added).toHaveLength(3);
    expect(after.split("\n").filter((line) => !added.includes(line))).toEqual(before.split("\n"));
    expect(await width()).toBeLessThan(0.6 * wide);
  });

  test("one way alone tells neither, and says what to do", async () => {
    const { stdout } = await pulled("direction,steady_N\nout,60\nout,62\n");
    expect(oneLine(stdout)).toMatch(/^Pulled one way alone: .* Pull it back over the same place\./);
  });

  test("kilograms under newtons are warned of with the unit they may be in, and put into no file", async () => {
    // 3.5 and 5.3 kgf are 0.0098 of 450 kg.
    const text = "direction,steady_N,starting_N\nout,3.5,5.1\nback,5.3,6.9\n";
    const { status, stderr, stdout } = await pulled(text, "--mass", "450 kg", "--json");
    expect(status).toBe(0);
    expect(oneLine(stderr)).toContain(
      "stdin: warning: rolling resistance: 0.000997 is unusual; usual is 0.003 to 0.04. Were the readings made in N, as the heading says? Read in kgf they would make 0.00978.",
    );
    expect(JSON.parse(stdout).warnings).toMatchObject([{ code: "unusual" }, { code: "unusual" }]);
    const loco = join(siteFolder(), "loco.yaml");
    const before = readFileSync(loco, "utf8");
    const put = await pulled(text, "--mass", "450 kg", "--into", loco);
    expect([put.status, put.stdout, readFileSync(loco, "utf8")]).toEqual([2, "", before]);
    expect(oneLine(put.stderr)).toContain("Were the readings made in N, as the heading says? Read in kgf");
    const lines = oneLine((await pulled(text, "--mass", "450 kg")).stdout);
    expect(lines).toMatch(
      /Before anything goes into a file: .* To paste into the loco file, only if the heading is right/,
    );
    const right = await pulled(text.replaceAll("_N", "_kgf"), "--mass", "450 kg");
    expect(right.stderr).toBe("");
    // Pounds for kilograms lie among what is met with, and not on average track.
    const pounds = await pulled(text.replaceAll("_N", "_lbf"), "--mass", "450 kg");
    expect(oneLine(pounds.stderr)).toContain("0.00444 is less than on average club track, 0.008 to 0.02");
  });

  test("a pull to start that another unit would put right goes in where rolling is usual in the unit that was read", async () => {
    // 0.0100 to roll; 0.0290 to start is beyond 2.2 of 0.012, and 0.0132 in pounds.
    const text = "direction,steady_kgf,starting_kgf\nout,4.4,12.9\nback,4.6,13.1\n";
    const loco = join(siteFolder(), "loco.yaml");
    const put = await pulled(text, "--mass", "450 kg", "--into", loco);
    expect([put.status, put.stderr.includes("warning")]).toEqual([0, false]);
    // Pounds for kilograms flatter both, and the pull to start does not vouch for the rest.
    const double = await pulled("direction,steady_kgf,starting_kgf\nout,9.8,14\nback,10,14.2\n", "--mass", "450 kg");
    expect(oneLine(double.stderr)).toContain("Read in lbf they would make 0.00998");
  });

  test("one pull each way is no spread, and a place so steep that it is held back is told to be left", async () => {
    const { stdout } = await pulled("direction,steady_N\nout,60\nback,62\n");
    expect(oneLine(stdout)).toContain("one pull each way tells nothing of how unlike the next would be");
    expect(stdout).not.toContain("spread of the pulls");
    const { stderr } = await pulled("direction,steady_N\nout,160\nback,-40\n");
    expect(oneLine(stderr)).toContain("has to be held back, choose a flatter place");
  });

  test("a motor in mesh is said and counted", async () => {
    const { stdout } = await pulled("direction,steady_N\nout,60\nback,62\n", "--mesh", "in");
    expect(oneLine(stdout)).toContain("its drag and the chains' are in these figures");
    // The sums count that once more: it goes into no file.
    expect(stdout).not.toContain("To paste");
  });

  test.each([
    ["direction,steady_N\nout,6o\n", 2, "is not a number"],
    ["direction,steady_N\nout,-60\n", 2, "no less than 0"],
    ["direction,steady_N\n,60\n", 2, "direction: the cell is blank"],
    ["direction,steady_N,steady_kgf\nout,60,6\n", 1, "two columns"],
    ["direction,steady_N,starting_N\nout,60,40\nback,60,70\n", 2, "less to start than to keep rolling"],
    ["direction,steady_N\nout,60\nback,60\nup,60\n", 4, "a third direction"],
    ["run,steady_N\n1,60\n", 1, "a column direction is missing"],
  ])("%j is told with its line", async (text, line, message) => {
    const { status, stdout, stderr } = await pulled(text);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toContain(`stdin:${line}:`);
    expect(stderr).toContain(message);
  });

  test("a sheet that is not there is no plan that is missing", async () => {
    const { status, stderr } = await rideon(["pull", "nosuch.csv", "--mass", "3 kg"]);
    expect(status).toBe(1);
    expect(stderr).toBe("nosuch.csv: error: there is no such file\n");
  });

  test("without a mass it says which is wanted", async () => {
    const { status, stderr } = await rideon(["pull", PULLS]);
    expect(status).toBe(2);
    expect(stderr).toContain("the mass of what was pulled");
  });

  test("a link to a file stays one, and the file is written", async () => {
    const folder = siteFolder();
    const [loco, link] = [join(folder, "loco.yaml"), join(emptyFolder(), "link.yaml")];
    symlinkSync(loco, link);
    const { status } = await rideon(["pull", PULLS, "--mass", "293 kg", "--into", link]);
    expect([status, lstatSync(link).isSymbolicLink()]).toEqual([0, true]);
    expect(readFileSync(loco, "utf8")).toContain("rolling: 0.01047 ± 0.00059  # measured");
  });

  test("a file that cannot be written to is left as it was", async () => {
    const folder = emptyFolder();
    const file = join(folder, "loco.yaml");
    writeFileSync(file, "- a list\n");
    const { status, stderr } = await rideon(["pull", PULLS, "--mass", "293 kg", "--into", file]);
    expect(status).toBe(2);
    expect(stderr).toContain("no file of keys");
    expect(readFileSync(file, "utf8")).toBe("- a list\n");
  });
});

describe("putting a value into a file", () => {
  const put = (text: string, ...path: string[]) =>
    putInto(text, [{ path, value: "0.01 ± 0.001", comment: "measured today" }]).text;
  test.each([
    [
      "a value in its place, where it is from before where the old one was",
      "a: 1\nb:\n  c: 2 # from the maker\n",
      ["b", "c"],
      "a: 1\nb:\n  c: 0.01 ± 0.001  # measured today; before that: from the maker\n",
    ],
    [
      "an earlier measurement's comment replaced",
      "b:\n  c: 2  # measured in May\n",
      ["b", "c"],
      "b:\n  c: 0.01 ± 0.001  # measured today\n",
    ],
    [
      "a key at the head of its block",
      "# head\nb:\n  # in the block\n  d: 3\n",
      ["b", "c"],
      "# head\nb:\n  # in the block\n  c: 0.01 ± 0.001  # measured today\n  d: 3\n",
    ],
    [
      "an earlier measurement's comment replaced, and what stood before it kept",
      "b:\n  c: 2  # measured in May; before that: from the maker\n",
      ["b", "c"],
      "b:\n  c: 0.01 ± 0.001  # measured today; before that: from the maker\n",
    ],
    [
      "a value in braces, its key named behind them",
      "b: { c: 2, d: 3 }  # both guessed\n",
      ["b", "c"],
      "b: { c: 0.01 ± 0.001, d: 3 }  # both guessed; c measured today\n",
    ],
    [
      "a value in braces that was measured before, and another beside it",
      "b: { c: 2, d: 3 }  # both guessed; c measured in May; d measured in June\n",
      ["b", "c"],
      "b: { c: 0.01 ± 0.001, d: 3 }  # both guessed; c measured today; d measured in June\n",
    ],
    [
      "a value in a file whose lines end in two characters",
      "a: 1\r\nb:\r\n  c: 2 # mine\r\n",
      ["b", "c"],
      "a: 1\r\nb:\r\n  c: 0.01 ± 0.001  # measured today; before that: mine\r\n",
    ],
    ["a key in such a file", "b:\r\n  d: 3\r\n", ["b", "c"], "b:\r\n  c: 0.01 ± 0.001  # measured today\r\n  d: 3\r\n"],
    ["a block in such a file", "a: 1\r\n", ["b", "c"], "a: 1\r\nb:\r\n  c: 0.01 ± 0.001  # measured today\r\n"],
    ["a block at the end of the file", "a: 1", ["b", "c"], "a: 1\nb:\n  c: 0.01 ± 0.001  # measured today\n"],
    ["a key in braces", "b: { d: 3 }\n", ["b", "c"], "b: { c: 0.01 ± 0.001, d: 3 }  # c measured today\n"],
  ])("%s", (_, text, path, wanted) => {
    expect(put(text, ...path)).toBe(wanted);
  });
  test.each([
    ["- a\n", ["b"], "no file of keys"],
    ["b: 3\n", ["b", "c"], "no block of keys"],
    ["b: [1, 2]\n", ["b"], "no single value"],
  ])("%j is left alone", (text, path, message) => {
    expect(() => put(text, ...path)).toThrow(message);
  });
});
