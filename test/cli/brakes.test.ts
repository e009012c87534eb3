import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Ended, emptyFolder, ended, rideon, SITE, siteFolder, start, until } from "./command.js";

const PLAN = join(SITE, "plan.yaml");
const SATURDAY = join(SITE, "saturday.yaml");

/** Keys that scripts rely on: they may gain others, never lose one of these. */
const BRAKES = ["rows", "worst", "not_fitted", "parking"];
const ROW = [
  "chainage_m",
  "speed_mps",
  "gradient_percent",
  "brakes",
  "stops",
  "distance_m",
  "time_s",
  "peak_deceleration_mps2",
  "top_speed_mps",
];
const PARKING = ["brakes", "holding_gradient_percent", "places_it_will_not_hold"];

/** Force at the rail of 150 N of hand: 150 × 8 × 0.8 × 0.25. */
const RAIL_N = 240;
const HAND_BRAKE = "loco.brakes=[{hand_force: 150 N, linkage_ratio: 8, linkage_efficiency: 0.8, block_friction: 0.25}]";
const STRONG_BRAKE = "loco.brakes=[{rail_force: 1500 N}]";
const FREE_RUNNING = [
  "--speed",
  "8 mph",
  "--set",
  "loco.resistance.rolling=0.004",
  "--set",
  "cars.Coach.rolling=0.004",
];

interface Row {
  chainage_m: number;
  direction: "out" | "back";
  speed_mps: number;
  brakes: string;
  rail: string;
  stops: boolean;
  distance_m: number | null;
  time_s: number | null;
  wheels_locked: boolean;
}

/** The same question is asked once, whoever tests its answer: no file changes. */
const asked = new Map<string, Promise<Ended>>();
function brakes(...args: string[]): Promise<Ended> {
  const key = JSON.stringify(args);
  const before = asked.get(key);
  if (before) return before;
  const now = rideon(["brakes", ...args], { env: { FORCE_COLOR: "1" } });
  asked.set(key, now);
  return now;
}

async function answerOf(...args: string[]) {
  const { status, stdout } = await brakes(...args, "--json");
  expect(status).toBe(0);
  expect(stdout).not.toMatch(/NaN|Infinity/);
  return JSON.parse(stdout);
}

/** A copy of the site with another line, short so that it is soon answered. Invented. */
function siteWith(posts: readonly string[], kind = "circuit"): string {
  const folder = siteFolder();
  writeFileSync(join(folder, "track.csv"), ["distance_m,height_mm,place", ...posts].join("\n"));
  const plan = readFileSync(join(folder, "plan.yaml"), "utf8");
  writeFileSync(join(folder, "plan.yaml"), plan.replace("  rail: dry", `  rail: dry\n  kind: ${kind}`));
  return folder;
}
// Nearly level, so that it comes to rest with every set.
const ROUND = siteWith(["0,0,Wharf Lane", "30,0,", "50,-100,Coppice", "70,-100,", "90,0,", "100,0,Wharf Lane"]);
const SHORT = join(ROUND, "plan.yaml");
const SHORT_SATURDAY = join(ROUND, "saturday.yaml");
/** A drag that somebody measured. */
const DRAG = ["--set", "loco.motor.nameplate.no_load_current=3 A"];
const ENDS = ["0,0,Shed", "30,0,", "70,-600,Brook", "100,-600,Field End"];
const SHORT_LINE = join(siteWith(ENDS, "end-to-end"), "plan.yaml");

const textOf = async (...args: string[]): Promise<string> => (await brakes(...args)).stdout;
const words = (text: string): string => text.replaceAll(/\s+/g, " ");
const setsOf = (rows: readonly Row[]): string[] => [...new Set(rows.map(({ brakes }) => brakes))];
const longest = (rows: readonly Row[]): number => Math.max(...rows.map(reach_m));
/** Where it never stops it goes on for ever. */
const reach_m = ({ distance_m }: Row): number => distance_m ?? Number.POSITIVE_INFINITY;

