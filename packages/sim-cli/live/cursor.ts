import { stripOf } from "../src/charts/line-strip.js";
import type { QuicklyTold } from "../src/questions/report/told.js";
import { NARROW, plotWidth_px, type Sheet, WIDE } from "../src/svg/draw.js";
import { shortSpeed } from "../src/words/eyes.js";

const SVG = "http://www.w3.org/2000/svg";

/**
 * One cursor through all panels of the lap: moved by its slider, by keys, or by pointing at the picture.
 * @returns what to call with every new lap
 */
export function startCursor(): (told: QuicklyTold) => void {
  const slider = document.getElementById("cursor") as HTMLInputElement;
  const reads = document.getElementById("cursor-reads") as HTMLOutputElement;
  const body = document.getElementById("lap-body") as HTMLElement;
  let told: QuicklyTold | undefined;

  const show = () => {
    if (!told) return;
    const { picture, plan } = told;
    const { length_m } = stripOf(plan, picture);
    const at_m = (length_m * Number(slider.value)) / Number(slider.max);
    reads.textContent = readings(told, at_m);
    for (const svg of body.querySelectorAll("svg")) mark(svg, at_m / length_m, brief(told, at_m));
  };
  slider.addEventListener("input", show);
  body.addEventListener("pointermove", (event) => {
    const svg = (event.target as Element).closest("svg");
    if (!svg) return;
    const { left, width } = svg.getBoundingClientRect();
    const sheet = sheetOf(svg);
    const x = ((event.clientX - left) * sheet.width_px) / width;
    const share = (x - sheet.left_px) / plotWidth_px(sheet);
    if (share < 0 || share > 1) return;
    slider.value = String(share * Number(slider.max));
    show();
  });
  return (now) => {
    told = now;
    (document.getElementById("cursor-line") as HTMLElement).hidden = now.picture.run_m.length < 2;
    show();
  };
}

/** Rows of the trace are no further apart, m. */
const BETWEEN_ROWS_m = 3;

const sheetOf = (svg: Element): Sheet => (svg.closest(".narrow") ? NARROW : WIDE);

/** The row of the trace there; undefined beyond where the run ended. */
function rowAt({ picture: { run_m } }: QuicklyTold, at_m: number): number | undefined {
  const last = run_m.length - 1;
  if (at_m > (run_m[last] ?? 0) + BETWEEN_ROWS_m) return undefined;
  const found = run_m.findIndex((each) => each >= at_m);
  return found < 0 ? last : found;
}

/** What stands at the cursor itself. */
function brief(told: QuicklyTold, at_m: number): string {
  const row = rowAt(told, at_m);
  if (row === undefined) return "";
  const { picture, eyes } = told;
  const amps = (picture.motor_current_A[row] ?? 0).toFixed(0);
  return `${shortSpeed(picture.speed_mps[row] ?? 0, eyes)}, motor ${amps} A`;
}

function readings(told: QuicklyTold, at_m: number): string {
  const after = rowAt(told, at_m);
  if (after === undefined) return "beyond where the run ended";
  const { picture, eyes } = told;
  const whole = (values: readonly number[]) => Math.round(values[after] ?? 0);
  const reads = [
    eyes.place(picture.chainage_m[after] ?? 0),
    eyes.speed(picture.speed_mps[after] ?? 0),
    `motor ${whole(picture.motor_current_A)} A`,
    `battery ${whole(picture.battery_current_A)} A at ${(picture.battery_voltage_V[after] ?? 0).toFixed(1)} V`,
    `winding ${eyes.of(picture.winding_temperature_C[after] ?? 0, "temperature")}`,
  ];
  return reads.join(" · ");
}

/** A line from top to bottom, put in on first use. */
function mark(svg: SVGSVGElement, share: number, text: string): void {
  const sheet = sheetOf(svg);
  const line = svg.querySelector(".cursor") ?? svg.appendChild(document.createElementNS(SVG, "path"));
  line.setAttribute("class", "cursor");
  line.setAttribute("d", `M${sheet.left_px + share * plotWidth_px(sheet)} 0V${svg.viewBox.baseVal.height}`);
  line.setAttribute("stroke", "#0b4f85");
  line.setAttribute("stroke-width", "1.2");
  const reads = svg.querySelector(".cursor-reads") ?? svg.appendChild(document.createElementNS(SVG, "text"));
  const right = share > 0.5;
  reads.setAttribute("class", "cursor-reads");
  reads.setAttribute("x", String(sheet.left_px + share * plotWidth_px(sheet) + (right ? -5 : 5)));
  reads.setAttribute("y", String(svg.viewBox.baseVal.height - 4));
  reads.setAttribute("text-anchor", right ? "end" : "start");
  reads.setAttribute("font-weight", "bold");
  reads.setAttribute("fill", "#0b4f85");
  reads.setAttribute("stroke", "#fff");
  reads.setAttribute("stroke-width", "5");
  reads.setAttribute("paint-order", "stroke");
  reads.textContent = text;
}
