import {
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawn, roundUp, scale } from "../../packages/sim-cli/src/charts/braille.js";
import { csvText } from "../../packages/sim-cli/src/files/csv.js";
import { wholeFiles } from "../../packages/sim-cli/src/files/files.js";
import { jsonDocument } from "../../packages/sim-cli/src/files/json.js";
import { placeBefore } from "../../packages/sim-cli/src/words/eyes.js";
import { table, wrap } from "../../packages/sim-cli/src/words/table.js";
import { plain } from "../../packages/sim-cli/src/words/terminal.js";
import { difference } from "../../packages/sim-cli/src/work/difference.js";

const word = fc.stringMatching(/^[a-z]{1,12}$/);

describe("text", () => {
  test("wrapped text keeps every word in order, and no line is too long that could be shorter", () => {
    const property = fc.property(fc.array(word, { minLength: 1 }), fc.integer({ min: 12, max: 60 }), (words, width) => {
      const lines = wrap(words.join(" "), width);
      expect(lines.join(" ").split(" ")).toEqual(words);
      expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(width);
    });
    fc.assert(property);
  });

  test("a table is never wider than its terminal while its words fit, and loses nothing", () => {
    const cell = fc.array(word, { minLength: 1, maxLength: 6 }).map((words) => words.join(" "));
    const rows = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 6 });
    const property = fc.property(rows, fc.integer({ min: 20, max: 120 }), (cells, width) => {
      const lines = table(cells, { width });
      expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(width);
      const letters = (text: string) => [...text].filter((each) => /[a-z]/.test(each)).sort();
      expect(letters(lines.join(""))).toEqual(letters(cells.flat().join("")));
    });
    fc.assert(property);
  });

  test("figures stand under each other's ends", () => {
    expect(
      table(
        [
          ["a", "1"],
          ["bb", "22"],
        ],
        { width: 40, right: [1] },
      ),
    ).toEqual(["a    1", "bb  22"]);
  });

  test("a terminal obeys nothing that a file holds", () => {
    expect(plain("Tea\u001b[31msel\r\n")).toBe("Tea\ufffd[31msel\ufffd\ufffd");
  });

  test("a place is told by the last named post before it", () => {
    const track = { distance_m: Float64Array.of(10, 50, 90), place: ["Shed", "", "Bank"] };
    expect([5, 10.2, 60, 89.8, 95].map((at_m) => placeBefore(track, at_m))).toEqual([
      "",
      "Shed",
      "past Shed",
      "Bank",
      "past Bank",
    ]);
  });
});

describe("pictures", () => {
  test("a curve from corner to corner fills the corners and nothing beside them", () => {
    // Unicode, Braille Patterns (chart U2800): dots 1-3 and 7 run down the left of a cell, 4-6 and 8 down its right.
    const lines = drawn({ x: [0, 1], y: [0, 1] }, { columns: 2, rows: 1, x: [0, 1], y: [0, 1] });
    expect(lines).toEqual([String.fromCharCode(0x2800 + 0x40 + 0x20, 0x2800 + 0x02 + 0x08)]);
  });

  test("values outside the frame lie on its edge", () => {
    expect([-5, 0, 0.5, 1, 9].map(scale([0, 1], 10))).toEqual([0, 0, 5, 10, 10]);
  });

  test("the top of a picture is round and never hides more than a hair", () => {
    const property = fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (value) => {
      expect(roundUp(value)).toBeGreaterThanOrEqual(0.99 * value);
      expect(roundUp(value)).toBeLessThanOrEqual(1.5 * value);
    });
    fc.assert(property);
  });
});