describe.concurrent("brakes --json", () => {
  test("has every key there is, and with no brake fitted says which sets are not", async () => {
    const answer = await answerOf(PLAN);
    expect(Object.keys(answer)).toEqual(expect.arrayContaining(BRAKES));
    expect(Object.keys(answer.rows[0])).toEqual(expect.arrayContaining(ROW));
    expect(Object.keys(answer.parking[0])).toEqual(expect.arrayContaining(PARKING));
    expect(answer).toMatchObject({ command: "brakes", format: 1, sight_m: 20, step_error: null });
    expect(answer.step_s).toBeGreaterThan(0);
    expect(setsOf(answer.rows)).toEqual(["none", "drag"]);
    expect(answer.not_fitted).toEqual(["electric", "loco", "all"]);
    expect(answer.parking.map(({ brakes }: { brakes: string }) => brakes)).toEqual(["none", "loco", "all"]);
    expect(answer.warnings.map(({ code }: { code: string }) => code)).toContain("no_brake");
  });

  test("worst is the longest stop of each set on each rail", async () => {
    const { rows, worst } = await answerOf(SHORT_SATURDAY);
    expect(setsOf(rows)).toEqual(["none", "drag", "electric", "loco", "all"]);
    expect(worst).toHaveLength(10);
    for (const each of worst as Row[]) {
      const { brakes, rail } = each;
      expect(reach_m(each)).toBe(longest(rows.filter((row: Row) => row.brakes === brakes && row.rail === rail)));
    }
  });

  // Kinematics: until the reaction time is over it keeps its speed, by a hundredth, and then grip takes at most μg (0.25
  // dry, 0.12 for stopping in the wet) from it; beside that, the climb of 1 in 71 and resistances of 3 %.
  test("no stop is shorter than the reaction and the grip of every wheel allow", async () => {
    const { rows, reaction_time_s } = await answerOf(SHORT_SATURDAY, "--set", STRONG_BRAKE);
    for (const { speed_mps, distance_m, rail } of rows as Row[]) {
      const kept_mps = 0.99 * speed_mps;
      const most_mps2 = 9.80665 * ((rail === "dry" ? 0.25 : 0.12) + 1 / 71 + 0.03);
      const least_m = kept_mps * reaction_time_s + kept_mps ** 2 / (2 * most_mps2);
      expect(distance_m ?? Number.POSITIVE_INFINITY).toBeGreaterThan(least_m);
    }
  });

  // Statics: what a brake of 240 N holds against gravity alone, 240 / (m g).
  test("parks on what the force at the rail holds, worked out by hand", async () => {
    const [{ parking }, checked] = await Promise.all([
      answerOf(SHORT, "--set", HAND_BRAKE),
      rideon(["check", SHORT, "--set", HAND_BRAKE, "--json"]),
    ]);
    const { train_mass_kg } = JSON.parse(checked.stdout);
    const [none, loco, all] = parking;
    expect(none).toMatchObject({ holding_gradient_percent: 0, chocks_wanted: true });
    expect(loco.holding_gradient_percent).toBeCloseTo((100 * RAIL_N) / (train_mass_kg * 9.80665), 6);
    expect(all).toEqual({ ...loco, brakes: "all" });
  });

  test("a train that gets faster for want of a brake does not stop, and has no distance", async () => {
    const { rows, worst, greatest_speed } = await answerOf(PLAN, ...FREE_RUNNING);
    const back = rows.find(({ brakes, stops }: Row) => brakes === "none" && !stops);
    expect(back).toMatchObject({ outcome: "rolls_back", distance_m: null, time_s: null });
    // What runs away before it stops is told before what rolls back elsewhere.
    const bare = worst.find(({ brakes }: Row) => brakes === "none");
    expect(bare.distance_m).toBeGreaterThan(100);
    expect(bare.top_speed_mps).toBeGreaterThan(1.1 * bare.speed_mps);
    expect(greatest_speed[0].speed_mps).toBeNull();
  });

  test("--sight is what it judges by; a longer one is passed by fewer places and lets it run faster", async () => {
    const [near, far] = await Promise.all([
      answerOf(SHORT, "--set", HAND_BRAKE, "--sight", "20 ft"),
      answerOf(SHORT, "--set", HAND_BRAKE, "--sight", "65 ft"),
    ]);
    expect([near.sight_m, far.sight_m]).toEqual([expect.closeTo(6.096, 9), expect.closeTo(19.812, 9)]);
    near.beyond_sight.forEach(({ places }: { places: unknown[] }, i: number) => {
      expect(places.length).toBeGreaterThanOrEqual(far.beyond_sight[i].places.length);
    });
    const ofLoco = ({ brakes }: { brakes: string }) => brakes === "loco";
    expect(near.greatest_speed.find(ofLoco).speed_mps).toBeLessThan(far.greatest_speed.find(ofLoco).speed_mps);
  });

  test("looks both ways along an end-to-end line", async () => {
    const { rows, remarks } = await answerOf(SHORT_LINE, "--set", HAND_BRAKE);
    expect(new Set(rows.map(({ direction }: Row) => direction))).toEqual(new Set(["out", "back"]));
    expect(remarks).toContain("ends_of_the_line_left_out");
  });

  test("--check-step gives the difference of every row's figures", async () => {
    const { rows, step_s, step_error } = await answerOf(SHORT, "--check-step");
    expect(step_error.rows).toHaveLength(rows.length);
    expect(step_error.step_s).toBeCloseTo(step_s / 2, 9);
    const moved = Math.max(...step_error.rows.map((row: Row) => Math.abs(row.distance_m ?? 0)));
    const stopped = rows.filter(({ stops }: Row) => stops);
    expect(moved).toBeGreaterThan(0);
    expect(moved).toBeLessThan(1e-3 * longest(stopped));
  });
});

