import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rideon, SITE, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const PLAN = join(SITE, "plan.yaml");
const LOG = readFileSync(join(SITE, "log.csv"), "utf8");
const compared = (text: string, ...args: string[]) => rideon(["compare", "-", PLAN, ...args], { input: text });
/** The first lap of the demo's log, and so soon compared. */
const LAP = LOG.split("\n").slice(0, 233).join("\n");
const changed = (of: (line: string, i: number) => string) => `${LAP.split("\n").map(of).join("\n")}\n`;

describe("compare", () => {
  test("tells whether they agree, by how much they differ and where, what would explain it, and how the log was laid", async () => {
    const { status, stdout } = await rideon(["compare", join(SITE, "log.csv"), PLAN]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    expect(text).toMatch(
      /^The loco agrees with the sums over 9\d % of the line, its steepest bits among it, as far as the doubt of both goes\./,
    );
    // It draws more than the sums have: said first, whatever is left open.
    expect(text).toMatch(
      /It drew 2\d % more from the battery than by the sums: count on fewer laps to a charge than they tell\./,
    );
    expect(text).toMatch(/battery current 12\.\d A 10\.\d A 2\.\d A more ± 3\.\d A agrees/);
    expect(text).toMatch(/battery current 3 A more from 53\.5 m, past Wharf Lane: within the 6\.\d A left open there/);
    expect(text).toMatch(/Rolling resistance, taken as 0\.01: 0\.013\d would take away most of it/);
    expect(text).toContain(
      "3 laps from mark to mark, each made as long as the line: a metre of the log is 0.988 of the line's.",
    );
    expect(text).toMatch(/1 gap in the readings, the first of 18 s before line \d+: what was done in it is guessed/);
    expect(text).toContain("decided by your club's");
    // What the log says is counted by report, and by no other question.
    expect(text).toMatch(/Next: \S.* report \\? ?\S*plan\.yaml .*--log \S*log\.csv/);
    expect(text).not.toMatch(/Next: .* limits/);
  });

  test("fits figures, tells how well they are told apart, and puts them into the loco's file", async () => {
    const folder = siteFolder();
    const loco = join(folder, "loco.yaml");
    const before = readFileSync(loco, "utf8").split("\n");
    const { status, stdout } = await rideon([
      ...["compare", join(SITE, "log.csv"), PLAN, "--into", loco],
      ...["--fit", "loco.resistance.rolling,loco.battery.each.resistance"],
    ]);
    expect(status).toBe(0);
    const text = oneLine(stdout);
    // The log was made with 0.0128 and 7.5 mohm.
    expect(text).toMatch(/Rolling resistance: 0\.01[23]\d* ± 0\.00\d+\./);
    expect(text).toMatch(/The battery's resistance: 0\.007\d* ± 0\.00\d+ ohm\./);
    expect(text).toContain("are told apart well");
    const after = readFileSync(loco, "utf8").split("\n");
    expect(after.filter((line) => !before.includes(line)).join("\n")).toMatch(/by 1081 m of a log/);
    expect((await rideon(["check", join(folder, "plan.yaml")])).status).toBe(0);
  });

  test("writes its JSON, its picture, and a sheet that trial takes", async () => {
    const folder = siteFolder();
    const duty = changed((line, i) =>
      i < 2 ? line : i === 2 ? `${line},duty_percent` : `${line},${i < 20 ? 3 * i : 84}`,
    );
    writeFileSync(join(folder, "lap.csv"), duty);
    const out = join(folder, "found");
    const { status, stdout } = await rideon(
      ["compare", "lap.csv", "plan.yaml", "--json", "--out", out, "--svg", "along.svg"],
      { cwd: folder },
    );
    expect(status).toBe(0);
    const answer = JSON.parse(stdout);
    expect(answer.command).toBe("compare");
    for (const each of answer.quantities)
      expect(Object.keys(each)).toEqual(expect.arrayContaining(["name", "rms", "bias", "unit", "within_doubt"]));
    expect(JSON.parse(readFileSync(join(out, "answer.json"), "utf8")).quantities).toEqual(answer.quantities);
    const picture = readFileSync(join(folder, "along.svg"), "utf8");
    expect(picture).toContain('data-line="logged"');
    expect(picture).toContain('data-line="by the sums"');
    expect(readFileSync(join(out, "readings.csv"), "utf8")).toContain("run_lever,84 %");
    const trial = await rideon(["trial", "plan.yaml", "--readings", join(out, "readings.csv")], { cwd: folder });
    expect(trial.stderr).not.toContain("error");
    expect(trial.status).toBe(0);
  });

  test("over less than a lap tells too little, on screen, page and card", async () => {
    const part = `${LAP.split("\n").slice(0, 45).join("\n")}\n`;
    const { stdout } = await compared(part);
    expect(oneLine(stdout)).toMatch(
      /^Not told: this log tells too little, for it tells of \d+ % of the line, without its steepest bits\./,
    );
    expect(oneLine(stdout)).toContain("what was not run over is not agreed with");
    const folder = siteFolder();
    writeFileSync(join(folder, "part.csv"), part);
    const out = join(folder, "page");
    await rideon(["report", "plan.yaml", "--sure", "--log", "part.csv", "--out", out], { cwd: folder });
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).toContain("A logged run tells too little of these sums");
    expect(page).toMatch(/<th scope="row">Log<\/th><td>NOT TOLD: it tells of \d+ % of the line/);
  });

  test("that does not agree leaves no figure to drive by, on page or card", async () => {
    const folder = siteFolder();
    // Twice the amps.
    const twice = changed((line, i) =>
      i < 3
        ? line
        : line.replace(/^([^,]*,[^,]*,[^,]*,)([\d.]+)/, (_, before, amps) => `${before}${2.2 * Number(amps)}`),
    );
    writeFileSync(join(folder, "off.csv"), twice);
    const out = join(folder, "page");
    await rideon(["report", "plan.yaml", "--sure", "--log", "off.csv", "--out", out], { cwd: folder });
    const page = readFileSync(join(out, "report.html"), "utf8");
    const card = page.slice(page.indexOf('<div class="card">'));
    expect(card).toContain("<td>DOES NOT AGREE</td>");
    expect(card.match(/NOT TO BE COUNTED ON/g)).toHaveLength(6);
    expect(card.slice(0, card.indexOf('class="caution"'))).not.toMatch(/\d+(?:\.\d+)? (?:m|mph|V|laps)\b/);
    expect(page).toContain("Find out first why they differ; until then there is no figure to drive by.");
    for (const part of ["why", "stopping", "lap", "day", "pull", "load", "energy"])
      expect(page, part).toMatch(new RegExp(`id="${part}-body"><p class="warn">Not to be counted on`));
  });

  test("that begins elsewhere does not agree in places, and is asked where it begins", async () => {
    const { stdout } = await compared(LAP, "--from", "120 m");
    const text = oneLine(stdout);
    expect(text).toMatch(/^The loco does not agree with the sums: /);
    expect(text).toContain(
      "Look first whether the log begins at 120 m, past Sallow Curve (--from tells another place)",
    );
    expect(text).not.toContain("A drag that is in no figure");
  });

  test("with a clamp that was turned round is no drag", async () => {
    const turned = changed((line, i) => (i < 3 ? line : line.replace(/^([^,]*,[^,]*,[^,]*,)/, "$1-")));
    const text = oneLine((await compared(turned)).stdout);
    expect(text).toMatch(/battery current -1\d\.\d A 1\d\.\d A 2\d A less ± \d\.\d A differs/);
    expect(text).toContain("a clamp that was turned round");
    expect(text).not.toContain("rubbing brake");
  });

  test("stands on the committee's page, and enters what a charge lasts", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "lap.csv"), `${LAP}\n`);
    const out = join(folder, "page");
    const { status } = await rideon(["report", "plan.yaml", "--sure", "--log", "lap.csv", "--out", out], {
      cwd: folder,
    });
    expect(status).toBe(0);
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).toContain("The sums against the railway");
    expect(page).toContain("nothing was measured by it, but for the log");
    expect(page).toContain("lap.csv");
    const { limits } = JSON.parse(/id="answers">([^<]*)</.exec(page)?.[1] ?? "");
    expect(limits.logged.agrees).toBe(true);
    expect(limits.logged.draws).toBeGreaterThan(1.1);
    expect(page).toContain(
      `with what the log drew, ${Math.round(100 * (limits.logged.draws - 1))} % more than the sums`,
    );
    const bare = await rideon(["report", "plan.yaml", "--column", "Batt A=battery_current A"], { cwd: folder });
    expect(bare.status).toBe(2);
    expect(bare.stderr).toContain("--column is about a log; tell which with --log");
  });
});

