// How soon the page answers a reader's hand: the demo's page in Chromium, its controls moved as by hand, never inside
// the test runner. Times in ms: until the answers are in the page, until the next frame is painted, until the worker's
// are in as well. Then what the first takes, part by part, in the same browser.
//   npm run bench:page                       (CHROMIUM names another browser than the usual)
//   node test/bench/page.js 5 report.html    five rounds instead of three, on a page made before
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { withoutNode } from "../../packages/sim-cli/scripts/without-node.js";

const CHROMIUM = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"].find(
  (path) => path && existsSync(path),
);
/** Times round all the changes. */
const ROUNDS = Math.max(1, Number(process.argv[2] ?? 3));
/** Controls and the values they are moved through. */
const CHANGES = [
  ["set-passengers", "2", "8", "5"],
  ["set-speed", "3", "5", "4.5"],
  ["set-rail", "damp", "wet", "dry"],
  ["set-place", 1, 2, 3],
  ["set-brakes", "loco", "none", "file"],
  ["set-gradients", "60", "120", "100"],
  ["set-charge", "70", "40", "100"],
];

/** The same parts of the page's program, one by one. */
const PARTS = `
import { brakesAt, runOnce } from "@rideon/sim-core";
import { changed } from "./packages/sim-cli/dist/questions/report/controls.js";
import { planOf } from "./packages/sim-cli/dist/work/files.js";
import { unpacked } from "./packages/sim-cli/dist/questions/report/pack.js";
import { LIVE } from "./packages/sim-cli/dist/questions/report/page.js";
import { toldOf } from "./packages/sim-cli/dist/questions/report/told.js";
import { pictureTaker } from "./packages/sim-cli/dist/charts/picture.js";
globalThis.timeParts = () => {
  const { files, style } = unpacked(document.getElementById("files").textContent);
  const took = {};
  const part = (name, does) => {
    const from = performance.now();
    const made = does();
    (took[name] ??= []).push(performance.now() - from);
    return made;
  };
  for (let i = 0; i < 40; i++) {
    const now = { ...files, plan: { ...files.plan, passengers: i % 8 } };
    const plan = part("plan", () => planOf(now));
    const taker = pictureTaker();
    const run = part("lap", () => runOnce(plan, { every_s: 0.5, onRow: taker.row }));
    const stops = part("stops", () => brakesAt(plan, 0));
    const told = part("words", () => toldOf({ files: now, plan, gears: null, run, picture: taker.taken(), stops }, style));
    for (const [id, draw] of Object.entries(LIVE.quick)) {
      const html = part(id, () => draw(told));
      const at = document.getElementById(id);
      part(id + " in", () => { at.innerHTML = html; });
      part(id + " laid out", () => at.getBoundingClientRect());
    }
  }
  for (const each of Object.values(took)) each.splice(0, 10);
  return took;
};
`;

if (!CHROMIUM) console.log("the page's answers are not timed: no Chromium is found (or set CHROMIUM to its path)");
else await bench();

async function bench() {
  const folder = mkdtempSync(join(tmpdir(), "rideon-bench-"));
  const rideon = fileURLToPath(new URL("../../packages/sim-cli/bin/rideon.js", import.meta.url));
  const given = process.argv[3];
  if (!given) spawnSync(process.execPath, [rideon, "report", "tracks/ostlemere/plan.yaml", "--out", folder, "--quiet"]);
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
  try {
    await timed(browser, given ? resolve(given) : join(folder, "report.html"));
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}

async function timed(browser, file) {
  const first = [];
  for (let visit = 0; visit < 6; visit++) {
    const fresh = await opened(browser, file);
    first.push(await fresh.evaluate(moved, ["set-passengers", "5"]));
    await fresh.context().close();
  }
  console.log(`first change${" ".repeat(10)}median    90 %   worst   least`);
  for (const what of ["answered", "painted", "worker"])
    row(
      what,
      first.map((each) => each[what]),
    );

  const page = await opened(browser, file);
  const took = [];
  for (let round = 0; round < ROUNDS; round++) {
    for (const step of [1, 2, 3]) {
      for (const [id, ...values] of CHANGES) took.push(await page.evaluate(moved, [id, values[step - 1]]));
    }
  }
  console.log(`${took.length} changes${" ".repeat(8)}median    90 %   worst   least`);
  for (const what of ["answered", "painted", "worker"])
    row(
      what,
      took.map((each) => each[what]),
    );

  const slow = [];
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  for (const [id, ...values] of CHANGES) for (const value of values) slow.push(await page.evaluate(moved, [id, value]));
  await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  console.log("held to a quarter of its speed, the worker not");
  for (const what of ["answered", "painted"])
    row(
      what,
      slow.map((each) => each[what]),
    );

  const dragged = [];
  for (let step = 0; step < 10; step++)
    dragged.push(await page.evaluate(moved, ["set-passengers", String(step), true]));
  console.log("passengers drawn from 0 to 9 by a hand that does not wait");
  for (const what of ["answered", "painted"])
    row(
      what,
      dragged.map((each) => each[what]),
    );
  const from = Date.now();
  await page.locator(`html[data-turn="${took.length + slow.length + dragged.length}"]`).waitFor({ state: "attached" });
  console.log(`  worker's answers to the last ${told([Date.now() - from])} after it`);

  // A page made before has its own program; these are the parts of today's.
  if (process.argv[3]) return;
  const { outputFiles } = await build({
    stdin: { contents: PARTS, resolveDir: "." },
    bundle: true,
    write: false,
    format: "iife",
    plugins: [withoutNode],
  });
  await page.evaluate(outputFiles[0].text);
  console.log("of which");
  for (const [what, each] of Object.entries(await page.evaluate("timeParts()"))) row(what, each);
}

/** Opened, shown and left alone for a moment, as by a reader. */
async function opened(browser, file) {
  const context = await browser.newContext({ offline: true, viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  await page.goto(`file://${file}`);
  await page.waitForTimeout(1500);
  return page;
}

/** In the page: moves a control and waits for what follows. */
async function moved([id, value, hasty]) {
  const control = document.getElementById(id);
  const before = document.documentElement.dataset.turn;
  const worker = new Promise((done) => {
    new MutationObserver((_, self) => {
      if (document.documentElement.dataset.turn === before) return;
      self.disconnect();
      done(performance.now());
    }).observe(document.documentElement, { attributes: true });
  });
  await new Promise(requestAnimationFrame);
  if (typeof value === "number") control.selectedIndex = value;
  else control.value = value;
  const from = performance.now();
  control.dispatchEvent(new Event("input", { bubbles: true }));
  const answered = performance.now() - from;
  await new Promise(requestAnimationFrame);
  // A task after the frame's own: what it shows is painted by then.
  await new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = done;
    port2.postMessage(0);
  });
  const painted = performance.now() - from;
  if (hasty) return new Promise((done) => setTimeout(done, 60, { answered, painted }));
  return { answered, painted, worker: (await worker) - from };
}

function row(what, times) {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share) => sorted[Math.floor(share * (sorted.length - 1))];
  const columns = [at(0.5), at(0.9), at(1), at(0)].map((ms) => told([ms]).padStart(8));
  console.log(`  ${what.padEnd(18)}${columns.join("")}`);
}

function told([ms]) {
  return ms.toFixed(ms < 100 ? 1 : 0);
}
