import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE } from "./command.js";

/** The lines of a help under a heading, down to the next blank one. */
const under = (help: string, heading: string): string[] => {
  const lines = help.split("\n");
  const at = lines.findIndex((line) => line.startsWith(heading));
  const end = lines.findIndex((line, i) => i > at && line.trim() === "");
  return lines.slice(at + 1, end).map((line) => line.trim());
};

const PLAN = join(SITE, "plan.yaml");
const READ: [question: string, more: string[], missing: string[]][] = [
  ["levels", [], ["known_level_mm", "distance_yd", "backsight_in", "slope_degrees"]],
  ["pull", ["--mass", "300 kg"], ["steady_lbf", "starting_N"]],
  ["coastdown", [], ["speed_kmh", "distance_ft", "from_ft"]],
  ["battery", [PLAN], []],
  ["compare", [PLAN], ["distance_yd", "speed_mph", "temperature_F", "time_ms"]],
];

describe.each(READ)("the help of %s", (question, more, units) => {
  const help = rideon([question, "--help"]).then(({ stdout }) => stdout);
  test("names its columns, each of which is read, and units that it tells", async () => {
    const named = under(await help, "Columns").map((line) => line.split(/\s/)[0] ?? "");
    expect(named.length).toBeGreaterThan(3);
    for (const column of [...named, ...units]) {
      const { stderr } = await rideon([question, "-", ...more], { input: `${column},strange\n1,1\n` });
      expect(stderr).not.toMatch(new RegExp(`: ${column}(?: is not a column|, strange are not)`));
    }
    for (const unit of units) expect(await help).toContain(unit.replace(/^.*_/, "_"));
  });
  test("shows first lines that are read as they stand", async () => {
    const lines = under(await help, "Its first lines");
    expect(lines.length).toBeGreaterThan(1);
    const { stderr } = await rideon([question, "-", ...more], { input: `${lines.join("\n")}\n` });
    expect(stderr).not.toMatch(/not a column|not a number|is missing|is blank/);
  });
});
