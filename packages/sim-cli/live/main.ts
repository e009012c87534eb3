import { InputError } from "@rideon/sim-core";
import { changed, type Settings } from "../src/questions/report/controls.js";
import { lapOf } from "../src/questions/report/facts.js";
import { unpacked } from "../src/questions/report/pack.js";
import { figuresBehind, LIVE } from "../src/questions/report/page.js";
import { stopsInWords } from "../src/questions/report/stop.words.js";
import { type QuicklyTold, type Style, type Told, toldOf } from "../src/questions/report/told.js";
import { type Asked, answering, type Done } from "../src/questions/report/worker.js";
import { type Files, planOf } from "../src/work/files.js";
import { startCursor } from "./cursor.js";

function work(): void {
  const answer = answering((done) => self.postMessage(done));
  self.addEventListener("message", ({ data }: MessageEvent<Asked>) => answer(data));
}

function start(): void {
  const given = unpacked(element("files").textContent ?? "") as { files: Files; style: Style };
  const form = element("controls") as HTMLFormElement;
  const worker = newWorker();
  const cursor = startCursor();
  let turn = 0;
  let asked: QuicklyTold | undefined;

  const follow = () => {
    if (!form.reportValidity()) return;
    turn++;
    try {
      const settings = settingsOf(form);
      const { told, parts, stops } = quickly(changed(given.files, settings), given.style, settings.chainage_m);
      asked = told;
      element("stop-here").textContent = stops;
      show(parts);
      cursor(told);
      for (const id of Object.keys(LIVE.slow)) element(id).classList.add("waiting");
      worker?.postMessage({ turn, files: told.files } satisfies Asked);
    } catch (error) {
      element("stop-here").textContent =
        error instanceof InputError ? error.message : `This cannot be worked out: ${error}`;
    }
  };

  worker?.addEventListener("message", ({ data: done }: MessageEvent<Done>) => {
    if (done.turn !== turn || !asked) return;
    const told: Told = { ...asked, gears: null, ...done.day };
    show(drawn(LIVE.slow, told));
    element("answers").textContent = JSON.stringify(figuresBehind(told));
    document.documentElement.dataset["turn"] = String(turn);
  });
  const warmUp = (times: number) => {
    if (turn > 0) return;
    const { told } = quickly(given.files, given.style, 0);
    if (times === WARM_UPS) cursor(told);
    if (times > 1) setTimeout(warmUp, WARM_UP_ms, times - 1);
  };
  form.hidden = false;
  setTimeout(warmUp, WARM_UP_ms, WARM_UPS);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", follow);
  // The values are back only when the event is over.
  form.addEventListener("reset", () => setTimeout(follow));
}

/** The first laps take a browser several times as long as later ones: some are run before the reader asks. */
const WARM_UPS = 5;
/** After the page is shown, and between them: the reader may scroll. */
const WARM_UP_ms = 150;

/** All that follows at once, ready to be shown. */
function quickly(files: Files, style: Style, chainage_m: number) {
  const plan = planOf(files);
  const lap = lapOf(plan, chainage_m);
  const told = toldOf({ files, plan, ...lap }, style);
  return { told, parts: drawn(LIVE.quick, told), stops: stopsInWords(lap.stops, told) };
}

const drawn = <T>(parts: Record<string, (told: T) => string>, told: T): [id: string, html: string][] =>
  Object.entries(parts).map(([id, draw]) => [id, draw(told)]);

function show(parts: readonly [id: string, html: string][]): void {
  for (const [id, html] of parts) {
    element(id).innerHTML = html;
    element(id).classList.remove("waiting");
  }
}

const element = (id: string): HTMLElement => document.getElementById(id) as HTMLElement;

/** None where the browser refuses one: the quick answers still follow. */
function newWorker(): Worker | undefined {
  try {
    const program = new Blob([element("program").textContent ?? ""], { type: "text/javascript" });
    return new Worker(URL.createObjectURL(program));
  } catch {
    return undefined;
  }
}

function settingsOf(form: HTMLFormElement): Settings {
  const value = (id: string): string => (form.elements.namedItem(id) as HTMLInputElement | null)?.value ?? "";
  const label = form.querySelector('label[for="set-speed"]')?.textContent ?? "";
  return {
    passengers: Number(value("set-passengers")),
    speed: label === "" ? Number.NaN : Number(value("set-speed")),
    speedUnit: label.replace(/^.*, /, ""),
    rail: value("set-rail"),
    charge_percent: Number(value("set-charge")),
    brakes: value("set-brakes") as Settings["brakes"],
    brake_N: Number(value("set-brake-force")),
    gradients_percent: Number(value("set-gradients")),
    chainage_m: Number(value("set-place")),
  };
}

/** The same program runs twice: in the page, and as its worker, where there is no document. */
if (typeof document === "undefined") work();
else start();
