import { describe, expect, test } from "vitest";
import { WIDE } from "../../packages/sim-cli/src/svg/draw.js";
import { labelled } from "../../packages/sim-cli/src/svg/labels.js";
import type { Point } from "../../packages/sim-cli/src/svg/thin.js";

const BOX = { left: 46, right: 674, top: 308, foot: 418 };
/** Volts of a log, of the sums, and what both leave open about them, as they were once drawn with names that touched. */
const DRAWN: readonly (readonly [name: string, points: readonly Point[]])[] = [
  [
    "left open, lower end",
    [
      [54.7, 374],
      [124.5, 374.8],
      [159.4, 378.2],
      [194.3, 378.7],
      [211.7, 381.9],
      [246.6, 382.5],
      [264.1, 383.7],
      [298.9, 384.1],
      [316.4, 382],
      [333.8, 380.9],
      [351.3, 381],
      [368.7, 378.6],
      [386.2, 377.4],
      [403.6, 376.9],
      [421.1, 371],
      [455.9, 370.6],
      [473.4, 369],
      [508.3, 368.8],
      [543.2, 371.7],
      [578.1, 372.1],
      [595.5, 375.5],
      [630.4, 375.9],
      [665.3, 375.4],
    ],
  ],
  [
    "left open, upper end",
    [
      [54.7, 347.7],
      [124.5, 348.2],
      [159.4, 351.2],
      [194.3, 351.6],
      [211.7, 354.4],
      [246.6, 355.1],
      [264.1, 356.2],
      [298.9, 356.5],
      [316.4, 354.7],
      [333.8, 353.7],
      [351.3, 353.7],
      [368.7, 351.5],
      [403.6, 350],
      [421.1, 343.6],
      [455.9, 343.7],
      [473.4, 342.1],
      [508.3, 342],
      [543.2, 344.7],
      [578.1, 344.9],
      [595.5, 348.2],
      [612.9, 348.8],
      [665.3, 348.4],
    ],
  ],
  [
    "by the sums",
    [
      [54.7, 360.9],
      [124.5, 361.5],
      [159.4, 364.7],
      [194.3, 365.2],
      [211.7, 368.2],
      [246.6, 368.8],
      [264.1, 370],
      [298.9, 370.3],
      [316.4, 368.4],
      [333.8, 367.3],
      [351.3, 367.3],
      [368.7, 365],
      [403.6, 363.4],
      [421.1, 357.3],
      [455.9, 357.2],
      [473.4, 355.6],
      [508.3, 355.4],
      [543.2, 358.2],
      [578.1, 358.5],
      [595.5, 361.9],
      [612.9, 362.3],
      [665.3, 361.9],
    ],
  ],
  [
    "logged",
    [
      [54.7, 370.1],
      [72.2, 369.4],
      [89.6, 369.6],
      [107.1, 367.1],
      [124.5, 366.2],
      [141.9, 364.1],
      [159.4, 360.2],
      [194.3, 360],
      [211.7, 358.3],
      [229.2, 358.3],
      [246.6, 357.7],
      [264.1, 360.1],
      [281.5, 361.1],
      [298.9, 361.1],
      [333.8, 365.3],
      [421.1, 364.8],
      [438.5, 363.7],
      [490.8, 364.6],
      [508.3, 367.4],
      [543.2, 368.2],
      [560.6, 369.2],
      [578.1, 372.9],
      [595.5, 371.8],
      [630.4, 373],
      [647.8, 372.5],
      [665.3, 373.1],
    ],
  ],
];
const LINES = DRAWN.map(([name, points]) => ({ name, points }));
/** As wide as bold letters are. */
const namesOf = (texts: readonly string[]) =>
  texts.filter(Boolean).map((text) => {
    const read = (name: string) => Number(new RegExp(` ${name}="([-\\d.]+)"`).exec(text)?.[1]);
    const said = />([^<]*)</.exec(text)?.[1] ?? "";
    return { said, x: read("x"), y: read("y"), width: 1.15 * 0.56 * WIDE.font_px * said.length };
  });

describe("names beside lines", () => {
  test("do not touch each other, however near the lines are", () => {
    const names = namesOf(labelled(LINES, [], WIDE, BOX));
    expect(names).toHaveLength(4);
    for (const [i, a] of names.entries())
      for (const b of names.slice(0, i)) {
        const clear = a.x + a.width < b.x || b.x + b.width < a.x || Math.abs(a.y - b.y) > WIDE.font_px;
        expect(clear, `${a.said} and ${b.said}`).toBe(true);
      }
  });
  test("are left out where the words below say what a line is", () => {
    const bare = LINES.map((each, i) => ({ ...each, bare: i < 2 }));
    expect(namesOf(labelled(bare, [], WIDE, BOX)).map(({ said }) => said)).toEqual(["by the sums", "logged"]);
  });
});
