import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ended, rideon, siteFolder, start, until } from "./command.js";

const swept = (cwd: string, ...args: string[]) => rideon(["sweep", "plan.yaml", ...args, "--ask", "climb"], { cwd });
const read = (...path: string[]) => readFileSync(join(...path), "utf8");

describe.concurrent("a sweep takes the place of nothing that is read", () => {
  test.each([
    ["plan.yaml", ["--vary", "passengers=1,2"]],
    ["./loco.yaml", ["--vary", "passengers=1,2"]],
    ["track.csv", ["--vary", "passengers=1,2"]],
    ["teasel-braked.yaml", ["--beside", "teasel-braked.yaml"]],
    ["cases.csv", ["--cases", "cases.csv"]],
    ["other.csv", ["--vary", "track.profile=track.csv,other.csv"]],
  ])("--svg %s, with %j", async (file, varied) => {
    const cwd = siteFolder();
    writeFileSync(join(cwd, "cases.csv"), "passengers\n1\n2\n");
    writeFileSync(join(cwd, "other.csv"), read(cwd, "track.csv"));
    const before = read(cwd, file);
    const { status, stdout, stderr } = await swept(cwd, ...varied, "--svg", file);
    expect([status, stdout, stderr]).toEqual([
      2,
      "",
      `rideon: error: ${file} would take the place of ${file.replace("./", "")}, which is read\n`,
    ]);
    expect(read(cwd, file)).toBe(before);
  });

  test("nor do its files in --out, nor one of them another's", async () => {
    const cwd = siteFolder();
    mkdirSync(join(cwd, "out"));
    writeFileSync(join(cwd, "out", "sweep.html"), read(cwd, "loco.yaml"));
    writeFileSync(join(cwd, "out", "sweep.csv"), read(cwd, "track.csv"));
    for (const [file, key] of [
      ["out/sweep.html", "loco"],
      ["out/sweep.csv", "track.profile"],
    ] as const) {
      const before = read(cwd, file);
      const { status, stderr } = await swept(cwd, "--vary", `${key}=${file}`, "--out", "out");
      expect([status, stderr]).toEqual([2, `rideon: error: ${file} would take the place of ${file}, which is read\n`]);
      expect(read(cwd, file)).toBe(before);
    }
    const own = await swept(cwd, "--vary", "passengers=1,2", "--out", "new", "--svg", "new/sweep.csv");
    expect([own.status, own.stderr]).toEqual([
      2,
      "rideon: error: new/sweep.csv would be written twice; give one of the two another name\n",
    ]);
    expect(existsSync(join(cwd, "new"))).toBe(false);
  });

  test("nor does what is gathered take the place of its shares", async () => {
    const cwd = siteFolder();
    for (const share of ["1/2", "2/2"])
      await swept(cwd, "--vary", "passengers=1,2", "--share", share, "--out", "shares");
    const share = "shares/sweep-1-of-2.csv";
    const before = read(cwd, share);
    const gather = ["sweep", "--gather", "shares/sweep-*-of-2.csv", "--out", "whole"];
    const { status, stderr } = await rideon([...gather, "--svg", share], { cwd });
    expect([status, stderr]).toEqual([2, `rideon: error: ${share} would take the place of ${share}, which is read\n`]);
    expect(read(cwd, share)).toBe(before);
    expect(readdirSync(cwd)).not.toContain("whole");
    // Gathered into the folder of the shares, and once more: what was gathered is no share.
    for (const out of ["shares", join(cwd, "shares")]) {
      const again = await rideon(["sweep", "--gather", "shares/*.csv", "--out", out], { cwd });
      expect([again.status, again.stdout.slice(0, 8)]).toEqual([0, "2 cases:"]);
    }
  });
});

test("a sweep's page tells of designs what they take from the shop, what is not listed, and what is warned of", async () => {
  const cwd = siteFolder();
  const loco = read(cwd, "loco.yaml");
  const braked = read(cwd, "teasel-braked.yaml");
  writeFileSync(join(cwd, "weak.yaml"), braked.replace("hand_force: 140 N", "hand_force: 40 N"));
  writeFileSync(join(cwd, "more-volts.yaml"), loco.replace("in_series: 2", "in_series: 3"));
  const beside = ["teasel-braked.yaml", "weak.yaml", "more-volts.yaml"].flatMap((file) => ["--beside", file]);
  const { status } = await swept(cwd, ...beside, "--out", "out");
  expect(status).toBe(0);
  const [, good = "", weak = "", volts = ""] = read(cwd, "out", "sweep.html").split("What is otherwise with ");
  expect(good).toMatch(/<li>brake: now none; then 224 N<\/li>/);
  expect(good).toMatch(/<li>brake resistor: now none; then 200 mohm; it must carry 75 A and turn 1200 W into heat/);
  expect(good).toMatch(/<li>sprocket, motor: now 11 teeth, 08B, bore \d+ mm \(needed\); then/);
  expect(good).toContain("Not on this list: chains or rods from axle to axle");
  expect(weak).toMatch(/<li>brake: now none; then 64 N, which will NOT do: \d+ N in all is wanted<\/li>/);
  expect(volts).toMatch(
    /<li>controller: now 75 A, 24 V; then 75 A, 36 V; it must stand \d+ V, the most that this battery comes to/,
  );
  expect(volts).toMatch(
    /not with the first:.*<li>a 24 V motor on a 36 V battery; its speed goes with the volts<\/li>/s,
  );

  // The other way about: what was there is gone, and something is wanted in its place.
  await rideon(
    [
      "sweep",
      "plan.yaml",
      "--set",
      "loco=teasel-braked.yaml",
      "--beside",
      "loco.yaml",
      "--ask",
      "climb",
      "--out",
      "back",
    ],
    { cwd },
  );
  expect(read(cwd, "back", "sweep.html")).toMatch(/<li>brake: now 224 N; then none; \d+ N is wanted<\/li>/);
});