describe("documents", () => {
  test("CSV: seven figures, blanks for what does not exist, and no formulas for a spreadsheet", () => {
    const text = csvText([
      [1 / 3, -123456.789, 86400.05, Number.NaN, Number.POSITIVE_INFINITY, null, "=1+1", "-x", 'a "b", c'],
    ]);
    const [row] = parse(text) as string[][];
    expect(row).toEqual(["0.3333333", "-123456.8", "86400.05", "", "", "", "'=1+1", "'-x", 'a "b", c']);
  });

  test("JSON: what does not exist is null, however deep", () => {
    const heading = { command: "run", warnings: [], assumed: [], step_s: 0.05, step_error: null };
    const document = jsonDocument(heading, { a: Number.NaN, b: [{ c: Number.POSITIVE_INFINITY, d: 1 }] });
    expect(JSON.parse(document)).toMatchObject({ a: null, b: [{ c: null, d: 1 }], step_error: null });
  });

  test("the difference of two answers has the answer's shape; what has no counterpart is null", () => {
    const whole = { a: 3, b: { c: 2, word: "stalled" }, rows: [{ x: 5 }], more: [1, 2], gone: null };
    const half = { a: 1, b: { c: 2.5, word: "completed" }, rows: [{ x: 4 }], more: [1], gone: 3 };
    expect(difference(whole, half)).toEqual({
      a: 2,
      b: { c: -0.5, word: null },
      rows: [{ x: 1 }],
      more: null,
      gone: null,
    });
  });
});

describe("files", () => {
  const inFolder = (act: (folder: string) => void) => {
    const folder = mkdtempSync(join(tmpdir(), "rideon-files-"));
    try {
      act(folder);
    } finally {
      rmSync(folder, { recursive: true });
    }
  };

  const text = (path: string) => readFileSync(path, "utf8");

  test("appear whole, once all are written, in place of older ones", () =>
    inFolder((folder) => {
      const [a, b] = [join(folder, "a.csv"), join(folder, "b.json")];
      writeFileSync(a, "old");
      const files = wholeFiles();
      files.write(a, "new");
      files.write(b, "{}");
      expect(text(a)).toBe("old");
      expect(files.finish()).toEqual([a, b]);
      expect(readdirSync(folder).sort()).toEqual(["a.csv", "b.json"]);
      expect(text(a)).toBe("new");
    }));

  test("or not at all, with the folders made for them", () =>
    inFolder((folder) => {
      const [a, b] = [join(folder, "a.csv"), join(folder, "deep", "down", "b.csv")];
      writeFileSync(a, "old");
      const files = wholeFiles();
      files.write(a, "new");
      files.write(b, "new");
      files.discard();
      expect(readdirSync(folder)).toEqual(["a.csv"]);
      expect(text(a)).toBe("old");
    }));

  test("all or none, though what is in the way of the last came there after the first was begun", () =>
    inFolder((folder) => {
      const [a, b, c] = ["a.csv", "b.csv", "c.csv"].map((name) => join(folder, name)) as [string, string, string];
      writeFileSync(a, "old");
      const files = wholeFiles();
      for (const path of [a, b, c]) files.write(path, "new");
      mkdirSync(c);
      expect(() => files.finish()).toThrow(/c\.csv cannot be written: a folder of this name is in the way/);
      files.discard();
      expect(readdirSync(folder).sort()).toEqual(["a.csv", "c.csv"]);
      expect(text(a)).toBe("old");
    }));

  test("a folder or a device in the way is told before anything is written", () =>
    inFolder((folder) => {
      mkdirSync(join(folder, "a.csv"));
      symlinkSync("/dev/null", join(folder, "b.csv"));
      const files = wholeFiles();
      expect(() => files.open(join(folder, "a.csv"))).toThrow(/a folder of this name is in the way/);
      expect(() => files.open(join(folder, "b.csv"))).toThrow(/b\.csv cannot be written: it is no ordinary file/);
      files.discard();
    }));

  test("never take the place of a file that is read, by whatever name, nor of each other", () =>
    inFolder((folder) => {
      const plan = join(folder, "plan.yaml");
      writeFileSync(plan, "mine");
      linkSync(plan, join(folder, "hard.csv"));
      symlinkSync(plan, join(folder, "soft.csv"));
      symlinkSync(folder, join(folder, "round"));
      const files = wholeFiles([plan, join(folder, "not-there.csv")]);
      for (const name of ["plan.yaml", "hard.csv", "soft.csv", "round/plan.yaml"]) {
        expect(() => files.open(join(folder, name))).toThrow(/would take the place of .*plan\.yaml, which is read/);
      }
      files.open(join(folder, "a.csv"));
      expect(() => files.open(join(folder, "round", "a.csv"))).toThrow(/would be written twice/);
      files.discard();
      expect(readdirSync(folder).sort()).toEqual(["hard.csv", "plan.yaml", "round", "soft.csv"]);
    }));
});
