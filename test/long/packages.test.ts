import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** The packages as somebody else has them: packed, and installed in a folder that knows nothing of this one. */
const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const TSC = join(dirname(createRequire(import.meta.url).resolve("typescript/package.json")), "bin", "tsc");
const folder = mkdtempSync(join(tmpdir(), "rideon-packed-"));
afterAll(() => rmSync(folder, { recursive: true }));

const NAMES = ["sim-core", "sim-cli"] as const;
const installed = (name: string) => join(folder, "node_modules", "@rideon", name);

beforeAll(() => {
  const tarballs = NAMES.map((name) => {
    const args = ["pack", "--json", "--pack-destination", folder, "-w", `packages/${name}`];
    const [{ filename }] = JSON.parse(execFileSync("npm", args, { cwd: ROOT, encoding: "utf8" }));
    return join(folder, filename);
  });
  writeFileSync(join(folder, "package.json"), '{ "name": "somebody", "version": "1.0.0", "private": true }');
  const quiet = ["--no-audit", "--no-fund", "--prefer-offline"];
  execFileSync("npm", ["install", ...quiet, ...tarballs], { cwd: folder, stdio: "pipe" });
});

const filesOf = (name: string): string[] =>
  readdirSync(installed(name), { recursive: true, encoding: "utf8" }).filter((file) => !file.includes("node_modules"));

describe.each(NAMES)("the tarball of %s", (name) => {
  test("has a README, a licence, and no tests, build notes or configuration", () => {
    const files = filesOf(name);
    expect(files).toEqual(expect.arrayContaining(["README.md", "LICENSE", "package.json"]));
    expect(files.filter((file) => /\.test\.|tsbuildinfo|tsconfig|^scripts|^live/.test(file))).toEqual([]);
  });

  test("has the sources of every source map in it", () => {
    const maps = filesOf(name).filter((file) => file.endsWith(".map"));
    expect(maps.length).toBeGreaterThan(100);
    const wanting = maps.flatMap((file) => {
      const {
        sources,
        sourceRoot = "",
        sourcesContent,
      } = JSON.parse(readFileSync(join(installed(name), file), "utf8"));
      const at = (source: string) => normalize(join(installed(name), dirname(file), sourceRoot, source));
      return sourcesContent ? [] : (sources as string[]).filter((source) => !existsSync(at(source)));
    });
    expect(wanting).toEqual([]);
  });
});

/** A caller with what the packages are used for; a wrong use beside each, which types alone can tell. */
const CALLER = `
import { createPlan, runOnce, type Plan, UnitError, quantity } from "@rideon/sim-core";
import { readPlan, ReadError, type Reading } from "@rideon/sim-cli/read";

const { plan, loco, track, tables }: Reading = readPlan("line/plan.yaml");
const ready: Plan = createPlan(plan, loco, track, tables);
const time_s: number = runOnce(ready).time_s;
// @ts-expect-error a number is no plan
runOnce(3);
// @ts-expect-error there is no such figure
runOnce(ready).no_such_figure;
// @ts-expect-error a speed has no such dimension
quantity("4 mph", "swiftness");
export const caught = (error: unknown): boolean => error instanceof UnitError || error instanceof ReadError;
export { time_s };
`;

describe("a caller's types", () => {
  test.each([
    ["a CommonJS caller under node16", "caller.cts", "node16"],
    ["a CommonJS caller under nodenext", "caller.cts", "nodenext"],
    ["an ES module under node16", "caller.mts", "node16"],
    ["an ES module under nodenext", "caller.mts", "nodenext"],
    ["an ES module that is bundled", "caller.mts", "esnext"],
  ])("%s", (_, file, module) => {
    const at = join(folder, `types-${module}-${file.replace(".", "-")}`);
    mkdirSync(at);
    writeFileSync(join(at, file), CALLER);
    const resolution = module === "esnext" ? ["--moduleResolution", "bundler"] : [];
    const strict = ["--strict", "--exactOptionalPropertyTypes", "--verbatimModuleSyntax", "false"];
    const options = ["--noEmit", "--target", "es2022", "--lib", "es2023", "--types", "", "--skipLibCheck", "false"];
    const args = [TSC, ...options, ...strict, "--module", module, ...resolution, join(at, file)];
    const { status, stdout } = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
    expect([status, stdout]).toEqual([0, ""]);
  });
});