describe.concurrent("a sight that is none", () => {
  test.each([
    ["65", "has no unit"],
    ["far", "write it like 20 m or 65 ft"],
    ["20 kg", "where a length is wanted"],
    ["0 m", "a length from 1 m to 1000 m"],
    ["-5 m", "a length from 1 m to 1000 m"],
    ["2 km", "a length from 1 m to 1000 m"],
    ["", "nothing is written here"],
  ])("2: %j", async (sight, hint) => {
    const { status, stdout, stderr } = await rideon(["brakes", PLAN, `--sight=${sight}`]);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^rideon: error: --sight[ :][^\n]+\n$/);
    expect(stderr).toContain(hint);
  });
});

describe.concurrent("brakes in words", () => {
  test("no brake: how far it runs, why, and what brake would do", async () => {
    const text = words(await textOf(PLAN));
    expect(text).toMatch(
      /^With no brake it runs [\d.]+ m \([\d.]+ ft\) from 4 mph .*, and reaches [\d.]+ mph .*, before it comes to a stand/,
    );
    expect(text).toMatch(/It has no brake; one of [\d.]+ N at the rail would stop it within the 20 m \(65\.6 ft\)/);
    expect(text).toContain("Why it matters: shutting the lever only takes the power off.");
    expect(text).toMatch(/The brake it wants .* N of the hand through a linkage of 8 to 1/);
    expect(text).toContain("No parking brake is described");
    expect(text).toContain("Not fitted: an electric brake, a brake on the loco, brakes on the cars.");
    expect(text).toContain("Prove it on your own track with nobody aboard");
  });

  test("no brake and a falling line: it cannot be stopped, by words and by mark", async () => {
    const text = await textOf(PLAN, ...FREE_RUNNING);
    expect(words(text)).toMatch(
      /^With no brake it runs [\d.]+ m .* from 8 mph \(3\.58 m\/s\) at .*, and reaches 1[\d.]+ mph .* it comes to a stand and rolls back\./,
    );
    expect(text).toMatch(/^ +stops in, m: no brake\n +[✕↑ ]*✕[✕↑ ]*\n/m);
    expect(words(text)).toContain("✕ does not stop at all");
    expect(text).toMatch(/^ +no brake +\S+ +[\d.]+ m /m);
  });

  test("one brake: told once though every brake is the same, dry and wet alike", async () => {
    const text = await textOf(SHORT, "--set", HAND_BRAKE);
    expect(words(text)).toMatch(
      /With the loco's brake it stops within [\d.]+ m \([\d.]+ ft\) everywhere, on dry rail and on wet\./,
    );
    expect(text).not.toContain("every brake");
    expect(text).not.toContain("The brake it wants");
    expect(words(text)).toContain("With the loco's brake on it stays everywhere here");
    expect(words(text)).toContain("With the loco's brake it stays below the dots everywhere.");
  });

  test("brakes on the cars are told apart from the loco's, and a guard is said to act with the driver", async () => {
    const guard = "cars.Coach.brakes=[{rail_force: 2000 N, by: guard}]";
    const text = await textOf(SHORT, "--set", HAND_BRAKE, "--set", guard);
    expect(text).toMatch(/^ +stops in, m: every brake$/m);
    expect(words(text)).toContain("The guard's brake is taken to go on 3 s after the driver acts");
    expect(text).toMatch(/^ +every brake .* slide /m);
    expect(words(text)).toMatch(/people standing recover without a step up to 1 m\/s² PASSED by every brake/);
  });

  test("an electric brake is said to be neither there at all times nor for parking", async () => {
    const text = words(await textOf(SHORT, "--set", "loco.controller.electric_brake=rheostatic"));
    expect(text).toContain("With the electric brake it stops within");
    expect(text).toContain("It has no other brake; one of");
    expect(text).toMatch(/not there when the breaker is open or the battery off, .* not a parking brake\./);
    expect(words(await textOf(PLAN))).not.toContain("generator");
  });

  // A set is told of where the drag is worth more than a hundredth of its worst stop; with a strong brake it is not.
  test("tells what the worst stop owes to the motor's drag, and only where it owes something", async () => {
    const counts = /With the loco's brake this counts the motor's own drag.*? without that the worst is ([\d.]+) m/;
    const [told] = (await answerOf(SHORT_SATURDAY, ...DRAG)).worst.filter(({ brakes }: Row) => brakes === "loco");
    expect(told.distance_without_drag_m).toBeGreaterThan(1.01 * told.distance_m);
    const [, said_m] = counts.exec(words(await textOf(SHORT_SATURDAY, ...DRAG))) ?? [];
    expect(Number(said_m)).toBeCloseTo(told.distance_without_drag_m, 1);
    const strong = ["--set", "loco.brakes=[{rail_force: 6000 N}]", "--rail", "dry"];
    expect(words(await textOf(SHORT, ...strong, "--set", "loco.motor.nameplate.no_load_current=0.1 A"))).not.toContain(
      "this counts the motor's own drag",
    );
  });

  test("draws every set on one scale, over the line with its places, sight across", async () => {
    const text = await textOf(SATURDAY);
    const panels = [...text.matchAll(/^ +stops in, m: (.*)$/gm)].map(([, set]) => set);
    expect(panels).toEqual(["no brake", "motor's drag", "electric brake", "loco's brake"]);
    expect(text.match(/^ +60 m│/gm)).toHaveLength(4);
    expect(text.match(/^ +sight│[⠀-⣿ ]+$/gm)).toHaveLength(4);
    expect(text).toMatch(/^ +1 in .*↗71/m);
    expect(text).toMatch(/↑Wharf Lane +↑Heron Bank/);
  });

  test("an end-to-end line is drawn out and back, and told both ways", async () => {
    const text = await textOf(SHORT_LINE);
    expect(words(text)).toContain("the way back begins in the middle");
    expect(text).toMatch(/^ +0 m +50 +100 +150/m);
    expect(words(text)).toContain("Places within sight of an end of the line are not judged");
  });

  test("a line shorter than the sight leaves nothing to judge", async () => {
    const text = words(await textOf(SHORT_LINE, "--sight", "200 m"));
    expect(text).toMatch(/^The end of this line is everywhere within sight/);
    expect(text).not.toContain("The worst of each");
  });

  test("a level line is called so, and nothing rolls off from it", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "track.csv"), "distance_m,height_m\n0,0\n100,0\n200,0\n");
    const text = words(await textOf(join(folder, "plan.yaml")));
    expect(text).toContain("Then only bearings and wheels hold it back");
    expect(text).toContain("nowhere here");
  });

  test.each([
    [[]],
    [["--units", "imperial"]],
    [["--check-step", "--quiet"]],
    [["--set", STRONG_BRAKE, ...FREE_RUNNING]],
    [["--lever", "0.5"]],
  ])("%j: plain, within 80 columns", async (more) => {
    const stdout = await textOf(more.length === 0 ? PLAN : SHORT, ...more);
    expect(stdout).not.toContain("\u001b");
    expect(stdout).not.toMatch(/undefined|NaN|\[object|null|Infinity|unlimited/);
    expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
  });

  test("a line there and back in feet: within 80 columns as well", async () => {
    const stdout = await textOf(SHORT_LINE, "--units", "imperial", ...FREE_RUNNING);
    expect(stdout.split("\n").filter((line) => line.length > 80)).toEqual([]);
  });

  test("--quiet leaves the notes out, --check-step tells what half a step changes", async () => {
    expect(await textOf(SHORT, "--check-step", "--quiet")).not.toContain("figures are assumed because");
    expect(words(await textOf(SHORT, "--check-step", "--quiet"))).toMatch(/Step 0\.1 s: /);
  });
});

