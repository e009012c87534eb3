import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");

/** A book that is read from standard input. */
const levelsOf = (book: string, ...args: string[]) => rideon(["levels", "-", ...args], { input: book });

const HEAD = "distance_m,backsight_m,intermediate_m,foresight_m,known_level_m,place\n";

describe("levels", () => {
  test("closes first, then the steepest with its doubt, and the checks at its foot", async () => {
    const { status, stdout } = await rideon(["levels", join(SITE, "book.csv")]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(
      /^The book ends 4 mm above its bench mark; 15\.1 mm are allowed\. It is accepted, and spread by distance\./,
    );
    expect(text).toContain("The steepest is 1 in 71.1 (1 in 70.7 to 1 in 71.4), from 128 m to 166 m.");
    expect(text).toContain("All three agree, over 3 set-ups.");
    expect(text).not.toMatch(/-0\.000|down level/);
  });

  test("its profile is one that every command takes, and gives the levels of the demo", async () => {
    const folder = siteFolder();
    const { status } = await rideon(["levels", join(folder, "book.csv"), "--out", folder]);
    expect(status).toBe(0);
    const { stdout } = await rideon(["check", join(folder, "plan.yaml"), "--json"]);
    const own = JSON.parse((await rideon(["check", join(SITE, "plan.yaml"), "--json"])).stdout);
    const found = JSON.parse(stdout);
    expect(found.track_length_m).toBe(396);
    expect(found.ruling_gradient.gradient_percent).toBeCloseTo(own.ruling_gradient.gradient_percent, 2);
  });

  test("the document has points, gradients, what it misses by and its checks", async () => {
    const { stdout } = await rideon(["levels", join(SITE, "book.csv"), "--json"]);
    const { command, points, misclosure_m, allowed_m, accepted, checks, gradients } = JSON.parse(stdout);
    expect(command).toBe("levels");
    expect(Object.keys(points[1])).toEqual(expect.arrayContaining(["place", "distance_m", "level_m", "doubt_m"]));
    expect([misclosure_m, accepted, checks.agree]).toEqual([expect.closeTo(0.004, 9), true, true]);
    expect(allowed_m).toBeCloseTo(0.024 * Math.sqrt(0.396), 9);
    expect(gradients).toHaveLength(12);
  });

  test("a book that misses by more than its class is not accepted, and not spread unless that is asked", async () => {
    const book = `${HEAD}0,1.5,,,10,A\n50,1.4,,1.2,,B\n100,,,1.65,10,A\n`;
    const { stdout } = await levelsOf(book);
    expect(oneLine(stdout)).toContain("NOT accepted, and not spread");
    const spread = oneLine((await levelsOf(book, "--adjust", "setups")).stdout);
    expect(spread).toContain("NOT accepted, and spread by set-ups");
    const strict = oneLine(
      (await levelsOf(`${HEAD}0,1.5,,,10,A\n50,1.4,,1.2,,B\n100,,,1.703,10,A\n`, "--class", "1 n")).stdout,
    );
    expect(strict).toContain("no more than 1.41 mm are allowed");
  });

  test("one that closes on nothing says that no wrong reading would show", async () => {
    const { stdout } = await levelsOf(`${HEAD}0,1.5,,,,A\n50,,,1.2,,B\n`);
    expect(oneLine(stdout)).toMatch(/^The book closes on nothing: no reading that is wrong would show\./);
  });

  test("an inverted reading is negative, and lies above the staff's foot", async () => {
    const { stdout } = await levelsOf(
      `${HEAD}0,1.5,,,10,rail\n20,,-2.1,,,under the bridge\n40,,,1.4,,rail\n`,
      "--json",
    );
    const [, under] = JSON.parse(stdout).points;
    expect(under.level_m).toBeCloseTo(13.6, 9);
  });

  test("a water tube is a book of its own, and an inclinometer is told for what it is", async () => {
    const tube = await levelsOf(
      "distance_m,tube_back_mm,tube_ahead_mm,place\n0,,,A\n10,300,200,B\n20,250,310,C\n",
      "--json",
    );
    expect(
      JSON.parse(tube.stdout).points.map(({ level_m }: { level_m: number }) => Number(level_m.toFixed(6))),
    ).toEqual([0, 0.1, 0.04]);
    const { stdout } = await levelsOf("distance_m,slope_percent,place\n0,1,A\n10,-0.5,B\n20,,C\n");
    expect(oneLine(stdout)).toContain("cannot tell 1 in 100 from 1 in 85 by itself");
    expect(oneLine(stdout)).toContain("up 1 in 100 (1 in 85.1 to 1 in 121)");
  });

  test.each([
    ["a staff of 14 m", `${HEAD}0,1.5,,,,A\n50,,,14.2,,B\n`, 3, "longer than any staff"],
    ["a reading in the wrong column", `${HEAD}0,1.5,,,,A\n50,1.2,,,,B\n60,,,1.1,,C\n`, 3, "no foresight beside it"],
    [
      "a foresight that goes nowhere",
      `${HEAD}0,1.5,,,,A\n50,,,1.2,,B\n60,,,1.1,,C\n`,
      3,
      "no backsight begins the next",
    ],
    ["both at once", `${HEAD}0,1.5,,,,A\n50,1.3,1.2,1.2,,B\n60,,,1.1,,C\n`, 3, "side by side"],
    ["no first backsight", `${HEAD}0,,,,,A\n50,,,1.2,,B\n`, 2, "begins with a backsight"],
    ["distances that go back", `${HEAD}0,1.5,,,,A\n50,,1.2,,,B\n40,,,1.1,,C\n`, 4, "no further on"],
    ["no readings", "distance_m,place\n0,A\n", 1, "there are no readings"],
    ["no unit", "distance_m,backsight,foresight_m\n0,1.5,\n", 1, "did you mean backsight_m"],
    ["a tube read at one end", "distance_m,tube_back_mm,tube_ahead_mm\n0,,\n10,300,\n", 3, "both its ends"],
  ])("%s is told with its line, and nothing is written", async (_, book, line, message) => {
    const folder = emptyFolder();
    const { status, stdout, stderr } = await levelsOf(book, "--out", join(folder, "survey"));
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(new RegExp(`stdin:${line}:`));
    expect(stderr).toContain(message);
    expect(existsSync(join(folder, "survey", "track.csv"))).toBe(false);
  });

  test("never writes over the book it reads", async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "track.csv"), `${HEAD}0,1.5,,,,A\n50,,,1.2,,B\n`);
    const before = readFileSync(join(folder, "track.csv"), "utf8");
    const { status } = await rideon(["levels", join(folder, "track.csv"), "--out", folder]);
    expect(status).not.toBe(0);
    expect(readFileSync(join(folder, "track.csv"), "utf8")).toBe(before);
  });
});
