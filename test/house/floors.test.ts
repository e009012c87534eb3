import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, test } from "vitest";

/**
 * The floors of the core, lowest first: a file imports only from its own floor or below, and files never import in a
 * circle. Parts do not know each other: they meet in electrics.ts (and train.ts, which makes them) and in motion.ts.
 */
const FLOORS: readonly RegExp[] = [
  /^(keys|parts\/.*\.keys|parts\/constants|parts\/track\.columns)\.ts$/,
  /^(errors|units(\..*)?|numeric\/.*)\.ts$/,
  /^parts\/.*\.ts$/,
  /^(state|electrics|circuit|electric-brake|excitation|meshes|rolling|train|plan|line|pull|climbing|warnings|walls)\.ts$/,
  /^(working|hands|motion|standing|grip|balance|approach|limits|margins|lever|driver|marks|stall|events|bends|sound)\.ts$/,
  /^(stepper|step|slipping|trace|summary|run)\.ts$/,
  /^studies\/.*\.ts$/,
  /^index\.ts$/,
];

const core = join(import.meta.dirname, "../../packages/sim-core/src");
const cli = join(import.meta.dirname, "../../packages/sim-cli/src");

const sources = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((f) => f.endsWith(".ts") && !f.endsWith(".d.ts"));

/** Imported names of a file; `kept` are those that stay after types are taken out. */
function imports(folder: string, file: string): { from: string; kept: boolean }[] {
  const text = readFileSync(join(folder, file), "utf8");
  const found = text.matchAll(/^(import|export)\s(type\s)?([^;]*?)from "([^"]+)";/gms);
  return Array.from(found, ([, , type, names, from]) => ({
    from: from!,
    kept: !type && !/^\s*\{\s*(type [^,}]+,?\s*)+\}\s*$/.test(names!),
  }));
}

const local = (file: string, from: string): string => relative(".", join(dirname(file), from)).replace(/\.js$/, ".ts");

const floorOf = (file: string): number => FLOORS.findIndex((floor) => floor.test(file));

describe("the core's floors", () => {
  const files = sources(core);
  test("every file has one", () => {
    expect(files.filter((file) => floorOf(file) < 0)).toEqual([]);
  });
  test.each(files)("%s imports from its own floor or below", (file) => {
    for (const { from } of imports(core, file)) {
      if (!from.startsWith(".")) expect(["ode-rk4", "simple-statistics"]).toContain(from);
      else expect(floorOf(local(file, from)), `${file} imports ${from}`).toBeLessThanOrEqual(floorOf(file));
    }
  });
  test("parts do not know each other", () => {
    const part = (file: string) => file.replace(/^parts\//, "").split(".")[0];
    const strangers = files
      .filter((file) => file.startsWith("parts/") && !file.endsWith(".keys.ts"))
      .flatMap((file) =>
        imports(core, file)
          .filter((i) => i.kept && i.from.startsWith("./"))
          .map((i) => [file, local(file, i.from)] as const),
      )
      .filter(([file, other]) => part(file) !== part(other!) && floorOf(other!) === 2);
    expect(strangers).toEqual([]);
  });
  test("no file imports itself in a circle", () => {
    const graph = new Map(
      files.map((file) => [
        file,
        imports(core, file)
          .filter((i) => i.kept && i.from.startsWith("."))
          .map((i) => local(file, i.from)),
      ]),
    );
    const circles: string[] = [];
    const walk = (file: string, path: string[]) => {
      if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(" > "));
      else for (const next of graph.get(file) ?? []) walk(next, [...path, file]);
    };
    for (const file of files) walk(file, []);
    expect([...new Set(circles)]).toEqual([]);
  });
});

describe("the command line", () => {
  test("takes the core by its public names only", () => {
    const others = sources(cli).flatMap((file) =>
      imports(cli, file).filter((i) => i.from.includes("sim-core") && i.from !== "@rideon/sim-core"),
    );
    expect(others).toEqual([]);
  });
});
