import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "../cli/command.js";
import { browser, CHROMIUM, LEFT_OUT, REQUIRED } from "./browser.js";

const AXE = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** The page's own unrounded figures. */
const answersIn = async (page: Page) => JSON.parse((await page.textContent("#answers")) ?? "");

/** Waits until the worker has answered this turn of the controls. */
const followed = (page: Page, turn: number): Promise<void> =>
  page.locator(`html[data-turn="${turn}"]`).waitFor({ state: "attached" });

/** Sets controls as a reader does and waits until all has followed. */
async function set(page: Page, values: Record<string, string>): Promise<void> {
  const before = Number(await page.evaluate("document.documentElement.dataset.turn ?? 0"));
  for (const [id, value] of Object.entries(values)) {
    if (await page.locator(`select#${id}`).count()) await page.selectOption(`#${id}`, value);
    else await page.fill(`#${id}`, value);
  }
  const turn = before + Object.keys(values).length;
  await followed(page, turn);
}

const json = async (...args: string[]) => {
  const { status, stdout, stderr } = await rideon([...args, "--json"]);
  expect(status, stderr).toBe(0);
  return JSON.parse(stdout);
};

/** Numbers equal to 1e-9 of their size, everything else equal. */
function same(found: unknown, wanted: unknown, path = ""): void {
  if (typeof wanted === "number") {
    expect(Math.abs((found as number) - wanted), path).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
  } else if (Array.isArray(wanted)) {
    expect((found as unknown[]).length, path).toBe(wanted.length);
    for (const [i, each] of wanted.entries()) same((found as unknown[])[i], each, `${path}.${i}`);
  } else if (typeof wanted === "object" && wanted !== null) {
    for (const [key, each] of Object.entries(wanted))
      same((found as Record<string, unknown>)[key], each, `${path}.${key}`);
  } else expect(found, path).toBe(wanted);
}

async function reported(folder: string, ...args: string[]): Promise<string> {
  const { status, stdout, stderr } = await rideon(["report", join(folder, "plan.yaml"), "--quiet", ...args]);
  expect(status, stderr).toBe(0);
  const file = join(emptyFolder(), "page.html");
  writeFileSync(file, stdout);
  return file;
}

/** A copy of the site with a short line, soon answered. Invented. */
function shortSite(): string {
  const folder = siteFolder();
  const posts = ["0,0,Wharf Lane", "30,0,", "50,300,Heron Bank", "70,300,", "100,0,Wharf Lane"];
  writeFileSync(join(folder, "track.csv"), ["distance_m,height_mm,place", ...posts, ""].join("\n"));
  return folder;
}

test.runIf(!CHROMIUM && REQUIRED)("a Chromium is there", () => expect.fail(LEFT_OUT));
if (!CHROMIUM) console.warn(`the page in a browser: ${LEFT_OUT}`);

/** The page looks at the rail by which stops are judged, the last that the command tells of. */
const onWorseRail = ({ worst, rails }: { worst: { rail: string }[]; rails: { rail: string }[] }) =>
  worst.filter(({ rail }) => rail === rails.at(-1)?.rail);