/** The first block of a README in a language. */
const example = (name: string, language: string): string =>
  new RegExp(`\`\`\`${language}\n(.*?)\`\`\``, "s").exec(
    readFileSync(join(installed(name), "README.md"), "utf8"),
  )?.[1] ?? "";

/** A Node of this major version, from the package registry; nothing where none can be had. */
function nodeOf(major: number): string | undefined {
  const args = ["exec", "--yes", "--prefer-offline", `--package=node@${major}`, "--", "node", "-p", "process.execPath"];
  const { status, stdout } = spawnSync("npm", args, { cwd: tmpdir(), encoding: "utf8", timeout: 240_000 });
  const path = status === 0 ? stdout.trim().split("\n").at(-1) : undefined;
  const version = path && spawnSync(path, ["--version"], { encoding: "utf8" }).stdout;
  return version?.startsWith(`v${major}.`) ? path : undefined;
}

describe.each([20, 22, 24])("on Node %i", (major) => {
  const node = nodeOf(major);
  if (!node) console.warn(`the packages on Node ${major}: left out, for none can be had from the package registry`);

  /** Runs it in the installed folder. */
  const run = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(node ?? "", args, { cwd: folder, encoding: "utf8" });
    return { status, stdout, stderr };
  };
  const rideon = (...args: string[]) => run(join(installed("sim-cli"), "bin", "rideon.js"), ...args);
  const line = `line-${major}`;

  test.skipIf(!node)("the command starts a line and answers every question about it", () => {
    expect(rideon("new", line).status).toBe(0);
    for (const command of ["check", "run", "laps", "climb", "gears", "size", "brakes", "trial"]) {
      const { status, stdout, stderr } = rideon(command, join(line, "plan.yaml"), "--json");
      expect([command, status], stderr).toEqual([command, 0]);
      expect(JSON.parse(stdout)).toMatchObject({ command });
    }
    expect(rideon("report", join(line, "plan.yaml"), "--out", line, "--quiet").status).toBe(0);
    expect(readFileSync(join(folder, line, "report.html"), "utf8")).toContain('id="program">');
  });

  test.skipIf(!node)("the figures are those of the Node that built it", () => {
    const built = spawnSync(
      process.execPath,
      [join(ROOT, "packages/sim-cli/bin/rideon.js"), "run", "plan.yaml", "--json"],
      {
        ...{ cwd: join(folder, line), encoding: "utf8" },
      },
    );
    const { energy_balance: wanted, time_s } = JSON.parse(built.stdout);
    const found = JSON.parse(rideon("run", join(line, "plan.yaml"), "--json").stdout);
    // Sines and powers may differ in their last digit between versions of the engine.
    expect(found.time_s).toBeCloseTo(time_s, 6);
    for (const [name, value] of Object.entries(wanted as Record<string, number>))
      expect(Math.abs(found.energy_balance[name] - value), name).toBeLessThanOrEqual(
        1e-6 * Math.max(1, Math.abs(value)),
      );
  });

  test.skipIf(!node)("the examples of the READMEs run, by import and by require", () => {
    const core = example("sim-core", "js");
    writeFileSync(join(folder, "core.mjs"), core);
    writeFileSync(
      join(folder, "core.cjs"),
      core.replace(/import (\{.*?\}) from ("[^"]*");/g, "const $1 = require($2);"),
    );
    for (const file of ["core.mjs", "core.cjs"]) {
      const { status, stdout, stderr } = run(file);
      expect([status, stdout], stderr).toEqual([0, expect.stringMatching(/^completed \d/)]);
    }
    const reader = `${example("sim-cli", "js").replace("plan.yaml", `${line}/plan.yaml`)}console.log(answer.outcome);\n`;
    writeFileSync(join(folder, "reader.mjs"), reader);
    writeFileSync(
      join(folder, "reader.cjs"),
      reader.replace(/import (\{.*?\}) from ("[^"]*");/g, "const $1 = require($2);"),
    );
    for (const file of ["reader.mjs", "reader.cjs"]) {
      const { status, stdout, stderr } = run(file);
      expect([status, stdout], stderr).toEqual([0, "completed\n"]);
    }
  });
});
