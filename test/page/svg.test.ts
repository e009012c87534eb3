import { readPlan } from "@rideon/sim-cli/read";
import {
  brakes,
  climb,
  createPlan,
  laps,
  type Plan,
  type PlanDefinition,
  runOnce,
  tractiveEffort,
} from "@rideon/sim-core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pictureTaker } from "../../packages/sim-cli/src/charts/picture.js";
import { stoppingFigure } from "../../packages/sim-cli/src/questions/brakes/stopping.svg.js";
import { effortFigure } from "../../packages/sim-cli/src/questions/climb/effort.svg.js";
import { loadFigure } from "../../packages/sim-cli/src/questions/climb/load.svg.js";
import { chargeFigure } from "../../packages/sim-cli/src/questions/laps/charge.svg.js";
import { energyFigure } from "../../packages/sim-cli/src/questions/run/energy.svg.js";
import { lapFigure } from "../../packages/sim-cli/src/questions/run/lap.svg.js";
import { alone, type Figure, framed, NARROW, type Sheet, WIDE } from "../../packages/sim-cli/src/svg/draw.js";
import { INKS } from "../../packages/sim-cli/src/svg/ink.js";
import { type Point, straightened, thinned, UNSEEN_px } from "../../packages/sim-cli/src/svg/thin.js";
import { unitsFor } from "../../packages/sim-cli/src/svg/units.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { SITE } from "../cli/command.js";
import { panelOf, unclosed } from "./drawing.js";

const MPH_mps = 0.44704; // exactly: the international mile of 1609.344 m

const reading = readPlan(`${SITE}plan.yaml`);
const planOf = (change: Partial<PlanDefinition> = {}): Plan =>
  createPlan({ ...reading.plan, ...change }, reading.loco, reading.track, reading.tables);
const plan = planOf();
const seenOf = (own: Plan) => {
  const eyes = eyesFor("imperial", undefined, own.track);
  return { plan: own, eyes, units: unitsFor(eyes) };
};
const seen = seenOf(plan);
const taker = pictureTaker();
const ran = runOnce(plan, { every_s: 0.5, onRow: taker.row });
const picture = taker.taken();
const day = laps(plan);
const stops = brakes(plan);
const table = climb(plan, (passengers) => planOf({ passengers }), 8);
const effort = tractiveEffort(plan, table.ruling_gradient_compensated_percent / 100);

const figures: [string, (sheet: Sheet) => Figure][] = [
  ["lap", (sheet) => lapFigure(seen, picture, ran, sheet)],
  ["charge", (sheet) => chargeFigure(seen, day, sheet)],
  [
    "stopping",
    (sheet) =>
      stoppingFigure(
        seen,
        picture,
        stops.rows.filter(({ rail }) => rail === "dry"),
        20,
        sheet,
      ),
  ],
  ["effort", (sheet) => effortFigure(seen, effort, { wet_N: 180 }, sheet)],
  ["load", (sheet) => loadFigure(seen, table, { ...table, rail: "wet" }, sheet)],
  ["energy", (sheet) => energyFigure(ran.energy_balance, 1, sheet)],
];

/** Drawn to a tenth of a pixel, lines two wide: half a pixel is what a reader can tell. */
const HALF_px = 0.5;

