import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const RUNS = join(SITE, "runs.csv");
const coasted = (text: string, ...args: string[]) => rideon(["coastdown", "-", ...args], { input: text });

describe("coastdown", () => {
  test("tells rolling with its doubt first, the gradient, what it cannot tell, and the lines to paste", async () => {
    const { status, stdout } = await rideon(["coastdown", RUNS]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(
      /^Rolling resistance 0\.01\d+ ± 0\.00\d+, from 6 runs\. The line rises 1 in \d+ there in the first direction/,
    );
    expect(text).toContain(
      "It is taken for granted that its slope is even and that both ways ran over the same stretch",
    );
    expect(text).toMatch(
      /within: 0\.\d+ for how unlike pairs of runs are, 0\.0004 for what turns, 0\.0003 for speedometer/,
    );
    expect(text).toContain("The runs cannot tell a rise with speed from none");
    expect(text).toMatch(/rolling: 0\.01\d+ ± 0\.00\d+ # measured \d{4}-\d\d-\d\d by coasting, 6 runs/);
  });

  test("puts it into the loco's file, and changes nothing else there", async () => {
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const before = readFileSync(loco, "utf8").split("\n");
    expect((await rideon(["coastdown", RUNS, "--into", loco])).status).toBe(0);
    const after = readFileSync(loco, "utf8").split("\n");
    expect(after.filter((line) => !before.includes(line))).toHaveLength(2);
    expect((await rideon(["check", join(folder, "plan.yaml")])).status).toBe(0);
  });

  test("marks and a watch will do", async () => {
    const { status, stdout } = await coasted(
      "run,direction,distance_m,time_s\n1,out,0,0\n1,out,10,4.1\n1,out,20,8.6\n1,out,30,13.8\n2,back,0,0\n2,back,10,4.3\n2,back,20,9.1\n2,back,30,15.1\n",
    );
    expect(status).toBe(0);
    expect(oneLine(stdout)).toMatch(
      /^Rolling resistance 0\.0\d+ ± 0\.0\d+, from 2 runs\..* Three pairs more would tell\./,
    );
  });

  test("a doubt as wide as the figure goes into no file", async () => {
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const before = readFileSync(loco, "utf8");
    const unlike = [0.1, 0.02].flatMap((slows, pair) =>
      ["out", "back"].flatMap((way) => [0, 4, 8].map((t) => `${pair}${way},${way},${t},${(2 - slows * t).toFixed(3)}`)),
    );
    const { status, stderr } = await coasted(`run,direction,time_s,speed_mps\n${unlike.join("\n")}\n`, "--into", loco);
    expect(status).toBe(2);
    expect(stderr).toContain("the doubt is as wide as the figure; let it coast more often, both ways");
    expect(readFileSync(loco, "utf8")).toBe(before);
  });

  test("the wrong unit goes into no file, by the range of the bearings that the file has", async () => {
    // Logged in km/h under a heading of mph: 1.609 times the figure, which plain bearings have, and ball bearings have not.
    const text = readFileSync(RUNS, "utf8").replaceAll(
      /,([\d.]+)$/gm,
      (_, v) => `,${(1.609344 * Number(v)).toFixed(2)}`,
    );
    const into = async (bearings: string) => {
      const loco = join(siteFolder(), "loco.yaml");
      writeFileSync(loco, `${readFileSync(loco, "utf8")}resistance: { ${bearings} }\n`);
      const before = readFileSync(loco, "utf8");
      const { status, stderr } = await coasted(text, "--into", loco);
      return { status, same: readFileSync(loco, "utf8") === before, stderr: oneLine(stderr) };
    };
    const ball = await into("bearings: ball");
    expect([ball.status, ball.same]).toEqual([2, true]);
    expect(ball.stderr).toMatch(
      /nothing was put there\. Rolling resistance: 0\.01\d+ is more than on average club track with ball bearings, 0\.008 to 0\.012\. Were the readings made in mph, as the heading says\? Read in km\/h they would make 0\.01\d*/,
    );
    expect((await into("")).same).toBe(true);
    const plain = await into("bearings: plain");
    expect([plain.status, plain.same]).toEqual([0, false]);
    // Nobody told the bearings: any may be meant.
    expect((await coasted(text)).stderr).toBe("");
    const placed = text
      .replace("direction,time_s", "direction,from_m,time_s")
      .replaceAll(/^(\d+o),out,/gm, "$1,out,340,")
      .replaceAll(/^(\d+b),back,/gm, "$1,back,390,");
    const planned = await coasted(placed, "--plan", join(SITE, "plan.yaml"));
    expect(planned.status).toBe(0);
    expect(oneLine(planned.stderr)).toContain("with ball bearings, 0.008 to 0.012");
    expect(planned.stdout).toContain("only if the heading is right");
  });

  test("miles an hour under metres a second are warned of, with what they would make", async () => {
    const { stderr, stdout } = await coasted(readFileSync(RUNS, "utf8").replace("speed_mph", "speed_mps"));
    expect(oneLine(stderr)).toMatch(
      /stdin: warning: rolling resistance: 0\.02\d+ is more than on average club track, 0\.008 to 0\.02\. Were the readings made in m\/s, as the heading says\? Read in mph they would make 0\.01\d+/,
    );
    expect(stdout).toContain("Rolling resistance 0.02");
    expect(oneLine(stdout)).toMatch(
      /Before anything goes into a file: .* Read in mph they .* To paste into the loco file, only if the heading is right/,
    );
    expect((await rideon(["coastdown", RUNS])).stderr).toBe("");
  });

  test("what was never slowed, with no plan told, names none, and runs that do not fit together go into no file", async () => {
    const driven = [1, 2].map((run) =>
      [0, 2, 4].map((t) => `${run},${run === 1 ? "out" : "back"},${t},${(2 + 0.02 * t).toFixed(2)}`),
    );
    const head = "run,direction,time_s,speed_mps\n";
    const { stdout } = await coasted(`${head}${driven.flat().join("\n")}\n`);
    expect(oneLine(stdout)).toMatch(/^Both ways together it was not slowed at all/);
    expect(stdout).not.toContain("plan's drive");
    const ways = [0, 1, 2].flatMap((pair) =>
      [1, -1].flatMap((way) => {
        let v = 3;
        return Array.from({ length: 10 }, (_, i) => {
          const told = `${pair}${way},${way > 0 ? "out" : "back"},${i},${v.toFixed(3)}`;
          v -= 0.1 + 0.01 * (1 + way) * v * v;
          return told;
        });
      }),
    );
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const before = readFileSync(loco, "utf8");
    const refused = await coasted(`${head}${ways.join("\n")}\n`, "--into", loco);
    expect([refused.status, readFileSync(loco, "utf8")]).toEqual([2, before]);
    expect(refused.stderr).toContain("these runs do not fit together");
    expect(oneLine((await coasted(`${head}${ways.join("\n")}\n`)).stdout)).toMatch(
      /^These 6 runs do not fit together, and tell no rolling resistance\. The two ways differ by more than a slope can/,
    );
  });

  test("one way alone is told for what it is, and goes into no file for that", async () => {
    const oneWay = "run,direction,time_s,speed_mph\n1,out,0,4\n1,out,5,3.4\n1,out,10,2.9\n";
    const refused = await coasted(oneWay, "--into", join(siteFolder(), "loco.yaml"));
    expect(refused.status).toBe(2);
    expect(oneLine(refused.stderr)).toMatch(/it coasted one way alone; let it coast back over the same line\W*$/);
    const { stdout } = await coasted(oneWay);
    expect(oneLine(stdout)).toMatch(/one way alone: that is rolling and the gradient together, and neither by itself/);
  });

  test.each([
    ["run,direction,time_s\n1,out,0\n", 1, "one column of speed or of distance"],
    ["run,direction,time_s,speed\n1,out,0,4\n", 1, "speed is not a column; there are"],
    ["run,direction,time_s,speed_mps\n1,out,0,2\n1,out,5,1.8\n1,out,4,1.7\n", 4, "no later than the one before"],
    ["run,direction,time_s,speed_mps\n1,out,0,2\n1,out,5,1.8\n", 3, "three or more are wanted"],
    ["run,direction,time_s,speed_mps\n1,out,0,30\n1,out,5,28\n1,out,9,26\n", 2, "are the units those of the heading"],
    ["run,direction,time_s,speed_mps\n1,out,0,2\n1,back,5,1.8\n1,out,9,1.7\n", 3, "changes its direction"],
    ["run,direction,time_s,speed_mps\n1,out,0,1\n1,out,5,1.8\n1,out,9,1.7\n", 3, "gets faster"],
    ["run,direction,time_s,speed_mps\n1,out,0,two\n", 2, "is not a number"],
  ])("%j is told with its line", async (text, line, message) => {
    const { status, stdout, stderr } = await coasted(text);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toContain(`stdin:${line}:`);
    expect(stderr).toContain(message);
  });
});

describe("a plan beside the readings", () => {
  const PLAN = join(SITE, "plan.yaml");
  const PULLS = join(SITE, "pulls.csv");
  const placed = () =>
    readFileSync(RUNS, "utf8")
      .replace("direction,time_s", "direction,from_m,time_s")
      .replaceAll(/^(\d+o),out,/gm, "$1,out,340,")
      .replaceAll(/^(\d+b),back,/gm, "$1,back,390,");

  test("warns of a line whose levelling was not accepted", async () => {
    const folder = siteFolder();
    const track = join(folder, "track.csv");
    const marked = readFileSync(track, "utf8")
      .replace(/^(distance_m,.*)$/m, "$1,levelling")
      .replaceAll(/^(\d.*)$/gm, "$1,not accepted");
    writeFileSync(track, marked);
    const { stderr } = await coasted(placed(), "--plan", join(folder, "plan.yaml"));
    expect(oneLine(stderr)).toMatch(/the profile is not good enough to act on: its levelling was not accepted/);
    expect((await coasted(placed(), "--plan", PLAN)).stderr).not.toContain("not good enough");
  });

  test("tells the mass, what turns, and the line where each run began", async () => {
    const train = oneLine((await rideon(["pull", PULLS, "--plan", PLAN])).stdout);
    expect(train).toContain("30.1 N for 825 kg");
    expect(train).toContain("that of the plan's train, 825 kg with 6 passengers aboard: if it was pulled otherwise");
    expect(train).toMatch(/Next: .* limits/);
    const coasting = oneLine((await coasted(placed(), "--plan", PLAN)).stdout);
    expect(coasting).toContain(
      "With the profile counted, the first direction as chainages grow, wind and survey leave",
    );
    expect(coasting).toMatch(/as 1\.0\d times its mass, .* as the plan's train of 825 kg with 6 passengers aboard is/);
    // By these places it climbed 1 in 71 one way and 1 in 78 the other, and hardly slowed.
    const held = ["o,out,145", "b,back,295"].flatMap((run) =>
      [0, 2, 4].map((t) => `${run},${t},${(4 - 0.1 * t).toFixed(1)}`),
    );
    const wrong = await coasted(`run,direction,from_m,time_s,speed_mph\n${held.join("\n")}\n`, "--plan", PLAN);
    expect(oneLine(wrong.stdout)).toMatch(
      /^Both ways together, with the profile counted, it was not slowed at all: the runs began elsewhere, chainages grow the other way/,
    );
    const even = (await rideon(["coastdown", RUNS, "--plan", PLAN])).stderr;
    expect(oneLine(even)).toMatch(/the plan's line is not even: .* Tell in a column from_m/);
    const off = (await coasted(placed().replaceAll(",340,", ",900,"), "--plan", PLAN)).stderr;
    expect(oneLine(off)).toContain("from_m of 900 m is not on the plan's line, which is 396 m long");
    const lost = placed().replaceAll(",340,", ",,");
    expect((await coasted(lost, "--plan", PLAN)).stderr).toContain(
      "its first reading tells where it began, in a column from_m",
    );
  });
  test("tells the drag of a drive in mesh, which is taken off", async () => {
    const { stdout } = await rideon(["pull", "-", "--plan", PLAN, "--mesh", "in"], {
      input: "direction,steady_N\nout,110\nback,115\n",
    });
    expect(oneLine(stdout)).toMatch(/3\d\.\d N for its drag and the chains', as the plan has them, are taken off/);
    const less = (await rideon(["pull", PULLS, "--plan", PLAN, "--of", "loco", "--mesh", "in"])).stdout;
    expect(oneLine(less)).toMatch(/^Less was pulled than the plan's drive alone would take/);
    expect(less).not.toContain("To paste");
    expect((await rideon(["coastdown", RUNS, "--mesh", "in"])).stderr).toContain("give --plan plan.yaml too");
  });
});