describe("a log that will not do", () => {
  const refused = async (text: string, ...args: string[]) => {
    const { status, stderr, stdout } = await compared(text, ...args);
    expect(stdout).toBe("");
    expect(status).toBe(1);
    return stderr;
  };
  test("in another unit than its heading says", async () => {
    const kmh = (line: string) => line.replace("speed_mph", "speed_kmh");
    expect(await refused(changed(kmh))).toMatch(
      /stdin:4: error: its speed added up makes 0\.61\d times its distance; that looks like/,
    );
    const alone = (line: string) => kmh(line).replace("distance_m", "note");
    expect(await refused(changed(alone))).toContain("that looks like mph read as km/h");
  });
  test("with rows out of order, or a heading that is meant for another", async () => {
    const lines = LAP.split("\n");
    const swapped = [...lines.slice(0, 20), lines[21], lines[20], ...lines.slice(22)].join("\n");
    expect(await refused(swapped)).toMatch(/stdin:22: error: time_s: \d+ is before the reading above it/);
    expect(await refused(changed((line) => line.replace("battery_current_A", "current_A")))).toContain(
      "stdin:3: error: current_A is not a column of a log; did you mean motor_current_A or battery_current_A?",
    );
  });
  test("or options that will not", async () => {
    const usage = async (...args: string[]) => {
      const { status, stderr } = await compared(LAP, ...args);
      expect(status).toBe(2);
      return stderr;
    };
    expect(await usage("--from", "Nowhere")).toContain("or one of the places Wharf Lane, Sallow Curve");
    expect(await usage("--from", "500 m")).toContain("beyond the line, which is 396.0 m long");
    expect(await usage("--column", "Batt A")).toContain('such as "Batt A=battery_current A"');
    expect(await usage("--into", "loco.yaml")).toContain("tell --fit what to fit");
    expect(await usage("--into", PLAN, "--fit", "loco.resistance.rolling")).toContain(
      "it is a plan's file, and loco.resistance.rolling stands in the loco's",
    );
    expect(await usage("--passengers", "40", "--fit", "loco.resistance.rolling")).toMatch(
      /by the sums the train comes \d+ m of the \d+ m that the log goes/,
    );
    expect(await usage("--fit", "loco.gears.1.teeth")).toContain("is no figure that this log could tell");
  });
  test("a train that stands by the sums is told as that, and is no error", async () => {
    const { status, stdout } = await compared(LAP, "--passengers", "40");
    // There is nothing to put into tables.
    expect(stdout).not.toContain("In the mean");
    expect(status).toBe(0);
    expect(oneLine(stdout)).toMatch(
      /^By the sums the train does not come as far as the real one did\. By the sums it stalls after/,
    );
  });
});
