import { plain } from "../ground/plain.js";
import { wrap } from "../words/table.js";

/** Where a picture is looked at: a screen or an A4 page, or a phone held upright. */
export interface Sheet {
  width_px: number;
  /** Room for figures beside the panels. */
  left_px: number;
  right_px: number;
  font_px: number;
  /** Set before the ids of a picture: a page may hold it twice. */
  id: string;
}

/** A rectangle on the sheet, its edges in pixels. */
export interface Box {
  left: number;
  right: number;
  top: number;
  foot: number;
}

export const WIDE: Sheet = { width_px: 720, left_px: 46, right_px: 46, font_px: 13, id: "w" };
export const NARROW: Sheet = { width_px: 360, left_px: 38, right_px: 38, font_px: 12, id: "n" };

export const plotRight_px = ({ width_px, right_px }: Sheet): number => width_px - right_px;
export const plotWidth_px = (sheet: Sheet): number => plotRight_px(sheet) - sheet.left_px;

/** Text that people typed, with nothing in it that a page would obey; it may stand in an attribute as well. */
export const safe = (text: string): string =>
  plain(text)
    .replaceAll(/\p{Cs}/gu, "\u{fffd}")
    .replaceAll(/[&<>"']/g, (c) => ENTITIES[c] ?? c);

const ENTITIES: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

type Value = string | number | undefined;

/** An element with its attributes, made safe, and its content, which already is. */
export function tag(name: string, attributes: Record<string, Value>, content = ""): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? tenth(value) : safe(value ?? "")}"`)
    .join("");
  return content === "" ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** Of a pixel: finer is not seen. */
export const tenth = (value: number): string => (Math.round(10 * value) / 10).toString();

/** Words at a point; halo keeps them readable over lines. */
export const words = (x: number, y: number, text: string, attributes: Record<string, Value> = {}): string =>
  text === "" ? "" : tag("text", { x, y, ...attributes }, safe(text));

export const HALO = { stroke: "#fff", "stroke-width": 3, "stroke-linejoin": "round", "paint-order": "stroke" };
export const QUIET = "#444";

/** About as wide as this stands in a sans serif. */
export const textWidth_px = (text: string, font_px: number): number => 0.56 * font_px * text.length;

/** A name that is no longer than a picture has room for. */
export const short = (text: string, most = 24): string => {
  const letters = Array.from(text);
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join("")}…`;
};

/** A picture before it has its frame: what it shows, what to see in it, and its marks. */
export interface Figure {
  /** Part of its ids, and what tests know it by. */
  name: string;
  title: string;
  /** What to see, for everyone and for those who cannot. */
  see: string;
  height_px: number;
  body: string;
}

/** The picture inside a page, whose text stands beside it. */
export function framed({ name, title, see, height_px, body }: Figure, { width_px, font_px, id }: Sheet): string {
  const ids = { title: `${id}-${name}-title`, see: `${id}-${name}-desc` };
  return tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${width_px} ${tenth(height_px)}`,
      role: "img",
      "aria-labelledby": `${ids.title} ${ids.see}`,
      "font-family": "system-ui, 'Segoe UI', 'DejaVu Sans', sans-serif",
      "font-size": font_px,
      fill: "#000",
      "data-figure": name,
    },
    `${tag("title", { id: ids.title }, safe(title))}${tag("desc", { id: ids.see }, safe(see))}${body}`,
  );
}

/** Pictures one below the other with their titles and what to see: a file that stands alone. */
export function alone(figures: readonly Figure[], sheet: Sheet): string {
  const [first] = figures;
  if (!first) return "";
  const columns = Math.floor(sheet.width_px / textWidth_px("x", sheet.font_px)) - 2;
  let at = 4;
  const parts = figures.map((figure) => {
    const heading = wrap(figure.title, Math.floor(0.8 * columns)).map((line) => {
      at += 1.5 * sheet.font_px;
      return words(6, at, line, { "font-weight": "bold", "font-size": 1.2 * sheet.font_px });
    });
    const lines = wrap(figure.see, columns).map((line) => {
      at += 1.35 * sheet.font_px;
      return words(6, at, line);
    });
    at += 10;
    const body = tag("g", { transform: `translate(0 ${tenth(at)})`, "data-figure": figure.name }, figure.body);
    at += figure.height_px + 12;
    return [...heading, ...lines, body].join("");
  });
  const paper = tag("rect", { width: sheet.width_px, height: at, fill: "#fff" });
  const whole = {
    ...first,
    see: figures.map(({ see }) => see).join(" "),
    height_px: at,
    body: paper + parts.join("\n"),
  };
  return `${framed(whole, sheet)}\n`;
}
