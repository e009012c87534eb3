import { execFileSync, spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { emptyFolder } from "../cli/command.js";
import { recipe } from "../support/recipes.js";

// The README's Indexed Job, which no test runs, against Kubernetes' own API: the types that kubernetes-types makes of the
// published OpenAPI definitions of Kubernetes 1.30, in which no field may stand that they do not have.
const TYPES = fileURLToPath(new URL("../../node_modules/kubernetes-types/", import.meta.url));
const TSC = fileURLToPath(new URL("../../node_modules/typescript/bin/tsc", import.meta.url));
const JOB = parse(recipe("kubernetes"));

type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

/** The same with something else in one place, for every place that has one. */
function* changed(value: Json, change: (at: Json) => Json | undefined, path = "job"): Generator<[string, Json]> {
  const other = change(value);
  if (other !== undefined) yield [path, other];
  if (typeof value !== "object" || value === null) return;
  for (const [key, inner] of Object.entries(value))
    for (const [at, each] of changed(inner, change, `${path}.${key}`))
      yield [at, Array.isArray(value) ? value.with(Number(key), each) : { ...value, [key]: each }];
}

const isObject = (value: Json) => typeof value === "object" && value !== null && !Array.isArray(value);
const STRAY = [...changed(JOB, (value) => (isObject(value) ? { ...(value as object), stray: 1 } : undefined))];
const MISTAKEN = [...changed(JOB, (value) => (typeof value === "object" ? undefined : { mistaken: true }))];

describe("the Indexed Job", () => {
  test("has the fields of the published API, each of its kind, and no others", () => {
    const folder = emptyFolder();
    const compilerOptions = { strict: true, noEmit: true, module: "preserve", types: [], skipLibCheck: true };
    writeFileSync(join(folder, "tsconfig.json"), JSON.stringify({ compilerOptions }));
    const write = (name: string, job: unknown) =>
      writeFileSync(
        join(folder, `${name}.ts`),
        `import type { Job } from "${TYPES}batch/v1";\nexport const job: Job = ${JSON.stringify(job)};\n`,
      );
    write("job", JOB);
    for (const [i, [, job]] of STRAY.entries()) write(`stray-${i}`, job);
    for (const [i, [, job]] of MISTAKEN.entries()) write(`mistaken-${i}`, job);
    const { stdout } = spawnSync(process.execPath, [TSC, "-p", folder, "--pretty", "false"], { encoding: "utf8" });
    const refused = (name: string) => stdout.split("\n").filter((line) => line.includes(`${name}.ts(`));
    expect(refused("job")).toEqual([]);
    // Whatever place of it has a field that the API has not, or a value of another kind, is refused.
    expect(STRAY.length).toBeGreaterThan(8);
    expect(
      STRAY.filter((_, i) => !/"stray"' does not exist in type/.test(refused(`stray-${i}`).join())).map(([at]) => at),
    ).toEqual([]);
    expect(MISTAKEN.filter((_, i) => refused(`mistaken-${i}`).length === 0).map(([at]) => at)).toEqual([]);
  });

  /** What the API says of a field. */
  function saidOf(file: string, field: string): string {
    const text = readFileSync(join(TYPES, `${file}.d.ts`), "utf8");
    const [said = ""] = new RegExp(`/\\*\\*(?:(?!\\*/)[^])*\\*/\\s*${field}`).exec(text) ?? [];
    return said;
  }

  test("has values that the API knows, and keeps to what it says of them", () => {
    const { completionMode, completions, parallelism, backoffLimitPerIndex, podReplacementPolicy, template } = JOB.spec;
    expect(saidOf("batch/v1", "completionMode\\?: string")).toContain(`or \`${completionMode}\``);
    expect(saidOf("batch/v1", "podReplacementPolicy\\?: string")).toContain(`- ${podReplacementPolicy} means to wait`);
    // Retries by the index want a job that has indices, and pods that are not restarted in place.
    expect(saidOf("batch/v1", "backoffLimitPerIndex\\?: number")).toMatch(
      new RegExp(`completionMode=${completionMode}, and the Pod's restart policy is ${template.spec.restartPolicy}\\.`),
    );
    for (const count of [completions, parallelism, backoffLimitPerIndex]) expect(Number.isInteger(count)).toBe(true);
    expect(parallelism).toBeLessThanOrEqual(completions);
    expect(JOB).toMatchObject({ apiVersion: "batch/v1", kind: "Job" });
    // Double $$ are reduced to one: what is left is for the shell.
    expect(saidOf("core/v1", "args\\?: Array<string>")).toContain("Double $$ are reduced to a single $");
    const [{ volumeMounts }] = template.spec.containers;
    expect(template.spec.volumes.map(({ name }: { name: string }) => name)).toEqual(
      volumeMounts.map(({ name }: { name: string }) => name),
    );
  });

  test("works out every share once", () => {
    const [{ command, args }] = JOB.spec.template.spec.containers;
    const line = `${command.slice(2).join(" ")}${args.join(" ")}`;
    // The index stands in JOB_COMPLETION_INDEX, and counts from 0: Kubernetes documentation, "Indexed Job for Parallel
    // Processing with Static Work Assignment".
    const shares = Array.from(
      { length: JOB.spec.completions },
      (_, index) =>
        execFileSync("sh", ["-c", line.replace(/^rideon/, "echo").replaceAll("$$", "$")], {
          env: { ...process.env, JOB_COMPLETION_INDEX: String(index) },
          encoding: "utf8",
        }).match(/--share (\S+)/)?.[1],
    );
    expect(shares).toEqual(["1/4", "2/4", "3/4", "4/4"]);
  });
});