test("brakes --out writes the answer alone; --strict gives 1 for warnings", async () => {
  const folder = emptyFolder();
  const { status, stderr } = await rideon(["brakes", PLAN, "--out", folder, "--strict"]);
  expect(status).toBe(1);
  expect(stderr).toContain("no brake is described");
  expect(readdirSync(folder)).toEqual(["answer.json"]);
  expect(JSON.parse(readFileSync(join(folder, "answer.json"), "utf8")).command).toBe("brakes");
});

test("brakes 130: interrupted among its stops it leaves nothing", async () => {
  const folder = emptyFolder();
  const child = start(["brakes", PLAN, "--step", "0.0005", "--out", join(folder, "results")]);
  const end = ended(child);
  await until(() => existsSync(join(folder, "results")));
  child.kill("SIGINT");
  expect(await end).toMatchObject({ status: 130, stdout: "" });
  expect(readdirSync(folder)).toEqual([]);
});

describe.concurrent("brakes and stops elsewhere", () => {
  test("check lists each brake, what it asks of its wheels, and which would lock", async () => {
    const brakes = ["--set", HAND_BRAKE, "--set", "cars.Coach.brakes=[{rail_force: 500 N, by: guard}]"];
    const { brakes: listed } = JSON.parse((await rideon(["check", PLAN, ...brakes, "--json"])).stdout);
    // Statics: force over weight, over the grip of 0.25 dry and 0.12 for stopping on wet rail.
    const loco_N = 247 * 9.80665;
    const car_N = (64 + 3 * 75) * 9.80665;
    const asked = (force_N: number, weight_N: number) =>
      [0.25, 0.12].map((grip) => expect.closeTo(force_N / (weight_N * grip), 9));
    expect(listed).toMatchObject([
      { vehicle: "Teasel", count: 1, rail_force_N: RAIL_N, by: "driver", use: "both" },
      { vehicle: "Coach", count: 2, rail_force_N: 500, by: "guard", use: "both" },
    ]);
    expect(
      listed.map((each: { grip_asked: { share: number }[] }) => each.grip_asked.map(({ share }) => share)),
    ).toEqual([asked(RAIL_N, loco_N), asked(500, car_N)]);
    const text = words((await rideon(["check", PLAN, ...brakes])).stdout);
    expect(text).toMatch(/Coach, each of 2 500 N at the rail, the guard's, .* LOCK them on wet rail/);
  });

  test("run and laps tell stops and who was carried", async () => {
    const run = (await rideon(["run", SATURDAY])).stdout;
    // Eight set out; five times five from Coppice and eight from Wharf Lane.
    expect(run).toMatch(/^carried +65 passengers, \d+ an hour, [\d.]+ Wh each$/m);
    expect(run).toMatch(/^ +262 m, Coppice +5 times/m);
    const once = (await rideon(["run", SATURDAY, "--laps", "1"])).stdout;
    expect(once).toMatch(/^ +262 m, Coppice .* 5 aboard$/m);
    const laps = (await rideon(["laps", SATURDAY, "--set", "duration=1 h"])).stdout;
    expect(laps).toMatch(/^carried +\d+ passengers, \d+ an hour/m);
    expect(laps).toMatch(/^Stops$/m);
  });

  test("a stop that cannot be made is told with its place", async () => {
    const fall = ["--set", "cars.Coach.count=6", "--passengers", "20", "--set", "loco.wheels.driven_axles=2"];
    const stops = ["--set", "stops=[{place: Coppice, dwell: 30 s}]"];
    for (const command of ["run", "laps"]) {
      const text = words((await rideon([command, PLAN, ...FREE_RUNNING, ...fall, ...stops])).stdout);
      expect(text).toMatch(/It cannot be stopped at Coppice.*; rideon brakes tells what would stop it\./);
      expect(text).toContain("passed Coppice at");
    }
  });
});