describe.skipIf(!CHROMIUM)("the page in a browser", () => {
  const { open } = browser();
  let file = "";
  beforeAll(async () => {
    file = await reported(SITE);
  });

  test("opens offline without a complaint, is one file under 400 kB and fits a phone", async () => {
    expect(readFileSync(file).length).toBeLessThan(4e5);
    const { page, complaints } = await open(file, { viewport: { width: 360, height: 780 } });
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(360);
    expect(await page.title()).toBe("Ostlemere, a quiet Sunday: Teasel");
    expect(complaints).toEqual([]);
  });

  test("has the judgement and why brakes are needed on the first screen, then three questions", async () => {
    const { page } = await open(file, { viewport: { width: 1024, height: 768 } });
    for (const at of ["#may", "#why-body .wide svg"]) {
      const box = await page.locator(at).boundingBox();
      expect(box!.y + box!.height).toBeLessThan(768);
    }
    expect(await page.textContent("#may .word")).toBe(
      "By these sums it may carry no passengers here: it has no brake.",
    );
    for (const id of ["laps", "gradient", "brakes"])
      expect(await page.textContent(`#answer-${id} .word`)).toMatch(/[✓✗] \S/);
  });

  test("says no more than 1200 words unless it is unfolded", async () => {
    const { page } = await open(file);
    await page.locator("#controls").waitFor();
    const words = (await page.evaluate(`(() => {
      const body = document.body.cloneNode(true);
      for (const each of body.querySelectorAll("script,svg,details > :not(summary)")) each.remove();
      return body.textContent;
    })()`)) as string;
    expect(words.trim().split(/\s+/).length).toBeLessThan(1250);
  });

  test("says before anything is moved what the command line says", async () => {
    const { page } = await open(file);
    const found = await answersIn(page);
    const plan = join(SITE, "plan.yaml");
    const [run, brakes, climb, limits] = await Promise.all([
      json("run", plan),
      json("brakes", plan),
      json("climb", plan),
      json("limits", plan),
    ]);
    for (const key of ["may_carry", "most_aboard", "aboard", "speeds", "stops", "standing", "laps_to_plan_for", "day"])
      same(found.limits[key], limits[key], key);
    same(found.run.time_s, run.time_s);
    same(found.brakes.worst, onWorseRail(brakes));
    same(found.climb.rows, climb.rows);
  });

  test("follows other passengers, rail and speed to what the command line says, and goes back", async () => {
    const { page, complaints } = await open(file);
    const before = await answersIn(page);
    await set(page, { "set-passengers": "8", "set-rail": "damp", "set-speed": "5" });
    const found = await answersIn(page);
    const args = [join(SITE, "plan.yaml"), "--passengers", "8", "--rail", "damp", "--speed", "5 mph"];
    const [run, limits, brakes, climb] = await Promise.all([
      json("run", ...args),
      json("limits", ...args),
      json("brakes", ...args),
      json("climb", ...args),
    ]);
    for (const key of [
      "outcome",
      "time_s",
      "charge_used_Ah",
      "energy_Wh",
      "peak_motor_current_A",
      "lowest_battery_voltage_V",
    ])
      same(found.run[key], run[key], key);
    for (const key of ["may_carry", "most_aboard", "speeds", "stops", "standing", "laps_to_plan_for", "day"])
      same(found.limits[key], limits[key], key);
    same(found.brakes.worst, onWorseRail(brakes), "worst");
    const parking = brakes.parking.map(({ places_it_will_not_hold: _, ...others }: Record<string, unknown>) => others);
    same(found.brakes.parking, parking, "parking");
    same(found.climb.rows, climb.rows, "climb");
    same(found.climb.other_rail.rows, climb.other_rail.rows, "other rail");
    const [stop] = found.stops;
    same(
      stop,
      brakes.rows.find(
        (row: typeof stop) =>
          row.chainage_m === stop.chainage_m && row.brakes === stop.brakes && row.rail === stop.rail,
      ),
      "stop here",
    );
    expect(found.brakes.worst[0].distance_m).not.toBe(before.brakes.worst[0].distance_m);
    await page.click("button[type=reset]");
    await followed(page, 4);
    // How sure that is follows, and is the same again.
    await expect.poll(async () => (await answersIn(page)).sureness !== undefined).toBe(true);
    same(await answersIn(page), before, "back");
    expect(complaints).toEqual([]);
  });

  test("a brake that is tried stops it as the same brake in the file does", async () => {
    const { page } = await open(file);
    await set(page, { "set-brakes": "loco", "set-brake-force": "250" });
    const wanted = await json("brakes", join(SITE, "plan.yaml"), "--set", "loco.brakes=[{rail_force: 250 N}]");
    same((await answersIn(page)).brakes.worst, onWorseRail(wanted), "worst");
  });

  test("how sure shows the band, its bad end or neither, and leaves the answers alone", async () => {
    const { page, complaints } = await open(file);
    await page.locator("#controls").waitFor();
    const shown = async () => (await page.locator("#answer-laps .sure span:visible").allTextContents()).join(" ");
    expect(await shown()).toMatch(/Nine in ten: laps to the reserve \d+ to \d+\.$/);
    await page.selectOption("#set-sure", "bad");
    expect(await shown()).toMatch(/Nineteen in twenty: laps to the reserve at least \d+\.$/);
    await page.selectOption("#set-sure", "middle");
    expect(await shown()).not.toMatch(/Nine in|Nineteen/);
    expect(await page.locator("#altered").isHidden()).toBe(true);
    expect(complaints).toEqual([]);
  });

  test("what will not do is told at its field, and no old answer stands beside it", async () => {
    const { page, complaints } = await open(file);
    await page.locator("#controls").waitFor();
    for (const wrong of ["", "100", "-3", "2.5", "two", "1e9"]) {
      await page.fill("#set-passengers", wrong);
      expect(await page.textContent("#set-passengers-wrong")).toMatch(
        /wanted is a whole number of people, from 0 to 60/,
      );
      for (const part of ["may-body", "answers-body", "lap-body", "card-body"])
        expect(await page.getAttribute(`#${part}`, "data-covered")).toContain("will not do");
    }
    for (const [id, wrong] of [
      ["set-speed", ""],
      ["set-charge", "0"],
      ["set-brake-force", "-1"],
      ["set-gradients", "steep"],
    ] as const) {
      await page.fill(`#${id}`, wrong);
      expect(await page.textContent(`#${id}-wrong`)).toMatch(/wanted is/);
    }
    await page.click("button[type=reset]");
    await expect.poll(() => page.getAttribute("#may-body", "data-covered"), { timeout: 30_000 }).toBeNull();
    expect(await page.isVisible("#set-passengers-wrong")).toBe(false);
    expect(complaints).toEqual([]);
  });

  test("covers what is being worked out, draws the file's own lap behind, and says what was altered", async () => {
    const { page } = await open(file);
    await page.locator("#controls").waitFor();
    await page.fill("#set-passengers", "2");
    expect(await page.getAttribute("#answers-body", "data-covered")).toContain("Being worked out");
    expect(await page.locator('#lap-body .wide [data-line="as filed"]').count()).toBe(1);
    await followed(page, 1);
    expect(await page.locator('#why-body .wide [data-line="no brake, as filed"]').count()).toBe(1);
    expect(await page.getAttribute("#answers-body", "data-covered")).toBeNull();
    expect(await page.textContent("#altered")).toContain("Passengers aboard: 2");
    expect(page.url()).toContain("#set-passengers=2");
  });

  test("a log that does not agree leaves nothing to drive by after a change either", async () => {
    const folder = siteFolder();
    // One lap of the demo's log, its amps 2.2 times over.
    const [first = "", ...lines] = readFileSync(join(SITE, "log.csv"), "utf8").split("\n").slice(0, 233);
    const off = lines.map((line) =>
      line.replace(/^([\d.]+,[^,]*,[^,]*,)([\d.]+)/, (_, before, amps) => `${before}${2.2 * Number(amps)}`),
    );
    writeFileSync(join(folder, "off.csv"), [first, ...off, ""].join("\n"));
    const { page, complaints } = await open(
      await reported(folder, "--sure", "--log", join(folder, "off.csv"), "--passengers", "3"),
    );
    await page.locator("#controls").waitFor();
    await set(page, { "set-passengers": "2", "set-brakes": "loco" });
    const card = (await page.textContent("#card-body .card table")) ?? "";
    expect(card.match(/NOT TO BE COUNTED ON/g)).toHaveLength(6);
    expect(card).not.toMatch(/\d (?:m|mph|laps)\b/);
    expect(await page.locator("#card-body .volts").count()).toBe(0);
    expect(await page.textContent("#stop-here")).toMatch(/^Not to be counted on/);
    for (const part of ["why", "stopping", "lap", "day", "pull", "load", "energy"])
      expect(await page.textContent(`#${part}-body .warn`), part).toMatch(/^Not to be counted on/);
    expect(complaints).toEqual([]);
  });

  test("an address that holds what was altered opens so", async () => {
    const { page } = await open(`${file}#set-passengers=3&set-rail=wet`);
    await followed(page, 1);
    expect(await page.textContent("#setting")).toMatch(/3 passengers, .* on wet rail/);
  });

  test("a speed beyond what it reaches is told as asked, and what it reaches beside it", async () => {
    const { page } = await open(file);
    await set(page, { "set-speed": "30" });
    expect(await page.textContent("#setting")).toMatch(/30 mph .*; it reaches [45]\.\d+ mph/);
  });

  test("a worker that fails says so and takes the answers away", async () => {
    const { page } = await open(file);
    await page.locator("#controls").waitFor();
    await page.evaluate(
      "Worker.prototype.postMessage = function () { this.dispatchEvent(new ErrorEvent('error', { message: 'killed' })); }",
    );
    await page.fill("#set-passengers", "4");
    expect(await page.getAttribute("#answers-body", "data-covered")).toContain("Not worked out");
    expect(await page.textContent("#stop-here")).toContain("killed");
  });

  test("its cursor reads the lap where it stands, by keys alone", async () => {
    const { page } = await open(file);
    await page.locator("#cursor").waitFor();
    await page.focus("#cursor");
    await page.keyboard.press("End");
    await expect
      .poll(() => page.textContent("#cursor-reads"))
      .toMatch(/(?:Mill Leat|Wharf Lane).* · 4 mph .* · motor \d+ A · battery \d+ A at 25\.\d V/);
    expect(await page.locator("#lap-body .wide path.cursor").count()).toBe(1);
    expect(await page.textContent("#lap-body .wide .cursor-reads")).toMatch(/4 mph, motor \d+ A/);
  });

  test("a line there and back with the lever held opens, follows and goes without a speed", async () => {
    const folder = shortSite();
    const plan = readFileSync(join(folder, "plan.yaml"), "utf8");
    writeFileSync(
      join(folder, "plan.yaml"),
      plan.replace("speed: 4 mph", "lever: 0.7").replace("rail: dry", "kind: end-to-end"),
    );
    const { page, complaints } = await open(await reported(folder, "--units", "imperial", "--charge", "0.12"));
    expect(await page.locator("#set-speed").count()).toBe(0);
    await set(page, { "set-passengers": "3" });
    const wanted = await json("brakes", join(folder, "plan.yaml"), "--passengers", "3", "--charge", "0.12");
    same((await answersIn(page)).brakes.worst, onWorseRail(wanted), "worst");
    expect(complaints).toEqual([]);
  });

  test("is whole without its program", async () => {
    const { page } = await open(file, { javaScriptEnabled: false });
    expect(await page.isVisible("#controls")).toBe(false);
    expect(await page.locator("section").count()).toBe(11);
    expect(await page.locator("figure").count()).toBe(6);
    expect(await page.locator(".card tr").count()).toBeGreaterThan(8);
  });

  test("prints on two to four pages of A4", async () => {
    const { page } = await open(file);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length;
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(4);
    // 210 mm by 297 mm in points.
    expect(pdf).toMatch(/\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
  });

  test.each([360, 1280])("axe-core finds no serious fault at %i px", async (width) => {
    const { page } = await open(file, { viewport: { width, height: 900 }, bypassCSP: true });
    await page.addScriptTag({ path: AXE });
    const { violations } = (await page.evaluate("axe.run()")) as {
      violations: { id: string; impact: string; nodes: { html: string }[] }[];
    };
    const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
    expect(serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 120)}`)).toEqual([]);
  });

  test("hostile names stay text, in the page and when it has been tried", async () => {
    const folder = shortSite();
    const hostile = `</script><img src=x onerror=alert(1)><!--<script>`;
    const swap = (name: string, from: string, to: string) => {
      const path = join(folder, name);
      const text = readFileSync(path, "utf8");
      expect(text).toContain(from);
      writeFileSync(path, text.replaceAll(from, to));
    };
    swap("plan.yaml", "name: Ostlemere, a quiet Sunday", `name: 'P ${hostile}'`);
    swap("plan.yaml", "# A quiet Sunday", `# ${hostile}`);
    swap("loco.yaml", "name: Teasel", `name: '${hostile}'`);
    swap("track.csv", "Heron Bank", hostile);
    const { page, complaints } = await open(await reported(folder, "--charge", "0.12"));
    await set(page, { "set-passengers": "5" });
    expect(await page.textContent("h1")).toBe(`P ${hostile}: ${hostile}`);
    expect(await page.locator("img").count()).toBe(0);
    expect(await page.locator("script").count()).toBe(5);
    expect(complaints).toEqual([]);
  });

  test.each([[], ["--card"]])("no script runs but the page's own: %j", async (...args) => {
    const { page, complaints } = await open(await reported(SITE, ...args));
    const strange = "const strange = document.createElement('script'); strange.textContent = 'globalThis.ran = 1';";
    await page.evaluate(`${strange} document.head.append(strange)`);
    expect(await page.evaluate("globalThis.ran")).toBeUndefined();
    expect(complaints).toEqual([expect.stringContaining("Content Security Policy")]);
  });

  test("the driver's card stands alone on one sheet", async () => {
    const { page, complaints } = await open(await reported(SITE, "--card"));
    expect(await page.locator(".card").count()).toBe(1);
    expect(await page.locator("section, script").count()).toBe(0);
    const box = await page.locator(".card").boundingBox();
    // A6 held sideways is 148 mm by 105 mm, at 96 px to the inch of 25.4 mm.
    expect(box!.width).toBeLessThanOrEqual((148 / 25.4) * 96 + 1);
    expect(box!.height).toBeLessThanOrEqual((105 / 25.4) * 96 + 1);
    expect(complaints).toEqual([]);
  });
});
