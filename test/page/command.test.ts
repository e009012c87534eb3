import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "../cli/command.js";
import { unclosed } from "./drawing.js";

const PLAN = join(SITE, "plan.yaml");
/** Little charge is soon run down. */
const LITTLE = ["--charge", "0.12"];

describe.concurrent("--svg", () => {
  test.each([
    ["run", ["lap", "energy"]],
    ["laps", ["charge"]],
    ["climb", ["effort", "load"]],
    ["gears", ["gears"]],
    ["brakes", ["stopping", "stopping"]],
  ])("%s: the picture alone, whole, in the file named and nowhere else", async (command, figures) => {
    const folder = emptyFolder();
    const { status, stdout } = await rideon([command, PLAN, "--svg", join(folder, "new", "picture.svg"), "--quiet"]);
    expect(status).toBe(0);
    expect(stdout).not.toContain("<svg");
    expect(stdout).not.toBe("");
    expect(readdirSync(join(folder, "new"))).toEqual(["picture.svg"]);
    const svg = readFileSync(join(folder, "new", "picture.svg"), "utf8");
    expect(unclosed(svg)).toEqual([]);
    expect(Array.from(svg.matchAll(/<g[^>]*data-figure="([^"]*)"/g), ([, name]) => name)).toEqual(figures);
  });
  test("- is standard output, with nothing else there", async () => {
    const { status, stdout } = await rideon(["climb", PLAN, "--svg", "-"]);
    expect(status).toBe(0);
    expect(stdout.trim()).toMatch(/^<svg[\s\S]*<\/svg>$/);
  });
  test("- beside --json is a wrong command line, told before anything runs", async () => {
    const { status, stdout, stderr } = await rideon(["run", PLAN, "--svg", "-", "--json"]);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("give --svg a file");
  });
  test("a place that cannot be written is told, status 3", async () => {
    const { status, stderr } = await rideon(["climb", PLAN, "--svg", "/proc/picture.svg"]);
    expect(status).toBe(3);
    expect(stderr).toContain("/proc/picture.svg cannot be written");
  });
});

describe.concurrent("report", () => {
  test("without a folder the page goes to standard output, and asks for no other file", async () => {
    const { status, stdout } = await rideon(["report", PLAN, "--quiet"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^<!doctype html>/);
    expect(stdout.length).toBeLessThan(4e5);
    expect(stdout).not.toMatch(/\s(?:src|href)="(?!#|data:)/);
    expect(stdout).not.toMatch(/@import|url\(/);
  });
  test("the policy of a page allows its own program by its hash, of a card none", async () => {
    const [page, card] = await Promise.all([
      rideon(["report", PLAN, "--quiet"]),
      rideon(["report", PLAN, "--quiet", "--card"]),
    ]);
    const policy = (html: string) => /Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1];
    const [, packed = "", unpacks = ""] =
      /<script type="text\/plain" id="program">(.*?)<\/script>\n<script>(.*?)<\/script>/s.exec(page.stdout) ?? [];
    const program = gunzipSync(Buffer.from(packed, "base64"));
    const hash = (of: string | Buffer) => createHash("sha256").update(of).digest("base64");
    expect(program.length).toBeGreaterThan(1000);
    expect(policy(page.stdout)).toContain(
      `script-src 'sha256-${hash(unpacks)}' 'sha256-${hash(program)}'; worker-src blob:;`,
    );
    expect(policy(card.stdout)).toContain("script-src 'none';");
    expect(card.stdout).not.toContain("<script");
  });
  test("with a folder it is one file there", async () => {
    const folder = emptyFolder();
    const { status, stdout, stderr } = await rideon(["report", PLAN, ...LITTLE, "--out", folder]);
    expect([status, stdout]).toEqual([0, ""]);
    expect(stderr).toContain(`written: ${join(folder, "report.html")}`);
    expect(readdirSync(folder)).toEqual(["report.html"]);
  });
  test("--strict makes its warnings status 1, the page written all the same", async () => {
    const folder = emptyFolder();
    const { status } = await rideon(["report", PLAN, ...LITTLE, "--out", folder, "--strict", "--card"]);
    expect(status).toBe(1);
    expect(existsSync(join(folder, "card.html"))).toBe(true);
  });
  // Steeper than grip allows, by its posts; but a fifth of the train's length, so the train feels a fifth of it.
  test("the card does not warn of a hump that the train is too long to feel", async () => {
    const folder = siteFolder();
    const posts = ["0,0,Wharf Lane", "100,0,Hump", "101.2,60,", "240,60,", "360,0,", "400,0,Wharf Lane"];
    writeFileSync(join(folder, "track.csv"), ["distance_m,height_mm,place", ...posts, ""].join("\n"));
    const path = join(folder, "plan.yaml");
    const [card, table] = await Promise.all([
      rideon(["report", path, ...LITTLE, "--card", "--quiet"]),
      rideon(["climb", path, "--json"]),
    ]);
    const row = JSON.parse(table.stdout).rows.find(({ passengers }: { passengers: number }) => passengers === 6);
    expect(row.restart_gradient_percent).toBeLessThan(5);
    expect(row.restarts_here).toBe(true);
    const [, most] = /Starts again<\/th><td>on the steepest bit with (\d+) on dry rail/.exec(card.stdout) ?? [];
    expect(Number(most)).toBeGreaterThanOrEqual(6);
  });
});