test("a row that was changed is refused by its line, and a line that was deleted is worked out again", async () => {
  const cwd = siteFolder();
  const varied = ["--vary", "passengers=1..4", "--workers", "1"];
  const sweep = (...args: string[]) => swept(cwd, ...varied, ...args);
  await sweep("--out", "out");
  const path = join(cwd, "out", "sweep.csv");
  const whole = readFileSync(path, "utf8");
  expect(whole.split("\n")[1]).toMatch(/,why,check$/);
  const better = whole.replace(/^(3,3,)\d+/m, "$199");
  expect(better).not.toBe(whole);
  writeFileSync(path, better);
  const refused = await sweep("--out", "out");
  expect([refused.status, refused.stdout]).toEqual([2, ""]);
  expect(refused.stderr).toMatch(
    /^rideon: error: out\/sweep\.csv:5: this row is not as it was written, 3,3,99.*delete this line/,
  );
  expect(readFileSync(path, "utf8")).toBe(better);
  for (const gone of [/^3,.*\n/m, /^[123],.*\n/gm, /^[24],.*\n/gm]) {
    writeFileSync(path, better.replace(/^3,.*\n/m, "").replace(gone, ""));
    expect((await sweep("--out", "out")).stdout).toContain("4 cases: 4 completed");
    expect(readFileSync(path, "utf8")).toBe(whole);
  }

  for (const share of ["1/2", "2/2"]) await sweep("--share", share, "--out", "shares");
  const share = join(cwd, "shares", "sweep-2-of-2.csv");
  const right = readFileSync(share, "utf8");
  writeFileSync(share, right.replace(/^(3,3,)\d+/m, "$199"));
  const gather = () => rideon(["sweep", "--gather", "shares/sweep-*-of-2.csv", "--out", "shares"], { cwd });
  expect((await gather()).stderr).toContain("shares/sweep-2-of-2.csv:3: this row is not as it was written");
  writeFileSync(share, right);
  expect((await gather()).status).toBe(0);
  expect(read(cwd, "shares", "sweep.csv")).toBe(whole);
  writeFileSync(join(cwd, "shares", "sweep.csv"), better);
  expect((await gather()).stderr).toContain("shares/sweep.csv:5: this row is not as it was written");
});

test("interrupted, it says that the same command goes on from what is kept", async () => {
  const cwd = siteFolder();
  const varied = ["--vary", "passengers=0..7", "--vary", "rail=dry,wet", "--workers", "1", "--ask", "limits"];
  const interrupted = async (...args: string[]) => {
    const child = start(["sweep", "plan.yaml", ...varied, "--out", "out", ...args], { cwd });
    const end = ended(child);
    const path = join(cwd, "out", "sweep.csv");
    const before = existsSync(path) ? read(path).length : 0;
    await until(() => existsSync(path) && read(path).length > before + 200);
    child.kill("SIGINT");
    return end;
  };
  const first = await interrupted();
  expect(first.status).toBe(130);
  expect(first.stderr).toMatch(
    /^interrupted: \d+ of 16 cases stand in out\/sweep\.csv; the same command goes on from there\n$/,
  );
  expect((await interrupted("--quiet")).stderr).toBe("");
});

test("gathered with the options of its shares, the page has what each design takes, and imperial units where asked", async () => {
  const cwd = siteFolder();
  const options = ["--beside", "teasel-braked.yaml", "--vary", "passengers=2,4"];
  for (const share of ["1/2", "2/2"]) await swept(cwd, ...options, "--share", share, "--out", "shares");
  const gather = (...args: string[]) =>
    rideon(["sweep", "plan.yaml", "--gather", "shares/*-of-2.csv", "--ask", "climb", ...args], { cwd });
  const bare = await gather("--out", "bare");
  expect([bare.status, bare.stderr.includes("--beside among them, has it")]).toEqual([0, true]);
  expect((await gather(...options, "--out", "whole", "--units", "imperial")).status).toBe(0);
  await swept(cwd, ...options, "--out", "one");
  const other = await gather("--beside", "teasel-braked.yaml", "--out", "other");
  expect([other.status, other.stderr]).toEqual([
    2,
    "rideon: error: --gather: shares/sweep-1-of-2.csv is of another sweep than the options tell, or of files that have changed since\n",
  ]);
  const [page, one] = [read(cwd, "whole", "sweep.html"), read(cwd, "one", "sweep.html")];
  expect(read(cwd, "whole", "sweep.csv")).toBe(read(cwd, "one", "sweep.csv"));
  expect(one).toContain("<li>brake: now none; then 224 N</li>");
  // 224 N are 50.4 lbf, of 4.4482216 N each.
  expect(page).toContain("<li>brake: now none; then 50.4 lbf (224 N)</li>");
  expect((await rideon(["sweep", "--help"])).stdout.replaceAll(/\s+/g, " ")).toContain(
    "figures are in the units of their names",
  );
});
