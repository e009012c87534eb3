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

  test("so is that of a circuit in yards and feet that begins away from 0 and has names with marks in them", async () => {
    const folder = siteFolder();
    const book = [
      "distance_yd,backsight_ft,intermediate_ft,foresight_ft,known_level_ft,place",
      '100,4.12,,,100,"Wharf ""Lane"", old"',
      "150,,4.9,,,",
      "200,5.2,,4.4,,Halt # 2",
      "300,,4.32,,,",
      "400,4.0,,5.9,,",
      '533,,,3.02,100,"Wharf ""Lane"", old"',
    ].join("\n");
    writeFileSync(join(folder, "book.csv"), book);
    const levelled = await rideon(["levels", join(folder, "book.csv"), "--out", folder]);
    expect([levelled.status, levelled.stdout.includes("-0.000")]).toEqual([0, false]);
    for (const question of ["check", "run", "climb", "brakes"]) {
      const { status, stderr } = await rideon([question, join(folder, "plan.yaml"), "--json"]);
      expect([question, status, /error:/.test(stderr)]).toEqual([question, 0, false]);
    }
    const { stdout } = await rideon(["check", join(folder, "plan.yaml"), "--json"]);
    expect(JSON.parse(stdout).track_length_m).toBeCloseTo(433 * 0.9144, 3);
  });

  test("one that was not accepted is taken as it is, and check tells by how much it does not close", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "book.csv"), `${HEAD}0,1.5,,,10,A\n50,1.4,,1.2,,B\n100,,,1.65,10,A\n`);
    await rideon(["levels", join(folder, "book.csv"), "--out", folder]);
    const { status, stderr } = await rideon(["check", join(folder, "plan.yaml")]);
    expect([status, oneLine(stderr)]).toEqual([
      1,
      expect.stringContaining("the circuit ends 50 mm higher than it starts"),
    ]);
  });

  test("one that was not accepted says so in its profile, and nobody rides by it, spread or not", async () => {
    const folder = siteFolder();
    const book = join(folder, "book.csv");
    writeFileSync(book, readFileSync(book, "utf8").replace("128,1.655,,0.937", "128,1.655,,1.237"));
    const { stdout } = await rideon(["levels", book, "--out", folder]);
    expect(oneLine(stdout)).toContain("the whole of 296 mm is counted in the doubt of every level and gradient there");
    const track = readFileSync(join(folder, "track.csv"), "utf8");
    expect(track).toContain("# NOT accepted: it misses by 296 mm, and 15.1 mm are allowed.");
    // From Wharf Lane to the post at 24 m: 296 mm, and two readings of 2 mm.
    expect(track).toMatch(/^0,0,1\.23\d,not accepted,Wharf Lane$/m);
    const plan = join(folder, "plan.yaml");
    writeFileSync(
      plan,
      readFileSync(plan, "utf8").replace("profile: track.csv", "profile: track.csv\n  spread_misclosure: yes"),
    );
    const limits = await rideon(["limits", plan]);
    expect(oneLine(limits.stdout)).toMatch(/^By these sums it may carry no passengers here/);
    expect(oneLine(limits.stderr)).toContain("the profile is not good enough to act on");
    // Nor where somebody takes the doubt out of the file.
    writeFileSync(join(folder, "track.csv"), track.replaceAll(/^(\d[\d.]*,[-\d.]+),[\d.]*,/gm, "$1,,"));
    expect(oneLine((await rideon(["limits", plan])).stdout)).toMatch(/^By these sums it may carry no passengers here/);
    const picture = (await rideon(["levels", book, "--svg", "-"])).stdout;
    expect(picture).toContain("NOT accepted: it misses by 296 mm");
  });

  test("one that closes on nothing says so in its profile, whose doubt is that of a reading that is wrong", async () => {
    const folder = siteFolder();
    const book = join(folder, "book.csv");
    writeFileSync(book, readFileSync(book, "utf8").replace("1.771,0,Wharf", "1.771,,Wharf"));
    await rideon(["levels", book, "--out", folder]);
    expect(readFileSync(join(folder, "track.csv"), "utf8")).toContain("# NOT checked: it closes on nothing");
    const { stdout } = await rideon(["limits", join(folder, "plan.yaml")]);
    expect(oneLine(stdout)).toMatch(/^By these sums it may carry no passengers here/);
  });

  /** Invented: long reaches, over which a foresight that is 0.2 m wrong is little of a gradient. */
  const FAR = `${HEAD}0,1.412,,,0,Wharf Lane\n128,1.655,,0.937,,Heron Bank\n262,0.87,,1.225,,Coppice\n396,,,1.571,0,Wharf Lane\n`;
  const SLOPES =
    "distance_m,slope_percent,known_level_m,place\n0,0.3,0,Wharf Lane\n128,0.3,,\n262,-0.588,,\n396,,0,Wharf Lane\n";
  const TUBE =
    "distance_m,tube_back_mm,tube_ahead_mm,known_level_m,place\n0,,,0,Wharf Lane\n128,310,100,,\n262,300,200,,\n396,110,420,0,Wharf Lane\n";
  const open = (book: string) => book.replace(/,0,Wharf Lane\n$/, ",,Wharf Lane\n");

  test.each([
    [
      "not accepted, and spread all the same",
      FAR,
      ["--adjust", "distance"],
      "not accepted",
      /levelling was not accepted/,
    ],
    [
      "that ends on a bench mark beside the line, without a distance",
      FAR.replace("396,,,1.571,0,Wharf Lane", "396,1.2,,1.571,,Coal Stage\n,,,1.2,0,Wharf Lane"),
      [],
      "not accepted",
      /levelling was not accepted/,
    ],
    [
      "accepted by a class that no surveyor has",
      FAR,
      ["--class", "1000"],
      "not accepted",
      /levelling was not accepted/,
    ],
    ["a staff's that closes on nothing", open(FAR), [], "not closed", /levelling closes on nothing/],
    ["a water tube's that closes on nothing", open(TUBE), [], "not closed", /levelling closes on nothing/],
    ["an inclinometer's that closes on nothing", open(SLOPES), [], "not closed", /levelling closes on nothing/],
  ])(
    "nobody rides by a book %s, however far its posts are apart, and every command warns",
    async (_, book, args, word, why) => {
      const folder = siteFolder();
      writeFileSync(join(folder, "book.csv"), book);
      const { status } = await rideon(["levels", join(folder, "book.csv"), ...args, "--out", join(folder, "lv")]);
      const [head = "", first = ""] = readFileSync(join(folder, "lv", "track.csv"), "utf8")
        .split("\n")
        .filter((line) => !line.startsWith("#"));
      expect([status, head]).toEqual([0, "distance_m,height_m,gradient_doubt_percent,levelling,place"]);
      expect(first.split(",")[3]).toBe(word);
      // What is told does not hang on the doubt: it is taken out.
      const path = join(folder, "lv", "track.csv");
      writeFileSync(path, readFileSync(path, "utf8").replaceAll(/^(\d[\d.]*,[-\d.]+),[\d.]*,/gm, "$1,,"));
      const plan = [join(folder, "plan.yaml"), "--set", `track.profile=${path}`, "--set", "track.kind=end-to-end"];
      const limits = await rideon(["limits", ...plan, "--json"]);
      const found = JSON.parse(limits.stdout);
      expect([found.may_carry, found.most_aboard]).toEqual([false, 0]);
      expect(found.aboard.at(-1)).toMatchObject({ limit: "survey", most: 0 });
      for (const question of ["limits", "check", "climb", "brakes", "run"]) {
        const { stderr, stdout } = await rideon([question, ...plan]);
        expect(oneLine(stderr), question).toMatch(/the profile is not good enough to act on/);
        expect(oneLine(stderr), question).toMatch(why);
        if (question === "limits")
          expect(oneLine(stdout)).toMatch(/^By these sums it may carry no passengers here: its levelling/);
        if (question === "check") expect(oneLine(stdout)).toMatch(/survey levelling NOT/);
      }
    },
  );

  test("page, card and sweep say why nobody rides by it", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "book.csv"), FAR);
    await rideon(["levels", join(folder, "book.csv"), "--adjust", "distance", "--out", folder]);
    const plan = join(folder, "plan.yaml");
    await rideon(["report", plan, "--out", join(folder, "page")]);
    const page = readFileSync(join(folder, "page", "report.html"), "utf8");
    expect(page).toContain("By these sums it may carry no passengers here: its levelling was not accepted.");
    expect(page).toContain("NO PASSENGERS: its levelling was not accepted.");
    const swept = oneLine((await rideon(["sweep", plan, "--vary", "passengers=0,2", "--ask", "limits,check"])).stdout);
    expect(swept).toContain("stands on a survey that is not good enough to judge by");
    expect(swept).toContain("its levelling was not accepted");
  });

  test.each([
    ["staff", FAR.replace("1.571", "1.775"), /Sight the first place again at the end/],
    ["tube", TUBE, /Bring the tube round to the first place again/],
    ["inclinometer", SLOPES, /no slope that is wrong would show\. On a circuit, end with the first place again/],
  ])(
    "a book of a %s that closes has no word of that in its profile, and is told how to close where it does not",
    async (_, book, how) => {
      const folder = emptyFolder();
      const to = join(folder, "lv");
      await levelsOf(book, "--out", to);
      expect(readFileSync(join(to, "track.csv"), "utf8")).toMatch(
        /^distance_m,height_m,gradient_doubt_percent,place$/m,
      );
      const { stdout } = await levelsOf(open(book), "--out", to);
      expect(oneLine(stdout)).toMatch(how);
      expect(readFileSync(join(to, "track.csv"), "utf8")).toMatch(/^# NOT checked: it closes on nothing/m);
    },
  );

  test("behind the last bench mark alone nothing closes", async () => {
    const to = join(emptyFolder(), "lv");
    await levelsOf("distance_m,slope_percent,known_level_m\n0,1,0\n100,1,1\n200,1,\n300,,\n", "--out", to);
    const rows = readFileSync(join(to, "track.csv"), "utf8")
      .split("\n")
      .filter((line) => /^\d/.test(line));
    expect(rows.map((row) => row.split(",")[3])).toEqual(["", "not closed", "not closed", ""]);
  });

  test("a slope steeper than clubs lay them is warned of with its line", async () => {
    const { status, stderr } = await levelsOf("distance_m,slope_percent\n0,1.4\n100,14\n200,-3.9\n300,\n");
    expect(status).toBe(0);
    expect(oneLine(stderr).match(/stdin:\d+: warning:/g)).toEqual(["stdin:3: warning:"]);
    expect(oneLine(stderr)).toContain(
      "a slope of 14 % is 1 in 7.21, steeper than 1 in 25; is that so, or is its point or its unit wrong?",
    );
  });

  test("says which sights closing does not check, which the steepest gradient rests on, and warns of one out of line", async () => {
    const book = readFileSync(join(SITE, "book.csv"), "utf8");
    const text = oneLine((await levelsOf(book)).stdout);
    expect(text).toContain(
      "Closing does not check intermediate sights, 24 m, 58 m (Sallow Curve), 96 m, 166 m, 198 m (Top Signal), 226 m, 300 m, 338 m (Mill Leat) and 372 m: a staff misread at one of them moves that place alone, and shows nowhere. The steepest gradient rests on 166 m: read it again.",
    );
    const wrong = await levelsOf(book.replace("166,,1.120", "166,,2.912"), "--json");
    expect(oneLine(wrong.stderr)).toMatch(
      /^stdin:8: warning: The intermediate sight at 166 m alone makes the line 1 in \d+\.?\d*, steeper than clubs lay them/,
    );
    expect(JSON.parse(wrong.stdout)).toMatchObject({ accepted: true, warnings: [{ code: "out_of_line", line: 8 }] });
    const tube = "distance_m,tube_back_mm,tube_ahead_mm,place\n0,,,A\n10,300,200,B\n20,250,310,C\n";
    expect((await levelsOf(tube)).stdout).not.toContain("intermediate");
  });

  test("a gradient that may be level is not told, and one that is level to the last figure is level", async () => {
    const far = await levelsOf(`${HEAD}0,1.5,,,10,A\n60000,,1.5,,,\n120000,,,1.5,10,A\n`.replaceAll("0000", "000"));
    expect(far.stdout).toMatch(/0 m +6000 m +level$/m);
    expect(far.stdout).not.toContain("give or take level");
    const open = oneLine((await levelsOf(`${HEAD}0,1.5,,,,A\n100,1.4,,1.2,,B\n200,,,1.6,,C\n`)).stdout);
    expect(open).toContain(
      "The steepest, 1 in 333 by these readings, from 0 m to 100 m, is not told: anything from level to 1 in 76.9.",
    );
    expect(open).toContain("not told: 1 in 333, but anything from level to 1 in 76.9");
  });

  test("a water tube has readings behind and ahead, and no sights", async () => {
    const { stdout } = await levelsOf("distance_m,tube_back_mm,tube_ahead_mm\n0,,\n10,300,200\n20,250,310\n");
    expect(oneLine(stdout)).toContain("Readings behind 0.550 less readings ahead 0.510: 0.040.");
    expect(oneLine(stdout)).toContain("over 2 reaches of the tube.");
    expect(stdout).not.toMatch(/sights/);
  });

  test("its picture has how far each level is in doubt, and what was read upside down by itself", async () => {
    const svg = (await levelsOf(`${HEAD}0,1.5,,,10,A\n20,,-2.1,,,bridge\n40,,1.4,,,B\n60,,,1.503,10,A\n`, "--svg", "-"))
      .stdout;
    const lines = [...svg.matchAll(/<path d="([^"]*)"[^>]*data-line="([^"]*)"/g)].map(([, d = "", name]) => ({
      d,
      name,
    }));
    expect(lines.map(({ name }) => name)).toEqual(["lies within", "rail", "upside down"]);
    // The place between the ends, which are held: from its lowest to its highest.
    expect(lines[0]!.d).toMatch(/^M[\d.]+ [\d.]+L[\d.]+ [\d.]+/);
    const [, x1, low, x2, high] =
      /M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/.exec(lines[0]!.d.replace(/^(M[^M]*)?(?=M)/, "")) ?? [];
    expect(x1).toBe(x2);
    expect(Number(low)).toBeGreaterThan(Number(high));
    expect(svg.match(/<circle/g)).toHaveLength(4);
    expect(svg).toContain("Places read upside down are dots by themselves, and no rail.");
    expect(svg).not.toContain("NaN");
  });

  test("a class that no surveyor has is told", async () => {
    const { stdout } = await levelsOf(`${HEAD}0,1.5,,,10,A\n50,1.4,,1.2,,B\n100,,,1.65,10,A\n`, "--class", "1000");
    expect(oneLine(stdout)).toContain("1000 mm √km is looser than fourth-order levelling, which allows 24");
    expect(oneLine(stdout)).toContain("the whole of 50 mm is counted");
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
    const { points, gradients } = JSON.parse(stdout);
    expect(points[1]).toMatchObject({ level_m: expect.closeTo(13.6, 9), inverted: true });
    expect(gradients).toEqual([expect.objectContaining({ from_m: 0, to_m: 40 })]);
  });

  test("and is not taken for rail, neither in words nor in the profile", async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "book.csv"), `${HEAD}0,1.5,,,10,rail\n20,,-2.1,,,under the bridge\n40,,,1.4,,rail\n`);
    const { stdout } = await rideon(["levels", join(folder, "book.csv"), "--out", folder]);
    expect(oneLine(stdout)).toContain("The highest place lies 0.1 m above the lowest.");
    expect(oneLine(stdout)).toContain("One place was read with the staff upside down, and is not taken for rail.");
    expect(readFileSync(join(folder, "track.csv"), "utf8")).not.toContain("bridge");
  });

  test("a bench mark on the way that does not fit is told, though the last one does", async () => {
    const { stdout } = await levelsOf(
      `${HEAD}0,1.5,,,10,A\n60,,1.4,,10.9,B\n80,1.3,,1.2,,C\n100,,,1.604,10,A\n`,
      "--json",
    );
    const { accepted, adjusted_by, bench_marks } = JSON.parse(stdout);
    expect([accepted, adjusted_by]).toEqual([false, "none"]);
    expect(bench_marks).toEqual([
      expect.objectContaining({ place: "B", misclosure_m: expect.closeTo(-0.8, 9), accepted: false }),
      expect.objectContaining({ place: "A", misclosure_m: expect.closeTo(-0.004, 9), accepted: false }),
    ]);
    expect(bench_marks[0].allowed_m).toBeCloseTo(0.024 * Math.sqrt(0.06), 9);
    const told = await levelsOf(`${HEAD}0,1.5,,,10,A\n60,,1.4,,10.9,B\n80,1.3,,1.2,,C\n100,,,1.604,10,A\n`);
    expect(oneLine(told.stdout)).toContain(
      "but not every bench mark fits: it is NOT accepted, and not spread. At the bench mark B at 60 m it is 800 mm below",
    );
  });

  test("a book that ends on its bench mark says so, whatever decimals leave over", async () => {
    const { stdout } = await levelsOf(`${HEAD}0,1.5,,,10,A\n60,,1.45,,,\n80,1.3,,1.2,,\n100,,,1.6,10,A\n`);
    expect(oneLine(stdout)).toMatch(/^The book ends on its bench mark; 7\.59 mm are allowed\./);
    expect(stdout).not.toContain("-0.0");
  });

  test("semicolons and decimal commas: a staff is not a thousand metres long, so 1,512 is told from 1512", async () => {
    const lines = ["0;1,512;;;10;A", "60;;1,450;;;", "80;1,301;;1,222;;", "100;;;1,592;10;A"].join("\n");
    const { stdout } = await levelsOf(`${HEAD.replaceAll(",", ";")}${lines}\n`, "--json");
    expect(JSON.parse(stdout).misclosure_m).toBeCloseTo(-0.001, 9);
    const mm = await levelsOf(
      `${HEAD.replaceAll(",", ";").replaceAll("sight_m", "sight_mm")}0;1,512;;;10;A\n9;;;1,450;;\n`,
    );
    expect(mm.stderr).toContain('"1,512" could be 1.512 or 1512');
  });

  test("a water tube is a book of its own, and an inclinometer is told for what it is", async () => {
    const tube = await levelsOf(
      "distance_m,tube_back_mm,tube_ahead_mm,place\n0,,,A\n10,300,200,B\n20,250,310,C\n",
      "--json",
    );
    expect(
      JSON.parse(tube.stdout).points.map(({ level_m }: { level_m: number }) => Number(level_m.toFixed(6))),
    ).toEqual([0, 0.1, 0.04]);
    const { stdout } = await levelsOf("distance_m,slope_percent,known_level_m\n0,1,0\n10,-0.5,\n20,,0.05\n");
    expect(oneLine(stdout)).toContain("cannot tell 1 in 100 from 1 in 85 by itself");
    expect(oneLine(stdout)).toContain("up 1 in 100 (1 in 85.1 to 1 in 121)");
    const missed = await levelsOf("distance_m,slope_percent,known_level_m\n0,1,0\n10,-0.5,\n20,,0.4\n");
    expect(oneLine(missed.stdout)).toMatch(
      /^The book ends 350 mm below its bench mark; spread by distance\. That is more than its readings explain, and may all lie between two places: the whole of 350 mm is counted/,
    );
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
    [
      "a foresight among the intermediate ones",
      `${HEAD}0,1.5,,,10,A\n50,1.3,1.2,,,B\n60,,,1.1,,C\n`,
      3,
      "Is the intermediate sight the foresight of this change point?",
    ],
    [
      "a known level in millimetres",
      `${HEAD}0,1.5,,,10000,A\n50,,,1.2,,B\n`,
      2,
      "a known level of 10000 m; from -500 to 9000 m is wanted",
    ],
    [
      "millimetres under metres",
      `${HEAD}0,1500,,,,A\n50,,,1200,,B\n`,
      2,
      "a backsight of 1500 m is longer than any staff, of which 5.5 m is the longest",
    ],
    [
      "metres under millimetres",
      `${HEAD.replaceAll("_m,", "_mm,").replace("distance_mm", "distance_m")}0,1.512,,,,A\n50,,,1.274,,B\n`,
      2,
      "told finer than a staff can be read",
    ],
    ["a line of light years", `${HEAD}0,1.5,,,,A\n1e300,,,1.2,,B\n`, 3, "a line of 100 km at most is wanted"],
    [
      "a step of less than a millimetre",
      `${HEAD}0,1.5,,,,A\n0.0001,,,1.2,,B\n`,
      3,
      "no further on than the 0 m before it",
    ],
    [
      "a wall",
      `${HEAD}0,2.5,,,,A\n3,,1.2,,,B\n60,,,2.4,,C\n`,
      3,
      "1.3 m higher than the place 3 m before it, steeper than 1 in 5",
    ],
    ["a header alone", HEAD, 1, "no place follows the header; two or more are wanted"],
    ["one place", `${HEAD}0,1.5,,,,A\n`, 2, "1 place is there, and two or more are wanted"],
    [
      "a header of forty numbers",
      `${Array.from({ length: 40 }, (_, i) => i + 1).join(",")}\n`,
      1,
      "1, 2, 3, 4, 5 and 35 more are not columns; there are distance (_m, _ft or _yd); backsight,",
    ],
    [
      "a surveyor's own headings",
      "chainage,BS,IS,FS,RL,HI,remarks\n0,1.5,,,10,,A\n",
      1,
      "HI is worked out here, and is no column of a book; leave it out",
    ],
    [
      "a slope of a wall",
      "distance_m,slope_degrees\n0,45\n10,\n",
      2,
      "a slope of 45 degrees is steeper than any rail; up to 1 in 5 is wanted",
    ],
    [
      "a slope of a wall, in percent",
      "distance_m,slope_percent\n0,1.4\n20,-30\n40,\n",
      3,
      "a slope of -30 % is steeper than any rail",
    ],
    [
      "slopes out of order",
      "distance_m,slope_percent\n0,1\n20,1\n10,\n",
      4,
      "the distance is 10 m, no further on than the 20 m before it",
    ],
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

  test("each of a surveyor's headings is told with the column that is meant", async () => {
    const { stderr } = await levelsOf("chainage,BS,IS,FS,RL,remarks\n0,1.5,,,10,A\n60,,,1.4,,\n");
    expect(stderr.match(/did you mean [\w, ]+\?/g)).toEqual([
      "did you mean distance_m?",
      "did you mean backsight_m?",
      "did you mean intermediate_m?",
      "did you mean foresight_m?",
      "did you mean known_level_m, of bench marks alone?",
      "did you mean place?",
    ]);
  });

  test("a book that is wrong all along is told at its first places, and how many there are", async () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${i + 1},,1200,,,\n`).join("");
    const { stderr } = await levelsOf(`${HEAD}0,1500,,,,A\n${rows}`);
    expect(stderr.trim().split("\n")).toHaveLength(21);
    expect(stderr).toContain("301 problems, of which the first 20 are told");
  });

  test("what is no text, or no file, is told", async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "binary.csv"), Buffer.from([0, 1, 2, 255]));
    writeFileSync(join(folder, "blank.csv"), "");
    const said = async (name: string) => (await rideon(["levels", join(folder, name)])).stderr;
    expect(await said("binary.csv")).toContain("it is not a text file");
    expect(await said("blank.csv")).toContain(":1: error: the file is empty; it begins with a header such as");
    expect(await said("")).toContain("it is a folder, not a file");
    expect(await said("none.csv")).toContain("there is no such file");
  });

  test.each([
    ["--reading", "500", `${HEAD}0,1.5,,,,A\n50,,,1.2,,B\n`, "a staff is read to 100 mm or better"],
    [
      "--class",
      "12",
      "distance_m,slope_percent\n0,1\n10,\n",
      "--class is that of a levelling book, and this is slopes",
    ],
    ["--reading", "2", "distance_m,slope_percent\n0,1\n10,\n", "--reading is that of a staff"],
  ])("%s %s that goes with another survey is told", async (option, value, book, message) => {
    const { status, stderr } = await levelsOf(book, option, value);
    expect([status, oneLine(stderr).includes(message)]).toEqual([2, true]);
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
