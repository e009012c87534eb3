import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, test } from "vitest";

/**
 * The floors of a package, lowest first: a file imports only from its own floor or below, and files never import in a
 * circle. An import of a type counts like any other.
 */
interface House {
  name: string;
  folder: string;
  floors: readonly { name: string; files: RegExp }[];
  /** What may be imported from outside the folder. */
  packages: readonly string[];
}

const CORE: House = {
  name: "the core",
  folder: "packages/sim-core/src",
  floors: [
    { name: "keys", files: /^(keys|defaults|parts\/(.*\.keys|constants|track\.columns|definitions))\.ts$/ },
    { name: "numbers and words", files: /^(errors|nearest|units\/.*|numeric\/.*|doubt\/(typed|book))\.ts$/ },
    { name: "strength", files: /^strength\/.*\.ts$/ },
    { name: "parts", files: /^parts\/.*\.ts$/ },
    { name: "the train and its drive", files: /^(state|drive\/.*|train\/.*)\.ts$/ },
    { name: "one working", files: /^(driver\/curve|event|working)\.ts$/ },
    { name: "motion", files: /^(loop\/(grip|standing)|motion)\.ts$/ },
    { name: "the driver", files: /^(driver\/.*|record\/balance)\.ts$/ },
    { name: "margins", files: /^margins\.ts$/ },
    { name: "the loop", files: /^loop\/.*\.ts$/ },
    { name: "run and its record", files: /^(record\/.*|run)\.ts$/ },
    { name: "studies", files: /^studies\/.*\.ts$/ },
    { name: "doubt", files: /^doubt\/.*\.ts$/ },
    { name: "the field", files: /^field\/.*\.ts$/ },
    { name: "index", files: /^index\.ts$/ },
  ],
  packages: [
    "ode-rk4",
    "pure-rand/distribution/uniformFloat64",
    "pure-rand/generator/xoroshiro128plus",
    "simple-statistics",
  ],
};

const COMMAND_LINE: House = {
  name: "the command line",
  folder: "packages/sim-cli/src",
  floors: [
    { name: "ground", files: /^ground\/.*\.ts$/ },
    { name: "read", files: /^read\/.*\.ts$/ },
    { name: "failure", files: /^failure\.ts$/ },
    { name: "files, words", files: /^(files\/.*|words\/.*|signals)\.ts$/ },
    { name: "pictures and pages", files: /^(charts|svg|html)\/.*\.ts$/ },
    { name: "work", files: /^work\/.*\.ts$/ },
    { name: "questions", files: /^questions\/(?!report\/)[^/]+\/.*\.ts$/ },
    { name: "report", files: /^questions\/report\/.*\.ts$/ },
    { name: "the list of questions", files: /^questions\/index\.ts$/ },
    { name: "main, and the program of threads", files: /^(questions\/table|completion|worker|main)\.ts$/ },
  ],
  packages: ["@rideon/sim-core", "commander", "csv-parse/sync", "csv-stringify/sync", "d3-scale", "yaml"],
};

const sources = ({ folder }: House): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((f) => f.endsWith(".ts") && !f.endsWith(".d.ts"));

/** What a file imports: files of its folder by their path in it, anything else as it is written. */
function imports({ folder }: House, file: string): string[] {
  const text = readFileSync(join(folder, file), "utf8");
  const found = text.matchAll(/^(?:import|(?:import|export|\}).* from) "([^"]+)";$|\bimport\("([^"]+)"\)/gm);
  const written = Array.from(found, ([, from, later]) => (from ?? later) as string);
  return [
    ...new Set(
      written.map((from) =>
        from.startsWith(".") ? relative(".", join(dirname(file), from)).replace(/\.js$/, ".ts") : from,
      ),
    ),
  ];
}

describe.each([CORE, COMMAND_LINE])("the floors of $name", (house) => {
  const files = sources(house);
  const floorOf = (file: string): number => house.floors.findIndex((floor) => floor.files.test(file));
  const edges = files.flatMap((file) => imports(house, file).map((to) => [file, to] as const));
  const own = edges.filter(([, to]) => files.includes(to));

  test("every file has one, and every floor a file", () => {
    expect(files.filter((file) => floorOf(file) < 0)).toEqual([]);
    const used = new Set(files.map(floorOf));
    expect(house.floors.filter((_, i) => !used.has(i)).map(({ name }) => name)).toEqual([]);
  });

  test("a file imports from its own floor or below", () => {
    const upward = own.filter(([file, to]) => floorOf(to) > floorOf(file)).map(([file, to]) => `${file} > ${to}`);
    expect(upward).toEqual([]);
  });

  test("nothing else comes from outside but known packages", () => {
    const outside = edges.filter(([, to]) => !files.includes(to) && !to.startsWith("node:")).map(([, to]) => to);
    expect([...new Set(outside)].filter((to) => !house.packages.includes(to))).toEqual([]);
  });

  test("no file imports itself in a circle", () => {
    const graph = new Map(files.map((file) => [file, own.filter(([from]) => from === file).map(([, to]) => to)]));
    expect(circles(graph)).toEqual([]);
  });
});

/** The files of every circle, each circle once: what can be reached from a file and reaches it again. */
function circles(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const reached = new Map<string, Set<string>>();
  for (const file of graph.keys()) {
    const seen = new Set<string>();
    const walk = (from: string) => {
      for (const next of graph.get(from) ?? []) if (!seen.has(next) && seen.add(next)) walk(next);
    };
    walk(file);
    reached.set(file, seen);
  }
  const within = (a: string, b: string) => reached.get(a)?.has(b) && reached.get(b)?.has(a);
  const caught = [...graph.keys()].filter((file) => within(file, file));
  return caught
    .map((file) => caught.filter((other) => within(file, other)))
    .filter((circle, i) => circle[0] === caught[i]);
}

describe("inside a floor", () => {
  test("circles are found, with types or without", () => {
    const graph = new Map([
      ["a", ["b"]],
      ["b", ["c"]],
      ["c", ["b", "d"]],
      ["d", []],
    ]);
    expect(circles(graph)).toEqual([["b", "c"]]);
  });

  test("parts do not know each other: they meet in drive/, train/ and motion.ts", () => {
    const part = (file: string) => file.replace(/^parts\//, "").split(".")[0];
    const isPart = (file: string) => CORE.floors.find(({ files }) => files.test(file))?.name === "parts";
    const strangers = sources(CORE)
      .filter(isPart)
      .flatMap((file) => imports(CORE, file).map((to) => [file, to] as const))
      .filter(([file, to]) => isPart(to) && part(file) !== part(to));
    expect(strangers).toEqual([]);
  });

  test("no question knows another, but for report, which is made of their sections", () => {
    const question = (file: string) => /^questions\/([^/]+)\//.exec(file)?.[1];
    const strangers = sources(COMMAND_LINE)
      .flatMap((file) => imports(COMMAND_LINE, file).map((to) => [file, to] as const))
      .filter(([file, to]) => question(file) && question(to) && question(file) !== question(to))
      .filter(([file]) => question(file) !== "report");
    expect(strangers).toEqual([]);
  });
});
