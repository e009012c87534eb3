import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { emptyFolder, rideon, SITE, siteFolder } from "../cli/command.js";
import { browser, CHROMIUM, LEFT_OUT, REQUIRED } from "./browser.js";

const AXE = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

async function printed(plan: string, ...args: string[]): Promise<string> {
  const out = emptyFolder();
  const { status, stderr } = await rideon(["trial", plan, "--out", out, "--quiet", ...args]);
  expect(status, stderr).toBe(0);
  return join(out, "trial.html");
}

function filled(): string {
  const file = join(emptyFolder(), "filled.csv");
  writeFileSync(file, "reading,value\nrest_volts,25.3 V\nrun_speed,0 mph\nrun_motor_amps,74 A\nrun_forwards,no\n");
  return file;
}

test.runIf(!CHROMIUM && REQUIRED)("a Chromium is there", () => expect.fail(LEFT_OUT));

describe.skipIf(!CHROMIUM)("the sheet in a browser", () => {
  const { open } = browser();
  let blank = "";
  let judged = "";
  let long = "";
  beforeAll(async () => {
    [blank, long, judged] = await Promise.all([
      printed(join(SITE, "saturday.yaml")),
      printed(join(SITE, "saturday.yaml"), "--long"),
      printed(join(SITE, "plan.yaml"), "--readings", filled()),
    ]);
  });

  test("opens offline without a complaint or a program, is one small file and fits a phone", async () => {
    expect(readFileSync(blank).length).toBeLessThan(2e5);
    expect(readFileSync(blank, "utf8")).not.toContain("<script");
    const { page, complaints } = await open(blank, { viewport: { width: 360, height: 780 } });
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(360);
    expect(await page.title()).toBe("First outing: Braked Teasel, Ostlemere, a busy Saturday");
    expect(complaints).toEqual([]);
  });

  test("begins with safety; every reading has a blank big enough to write in", async () => {
    const { page } = await open(blank);
    expect(await page.locator("main h2").first().textContent()).toBe("Safety first");
    await page.emulateMedia({ media: "print" });
    const blanks = await page.locator(".sheet tbody td:last-child").all();
    expect(blanks.length).toBeGreaterThan(15);
    // 1 mm is 96/25.4 px (CSS Values and Units): a pencil wants some 6 mm by 25 mm (common practice, no source).
    for (const each of blanks) {
      const box = await each.boundingBox();
      expect(box?.height).toBeGreaterThan((5.9 * 96) / 25.4);
      expect(box?.width).toBeGreaterThan((25 * 96) / 25.4);
    }
    expect(await page.locator(".checks li").count()).toBeGreaterThan(5);
  });

  test.each([
    ["a blank sheet", () => blank, 2],
    ["the whole sheet", () => long, 6],
    ["a filled one, with its causes", () => judged, 6],
  ])("%s prints on A4 with no table cut off", async (_, file, most) => {
    const { page } = await open(file());
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length;
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(most);
    // A4 is 210 mm by 297 mm (ISO 216): 595 by 842 points.
    expect(pdf).toMatch(/\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: Math.round((186 * 96) / 25.4), height: 1000 });
    const over = await page.evaluate(
      "[...document.querySelectorAll('table')].filter((t) => t.getBoundingClientRect().right > innerWidth + 1).length",
    );
    expect(over).toBe(0);
  });

  test.each([
    ["blank", 360],
    ["blank", 1280],
    ["judged", 360],
    ["judged", 1280],
  ])("axe-core finds no serious fault: %s at %i px", async (which, width) => {
    const { page } = await open(which === "blank" ? blank : judged, {
      viewport: { width, height: 900 },
      bypassCSP: true,
    });
    await page.addScriptTag({ path: AXE });
    const { violations } = (await page.evaluate("axe.run()")) as {
      violations: { id: string; impact: string; nodes: { html: string }[] }[];
    };
    const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
    expect(serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });

  test("a filled sheet stands in its blanks, with its causes before it", async () => {
    const { page } = await open(judged);
    const text = (await page.textContent("main"))?.replaceAll(/\s+/g, " ") ?? "";
    expect(text.indexOf("What was read, and what it means")).toBeLessThan(text.indexOf("1. Before any power"));
    expect(text).toMatch(/What to do: Power off/);
    const row = page.locator(".sheet tr", { has: page.locator("th", { hasText: /^run_motor_amps$/ }) }).last();
    expect(await row.locator("td").last().textContent()).toBe("74.0 A, OUTSIDE");
  });

  test("names stay text", async () => {
    const folder = siteFolder();
    const evil = `</title><script>document.title="x"</script><img src=x onerror=alert(1)>&amp;"'`;
    for (const [file, name] of [
      ["loco.yaml", /^name: .*$/m],
      ["plan.yaml", /^name: .*$/m],
    ] as const) {
      const path = join(folder, file);
      writeFileSync(
        path,
        readFileSync(path, "utf8").replace(name, () => `name: ${JSON.stringify(evil)}`),
      );
    }
    const { page, complaints } = await open(await printed(join(folder, "plan.yaml")));
    expect(await page.textContent("h1")).toContain(evil);
    expect(await page.title()).toContain(evil.replaceAll(/\s+/g, " "));
    expect(await page.locator("script, img").count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});
