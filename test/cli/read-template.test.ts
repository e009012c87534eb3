import { filesToStartFrom } from "@rideon/sim-cli/read";
import { createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { readWell } from "../support/folder.js";

const files = filesToStartFrom("schema/");

describe("files to start from", () => {
  test("make a train and a track as they are", () => {
    const { plan, loco, track } = readWell(files);
    expect(createPlan(plan, loco, track).notes.problems).toEqual([]);
  });

  test("name their schema in the first line, for editors", () => {
    expect(files["loco.yaml"].split("\n")[0]).toBe("# yaml-language-server: $schema=schema/loco.schema.json");
    expect(filesToStartFrom()["plan.yaml"]).toMatch(/^# yaml-language-server: \$schema=file:.*plan\.schema\.json\n/);
  });

  const lines = (["loco.yaml", "plan.yaml"] as const).flatMap((name) =>
    files[name]
      .split("\n")
      .flatMap((line, i) => (/^ *# (?!yaml-language)/.test(line) ? [{ name, i, line: line.trim() }] : [])),
  );
  test.each(lines)("$name: $line", ({ name, i }) => {
    const changed = files[name].split("\n").map((line, j) => (i === j ? line.replace("# ", "") : line));
    const { plan, loco, track } = readWell({ ...files, [name]: changed.join("\n") });
    expect(createPlan(plan, loco, track).notes.problems).toEqual([]);
  });

  test("with every # taken away at once", () => {
    const bare = (text: string) => text.replaceAll(/^( *)# (?!yaml-language)/gm, "$1");
    const { plan, loco } = readWell({
      ...files,
      "loco.yaml": bare(files["loco.yaml"]),
      "plan.yaml": bare(files["plan.yaml"]),
    });
    expect(loco.wiring?.breaker?.rating_A).toBe(63);
    expect(plan.drag_area_m2).toBe(0.7);
  });
});
