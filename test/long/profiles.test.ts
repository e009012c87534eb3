import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, siteFolder } from "../cli/command.js";

/** Tells at its end what it has used, on the last line of standard error. */
const METER = `data:text/javascript,${encodeURIComponent(`
  import { isMainThread } from "node:worker_threads";
  if (isMainThread) process.on("exit", () => {
    const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
    process.stderr.write(JSON.stringify({ cpu_s: (userCPUTime + systemCPUTime) / 1e6, most_MB: maxRSS / 1000 }) + "\\n");
  });
`)}`;

/** Runs `check` on a profile; seconds of the processor, since other programs may have it for most of a minute. */
async function checked(track: string) {
  const folder = siteFolder();
  writeFileSync(join(folder, "track.csv"), track);
  const { status, stdout, stderr } = await rideon(["check"], {
    cwd: folder,
    env: { NODE_OPTIONS: `--import=${METER}` },
  });
  const lines = stderr.trimEnd().split("\n");
  const { cpu_s, most_MB } = JSON.parse(lines.pop() ?? "{}");
  return { status, stdout, lines, cpu_s, most_MB };
}

const rows = (count: number, row: (i: number) => string) => Array.from({ length: count }, (_, i) => row(i)).join("");
const HEADER = "distance_m,height_m,radius_m,place\n";
/** A circuit of 400 m over two gentle humps. */
const posts = (count: number) =>
  HEADER +
  rows(count + 1, (i) => {
    const at = i / count;
    const curved = i % 7 === 0 ? "25" : "";
    return `${(400 * at).toFixed(6)},${(0.6 * (1 - Math.cos(4 * Math.PI * at))).toFixed(6)},${curved},\n`;
  });

describe("long profiles", () => {
  test("100,000 posts are checked within 2 s", async () => {
    // What else a machine does only adds to it: the least of three.
    const tried: number[] = [];
    for (let i = 0; i < 3; i++) {
      const { status, stdout, cpu_s } = await checked(posts(100_000));
      expect(status).toBe(0);
      expect(stdout).toContain("ruling gradient");
      tried.push(cpu_s);
    }
    expect(Math.min(...tried)).toBeLessThan(2);
  });

  test("ten times as many posts take about ten times as long, in a few hundred megabytes", async () => {
    const [some, many] = [await checked(posts(50_000)), await checked(posts(500_000))];
    expect(many.status).toBe(0);
    // What starting takes is in both.
    expect(many.cpu_s).toBeLessThan(12 * some.cpu_s);
    expect(many.most_MB).toBeLessThan(600);
  });

  test.each([
    ["no numbers", (i: number) => `x${i},y,,\n`, 2_000_000],
    ["a cell too many", (i: number) => `${i},0,,,1\n`, 1_000_000],
    ["a cell too few", () => "7\n", undefined],
    ["going nowhere", () => "0,0,,\n", 999_999],
    ["numbers to be read in two ways", (i: number) => `"1,${String(i % 1000).padStart(3, "0")}",0,,\n`, 1_000_000],
  ])("a million wrong rows, %s: the first twenty problems and their count, within 300 MB", async (_, row, count) => {
    const { status, lines, most_MB } = await checked(HEADER + rows(1_000_000, row));
    expect(status).toBe(1);
    expect(lines).toHaveLength(21);
    expect(lines[0]).toMatch(/^track\.csv: error: [\d,]+ problems, of which the first 20 are told$/);
    if (count !== undefined) expect(lines[0]).toContain(`${count.toLocaleString("en")} problems`);
    expect(lines[1]).toMatch(/^track\.csv:[23]: error: /);
    expect(most_MB).toBeLessThan(300);
  });

  test.each([
    ["steeper than 1 in 5", 0.3, 1, "error"],
    ["steeper than 1 in 25", 0.1, 0, "warning"],
  ])("a line that is %s all along is told by its first twenty stretches", async (limit, rise, wanted, severity) => {
    const { status, lines } = await checked(`distance_m,height_m\n${rows(100_001, (i) => `${i},${rise * (i % 2)}\n`)}`);
    expect(status).toBe(wanted);
    const told = lines.filter((line) => line.includes(limit));
    expect(told).toHaveLength(21);
    expect(told.filter((line) => /99980 more stretches/.test(line) && line.includes(`${severity}:`))).toHaveLength(1);
  });
});
