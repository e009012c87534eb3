import type { EnergyBalance } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { energyFigure } from "../../packages/sim-cli/src/questions/run/energy.svg.js";
import { framed, NARROW, WIDE } from "../../packages/sim-cli/src/svg/draw.js";
import { FILLS, inkOn } from "../../packages/sim-cli/src/svg/fills.js";
import { luminance } from "../../packages/sim-cli/src/svg/ink.js";

/** Black and white by WCAG 2.2, "contrast ratio": 4.5 for text. */
const contrast = (a: string, b: string): number => {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
};

describe("fills of a bar", () => {
  const pairs = FILLS.flatMap((a, i) => FILLS.slice(i + 1).map((b, k) => ({ a, b, neighbours: k === 0 })));
  test("no two are alike, in colour or in grey", () => {
    expect(new Set(FILLS.map(({ colour, lines }) => `${colour} ${lines}`)).size).toBe(FILLS.length);
    for (const { a, b, neighbours } of pairs) {
      if (a.lines !== b.lines && !neighbours) continue;
      expect(Math.abs(luminance(a.colour) - luminance(b.colour)), `${a.colour} ${b.colour}`).toBeGreaterThan(0.1);
    }
  });
  test.each(FILLS)("what is written on $colour can be read", (fill) => {
    expect(contrast(fill.colour, inkOn(fill).replace("#fff", "#ffffff").replace("#000", "#000000"))).toBeGreaterThan(
      4.5,
    );
  });
});

/** Something in every row of the picture, much in some and little in others; one that is no row's own. */
const balance = {
  chemical_J: 16_000,
  battery_resistance_J: 100,
  controller_J: 100,
  copper_J: 2000,
  motor_drag_J: 3000,
  gears_J: 1200,
  slip_J: 100,
  rolling_J: 4000,
  curves_J: 80,
  air_J: 80,
  brakes_J: 900,
  potential_J: 2440,
  unheard_of_J: 2000,
};
/** Every other term is 0. */
const whole = new Proxy({} as EnergyBalance, {
  get: (_, term) => balance[term as keyof typeof balance] ?? 0,
  ownKeys: () => Object.keys(balance),
  getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
});

describe.each([
  ["wide", WIDE],
  ["narrow", NARROW],
] as const)("where the charge goes, %s", (_, sheet) => {
  const svg = framed(energyFigure(whole, 1, sheet), sheet);
  const rects = Array.from(
    svg.matchAll(/<rect ([^>]*)\/>(<path d="([^"]*)" stroke="#\w+")?/g),
    ([, rect, , lines]) => ({
      part: /data-part="([^"]*)"/.exec(rect!)?.[1],
      // Across by h, up by v.
      fill: `${/fill="([^"]*)"/.exec(rect!)![1]} ${/[hv]/.exec(lines ?? "")?.[0] ?? ""}`,
    }),
  );
  const numbers = Array.from(
    svg.matchAll(/<text x="([^"]*)" y="([^"]*)" text-anchor="(middle|end)"[^>]*font-weight="bold"[^>]*>(\d+)</g),
    ([, x, y, anchor, number]) => ({ x: Number(x), y: Number(y), anchor, number: Number(number) }),
  );
  test("every part has a fill of its own, and the same beside its name", () => {
    const bar = rects.filter(({ part }) => part !== undefined);
    const keys = rects.filter(({ part }) => part === undefined);
    expect(bar).toHaveLength(12);
    expect(new Set(keys.map(({ fill }) => fill)).size).toBe(12);
    expect(bar.map(({ fill }) => fill.slice(0, 7))).toEqual(keys.map(({ fill }) => fill.slice(0, 7)));
  });
  test("every part has its number, in the bar or above it, none upon another", () => {
    const bar = numbers.filter(({ anchor }) => anchor === "middle");
    expect(bar.map(({ number }) => number).sort((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
    for (const [i, one] of bar.entries()) {
      expect(one.x).toBeGreaterThan(0);
      expect(one.x).toBeLessThan(sheet.width_px - 4);
      for (const other of bar.slice(i + 1)) {
        if (other.y === one.y) expect(Math.abs(other.x - one.x), `${one.number}, ${other.number}`).toBeGreaterThan(13);
      }
    }
  });
});