describe("a drawing read back through its own axes", () => {
  const svg = framed(lapFigure(seen, picture, ran, WIDE), WIDE);
  const columns = [
    ["speed", "train", picture.speed_mps.map((each) => each / MPH_mps)],
    ["current", "motor", picture.motor_current_A],
    ["current", "battery", picture.battery_current_A],
    ["voltage", "battery", picture.battery_voltage_V],
    ["charge", "charge", picture.state_of_charge.map((each) => 100 * each)],
    ["winding", "winding", picture.winding_temperature_C],
  ] as const;
  test.each(columns)("%s of the %s: least and most are those of the trace", (name, line, values) => {
    const { value, lines } = panelOf(svg, name, "winding");
    const heights = lines.get(line)!.map(([, y]) => y);
    const aPixel = Math.abs(value(1) - value(0));
    expect(Math.abs(value(Math.min(...heights)) - Math.max(...values))).toBeLessThan(HALF_px * aPixel);
    expect(Math.abs(value(Math.max(...heights)) - Math.min(...values))).toBeLessThan(HALF_px * aPixel);
  });
  test("distance: every point of the speed stands where the trace has that speed", () => {
    const { value, along, lines } = panelOf(svg, "speed", "winding");
    const aPixel_m = along(1) - along(0);
    for (const [x, y] of lines.get("train")!) {
      const near = picture.run_m.flatMap((run, i) =>
        Math.abs(run - along(x)) < aPixel_m ? [picture.speed_mps[i]! / MPH_mps] : [],
      );
      expect(Math.min(...near.map((each) => Math.abs(each - value(y))))).toBeLessThan(Math.abs(value(1) - value(0)));
    }
  });
  test("charge of the day: the last lap stands where its row has it", () => {
    const drawn = framed(chargeFigure(seen, day, WIDE), WIDE);
    const { value, along, lines } = panelOf(drawn, "charge", "lap-winding");
    const [x, y] = lines.get("charge left")!.at(-1)!;
    expect(along(x)).toBeCloseTo(day.per_lap.at(-1)!.lap, 0);
    expect(value(y)).toBeCloseTo(100 * day.per_lap.at(-1)!.state_of_charge, 0);
  });
  test("stopping distances: each place of the drag's line stands as long as its row, or at the top", () => {
    const rows = stops.rows.filter(({ rail, brakes: set }) => rail === "dry" && set === "drag");
    const drawn = framed(stoppingFigure(seen, picture, rows, 20, WIDE), WIDE);
    const { value, along, lines } = panelOf(drawn, "stopping-without", "profile");
    const across_m = along(1) - along(0);
    const points = lines.get("motor's drag")!;
    const top_m = Math.min(50, 1.08 * Math.max(...rows.map(({ distance_m }) => distance_m!)));
    // Points on a straight line between others are left out: every place lies on what is drawn between them.
    const pixel = ({ chainage_m, distance_m }: (typeof rows)[number]): Point => [
      (chainage_m - along(0)) / across_m,
      (Math.min(distance_m!, top_m) - value(0)) / (value(1) - value(0)),
    ];
    expect(points.length).toBeGreaterThan(8);
    for (const row of rows) expect(offLine_px(pixel(row), points)).toBeLessThan(HALF_px + UNSEEN_px);
  });
});

/** From a point to the nearest of what is drawn from point to point. */
const offLine_px = ([x, y]: Point, line: readonly Point[]): number =>
  Math.min(
    ...line.slice(1).map(([x1, y1], i) => {
      const [x0, y0] = line[i]!;
      const square = (x1 - x0) ** 2 + (y1 - y0) ** 2;
      const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / square));
      return Math.hypot(x - x0 - share * (x1 - x0), y - y0 - share * (y1 - y0));
    }),
  );

describe("thinning", () => {
  test("what is left out of a line lies within a third of a pixel of what is drawn", () => {
    const wave = Array.from({ length: 600 }, (_, i): Point => [i, 40 * Math.sin(i / 30) + (i % 97 === 0 ? 5 : 0)]);
    const drawn = straightened(wave);
    expect(drawn.length).toBeLessThan(300);
    for (const point of wave) expect(offLine_px(point, drawn)).toBeLessThanOrEqual(UNSEEN_px);
  });
  test("keeps the least and the greatest of every pixel column, and its ends", () => {
    const ys = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 1, maxLength: 400 });
    fc.assert(
      fc.property(ys, fc.double({ min: 0.01, max: 2, noNaN: true }), (heights, apart) => {
        const points = heights.map((y, i) => [i * apart, y] as const);
        const kept = thinned(points);
        const columns = new Map<number, number[]>();
        for (const [x, y] of points) columns.set(Math.floor(x), [...(columns.get(Math.floor(x)) ?? []), y]);
        for (const [column, all] of columns) {
          const own = kept.filter(([x]) => Math.floor(x) === column).map(([, y]) => y);
          expect([Math.min(...own), Math.max(...own), own[0], own.at(-1)]).toEqual([
            Math.min(...all),
            Math.max(...all),
            all[0],
            all.at(-1),
          ]);
          expect(own.length).toBeLessThanOrEqual(4);
        }
        expect(kept.map(([x]) => x)).toEqual(kept.map(([x]) => x).sort((a, b) => a - b));
      }),
    );
  });
});

