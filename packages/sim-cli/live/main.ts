import { brakes, createPlan, InputError, laps } from "@rideon/sim-core";
import { changed, type Settings } from "../src/page/controls.js";
import { type Day, dayOf, type Facts, type Files, type Lap, lapOf, planOf } from "../src/page/facts.js";
import { unpacked } from "../src/page/pack.js";
import { answersOf, LIVE } from "../src/page/page.js";
import { stopsInWords } from "../src/page/stop.words.js";
import { type Style, type Told, toldOf } from "../src/page/told.js";
import { startCursor } from "./cursor.js";

interface Asked {
  turn: number;
  files: Files;
}

interface Done {
  turn: number;
  day: Day;
}

function work(): void {
  self.addEventListener("message", ({ data: { turn, files } }: MessageEvent<Asked>) => {
    const plan = planOf(files);
    const day = dayOf(files, { laps: laps(plan), brakes: brakes(plan) });
    self.postMessage({ turn, day } satisfies Done);
  });
}

function start(): void {
  const given = unpacked(element("files").textContent ?? "") as { files: Files; style: Style };
  const form = element("controls") as HTMLFormElement;
  const worker = newWorker();
  let turn = 0;
  let asked: { files: Files; lap: Lap } | undefined;

  const show = (ids: Record<string, (facts: ReturnType<typeof toldOf>) => string>, facts: Omit<Facts, "plan">) => {
    const words = toldOf(facts, given.style);
    for (const [id, draw] of Object.entries(ids)) {
      element(id).innerHTML = draw(words);
      element(id).classList.remove("waiting");
    }
    return words;
  };

  const cursor = startCursor();
  const follow = () => {
    if (!form.reportValidity()) return;
    const settings = settingsOf(form);
    const files = changed(given.files, settings);
    turn++;
    try {
      const plan = createPlan(files.plan, files.loco, files.track, files.tables);
      const lap = lapOf(plan, settings.chainage_m);
      asked = { files, lap };
      const words = show(LIVE.quick, { files, gears: null, ...lap, ...NO_DAY });
      cursor(words);
      element("stop-here").textContent = stopsInWords(lap.stops, words);
      for (const id of Object.keys(LIVE.slow)) element(id).classList.add("waiting");
      worker?.postMessage({ turn, files } satisfies Asked);
    } catch (error) {
      element("stop-here").textContent =
        error instanceof InputError ? error.message : `This cannot be worked out: ${error}`;
    }
  };

  worker?.addEventListener("message", ({ data: done }: MessageEvent<Done>) => {
    if (done.turn !== turn || !asked) return;
    const words = show(LIVE.slow, { files: asked.files, gears: null, ...asked.lap, ...done.day });
    element("answers").textContent = JSON.stringify(answersOf(words));
    document.documentElement.dataset["turn"] = String(turn);
  });
  form.hidden = false;
  setTimeout(() => cursor(warmedUp(given.files, given.style)), WARM_UP_ms);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", follow);
  // The values are back only when the event is over.
  form.addEventListener("reset", () => setTimeout(follow));
}

/** After the page is shown. */
const WARM_UP_ms = 300;

/** The first lap takes a browser several times as long as the next: one is run before the reader asks. */
function warmedUp(files: Files, style: Style): Told {
  const told = toldOf({ files, gears: null, ...lapOf(planOf(files), 0), ...NO_DAY }, style);
  for (const draw of Object.values(LIVE.quick)) draw(told);
  return told;
}

/** Until the worker is done; what is drawn at once asks nothing of it. */
const NO_DAY = {} as Day;

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
