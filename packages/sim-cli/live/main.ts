import type { FiledStops } from "../src/questions/brakes/stopping.svg.js";
import { BOUNDS, changed, type Settings, wrongWith } from "../src/questions/report/controls.js";
import { lapOf } from "../src/questions/report/facts.js";
import { unpacked } from "../src/questions/report/pack.js";
import { figuresBehind, LIVE } from "../src/questions/report/page.js";
import { stopsInWords } from "../src/questions/report/stop.words.js";
import { type QuicklyTold, type Style, type Told, toldOf } from "../src/questions/report/told.js";
import { type Asked, answering, type Done, type Failed, type Surely } from "../src/questions/report/worker.js";
import { type Files, planOf } from "../src/work/files.js";
import { alteredInWords, restore, showAddress, stayOnLinks } from "./address.js";
import { cover, element, uncover } from "./cover.js";
import { startCursor } from "./cursor.js";

function work(): void {
  const answer = answering((done) => self.postMessage(done));
  self.addEventListener("message", ({ data }: MessageEvent<Asked>) =>
    answer(data).catch((error) => self.postMessage({ turn: data.turn, failed: String(error) } satisfies Failed)),
  );
}

const SLOW = Object.keys(LIVE.slow);
const ALL = [...Object.keys(LIVE.quick), ...SLOW];
const WORKING = "Being worked out for what you have set …";
const WRONG = "Not worked out: what is set above will not do.";
const FAILED =
  "Not worked out: this browser did not finish it. What stood here is taken away. Load the page again to have it.";

function start(): void {
  const given = unpacked(element("files").textContent ?? "") as {
    files: Files;
    style: Style;
    filed: readonly FiledStops[];
  };
  const form = element("controls") as HTMLFormElement;
  const failed = (why: string) => {
    cover(SLOW, FAILED);
    element("stop-here").textContent = `${FAILED} (${why})`;
  };
  const worker = newWorker(failed);
  const cursor = startCursor();
  let turn = 0;
  let asked: QuicklyTold | undefined;
  let answered: Told | undefined;
  let own: QuicklyTold["picture"] | undefined;

  const follow = () => {
    turn++;
    element("altered").textContent = alteredInWords(form);
    element("altered").hidden = element("altered").textContent === "";
    showAddress(form);
    if (!allWillDo(form)) {
      cover(ALL, WRONG);
      element("stop-here").textContent = WRONG;
      return;
    }
    try {
      own ??= quickly(given.files, given.style, 0).told.picture;
      const settings = settingsOf(form);
      const ghost = element("altered").hidden ? undefined : own;
      const { told, parts, stops } = quickly(changed(given.files, settings), given.style, settings.chainage_m, ghost);
      asked = told;
      element("stop-here").textContent = stops;
      show(parts);
      cursor(told);
      if (!worker) return failed("it refuses a worker");
      cover(SLOW, WORKING);
      worker.postMessage({ turn, files: told.files } satisfies Asked);
    } catch (error) {
      cover(ALL, WRONG);
      element("stop-here").textContent = `This cannot be worked out: ${error instanceof Error ? error.message : error}`;
    }
  };

  worker?.addEventListener("message", ({ data: done }: MessageEvent<Done | Failed | Surely>) => {
    if (done.turn !== turn || !asked) return;
    if ("failed" in done) return failed(done.failed);
    if ("sureness" in done) {
      if (!answered) return;
      const sure: Told = { ...answered, sureness: done.sureness };
      show(SURE.map((id) => [id, LIVE.slow[id]?.(sure) ?? ""]));
      element("answers").textContent = JSON.stringify(figuresBehind(sure));
      return;
    }
    const told: Told = { ...asked, gears: null, ...done.day, ...(asked.ghost && { filed: given.filed }) };
    answered = told;
    show(drawn(LIVE.slow, told));
    cover(["sure-body"], WORKING);
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
  form.addEventListener("input", ({ target }) => {
    if (target instanceof HTMLElement && target.id === "set-sure") tellSure(form);
    else follow();
  });
  tellSure(form);
  // The values are back only when the event is over.
  const back = () => {
    tellSure(form);
    follow();
  };
  form.addEventListener("reset", () => setTimeout(back));
  stayOnLinks();
  if (restore(form)) follow();
}

/** Parts that tell how sure the answers are. */
const SURE = ["may-body", "answers-body", "day-body", "load-body", "why-body", "sure-body", "card-body"];

/** The band, its bad end, or neither. */
function tellSure(form: HTMLFormElement): void {
  document.documentElement.dataset["sure"] = (form.elements.namedItem("set-sure") as HTMLSelectElement).value;
}

/** The first laps take a browser several times as long as later ones: some are run before the reader asks. */
const WARM_UPS = 5;
/** After the page is shown, and between them: the reader may scroll. */
const WARM_UP_ms = 150;

/** All that follows at once, ready to be shown. @param ghost the lap to draw behind it */
function quickly(files: Files, style: Style, chainage_m: number, ghost?: QuicklyTold["picture"]) {
  const plan = planOf(files);
  const lap = lapOf(plan, chainage_m);
  const told = toldOf({ files, plan, ...lap, ...(ghost && { ghost }) }, style);
  return { told, parts: drawn(LIVE.quick, told), stops: stopsInWords(lap.stops, told) };
}

const drawn = <T>(parts: Record<string, (told: T) => string>, told: T): [id: string, html: string][] =>
  Object.entries(parts).map(([id, draw]) => [id, draw(told)]);

function show(parts: readonly [id: string, html: string][]): void {
  for (const [id, html] of parts) element(id).innerHTML = html;
  uncover(parts.map(([id]) => id));
}

/** What will not do is told at its field. */
function allWillDo(form: HTMLFormElement): boolean {
  let good = true;
  for (const id of Object.keys(BOUNDS)) {
    const field = form.elements.namedItem(id) as HTMLInputElement | null;
    if (!field) continue;
    const wrong = wrongWith(id, field.value);
    const told = element(`${id}-wrong`);
    told.textContent = wrong ?? "";
    told.hidden = wrong === undefined;
    field.setAttribute("aria-invalid", String(wrong !== undefined));
    good &&= wrong === undefined;
  }
  return good;
}

/** None where the browser refuses one. @param failed told why it came to its end */
function newWorker(failed: (why: string) => void): Worker | undefined {
  try {
    const program = new Blob([element("program").textContent ?? ""], { type: "text/javascript" });
    const worker = new Worker(URL.createObjectURL(program));
    worker.addEventListener("error", ({ message }) => failed(message || "its worker failed"));
    worker.addEventListener("messageerror", () => failed("an answer could not be read"));
    return worker;
  } catch {
    return undefined;
  }
}

function settingsOf(form: HTMLFormElement): Settings {
  const value = (id: string): string => (form.elements.namedItem(id) as HTMLInputElement | null)?.value ?? "";
  const number = (id: string): number => Number(value(id).trim().replace(",", "."));
  const label = form.querySelector('label[for="set-speed"]')?.textContent ?? "";
  return {
    passengers: number("set-passengers"),
    speed: label === "" ? Number.NaN : number("set-speed"),
    speedUnit: label.replace(/^.*, /, ""),
    rail: value("set-rail"),
    charge_percent: number("set-charge"),
    brakes: value("set-brakes") as Settings["brakes"],
    brake_N: number("set-brake-force"),
    gradients_percent: number("set-gradients"),
    chainage_m: number("set-place"),
  };
}

/** The same program runs twice: in the page, and as its worker, where there is no document. */
if (typeof document === "undefined") work();
else start();