describe("inks", () => {
  // WCAG 2.2, "relative luminance"; 0.2 apart and unlike in dash is what the house asks.
  const luminance = (colour: string) => {
    const [r, g, b] = [1, 3, 5]
      .map((i) => Number.parseInt(colour.slice(i, i + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const pairs = INKS.flatMap((a, i) => INKS.slice(i + 1).map((b) => [a, b] as const));
  test.each(pairs)("%o and %o differ in luminance and in dash", (a, b) => {
    expect(Math.abs(luminance(a.colour) - luminance(b.colour))).toBeGreaterThan(0.2);
    expect("dash" in a ? a.dash : "").not.toBe("dash" in b ? b.dash : "");
  });
  // Okabe and Ito, "Color Universal Design (CUD)", 2008: the eight colours; white is paper.
  const PUBLISHED = ["#000000", "#E69F00", "#56B4E9", "#009E73", "#F0E442", "#0072B2", "#D55E00", "#CC79A7", "#FFFFFF"];
  test("are of the published set", () => expect(INKS.filter(({ colour }) => !PUBLISHED.includes(colour))).toEqual([]));
});

describe.each([
  ["wide", WIDE],
  ["narrow", NARROW],
] as const)("on a %s sheet", (_, sheet) => {
  test.each(figures)(
    "%s: units on every axis, words that say what to see, nothing outside its frame",
    (_name, draw) => {
      const figure = draw(sheet);
      const svg = framed(figure, sheet);
      expect(unclosed(svg)).toEqual([]);
      expect(figure.see.length).toBeGreaterThan(40);
      expect(svg).toContain(`<desc id="${sheet.id}-${figure.name}-desc">`);
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      for (const [, panel] of svg.matchAll(/data-panel="([^"]*)"/g))
        expect(panelOf(svg, panel!, lastFoot(svg)).heading).toMatch(/, \S+$/);
      const xs = Array.from(svg.matchAll(/<(?:text|rect|circle) c?x="([\d.-]+)"/g), ([, x]) => Number(x));
      expect(Math.min(...xs)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...xs)).toBeLessThanOrEqual(sheet.width_px);
    },
  );
});

/** The panel that carries the distances of all. */
const lastFoot = (svg: string): string =>
  Array.from(svg.matchAll(/data-panel="([^"]*)"/g), ([, name]) => name!).at(-1)!;

describe("a train that does not stop", () => {
  // A yard, 200 m at 1 in 50 down from it, and an end: no rolling resistance of 1 in 100 holds that.
  const track = {
    distance_m: [0, 100, 300, 400],
    height_m: [4, 4, 0, 0],
    curvature_radpm: [0, 0, 0, 0],
    limit_mps: Array<number>(4).fill(Number.POSITIVE_INFINITY),
    place: ["Yard", "Brow", "Foot", "End"],
  };
  const definition = { ...reading.plan, track: { ...reading.plan.track, kind: "end-to-end" as const } };
  const own = createPlan(definition, reading.loco, track, reading.tables);
  const out = pictureTaker();
  runOnce(own, { every_s: 0.5, onRow: out.row });
  const rows = brakes(own).rows.filter(({ rail, brakes: set }) => rail === "dry" && set === "none");
  const figure = stoppingFigure(seenOf(own), out.taken(), rows, 20, WIDE);
  test("is one that runs away", () => expect(rows.some(({ stops: does }) => !does)).toBe(true));
  test("runs off the top with the speed it reaches written on it", () => {
    const most = Math.max(...rows.filter(({ stops: does }) => !does).map(({ top_speed_mps }) => top_speed_mps));
    expect(figure.body).toContain('data-never="none"');
    expect(figure.body).toContain(`RUNS AWAY, reaches ${seen.eyes.speed(most)}`);
  });
});

describe("names that people type", () => {
  const hostile = `</title><script>alert(1)</script>"'&\u202e\u0000`;
  const track = { ...reading.track, place: reading.track.place.map((name) => (name === "" ? "" : hostile)) };
  const own = createPlan(reading.plan, { ...reading.loco, name: hostile }, track, reading.tables);
  const svg = alone([lapFigure(seenOf(own), picture, ran, WIDE)], WIDE);
  test("stay text", () => {
    expect(svg).not.toContain("<script");
    expect(svg).toContain("&lt;/title&gt;&lt;script");
    expect(unclosed(svg)).toEqual([]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
    expect(svg).not.toMatch(/[\u0000\u202e]/);
  });
});
