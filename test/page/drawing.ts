/** Reads a drawing back: what a person with a ruler would make of its axes, lines and words. */

export interface PanelRead {
  heading: string;
  /** Value of a height or a place in pixels, by the figures beside the axis. */
  value(y_px: number): number;
  along(x_px: number): number;
  lines: Map<string, (readonly [x_px: number, y_px: number])[]>;
}

/** The text of the panel from its opening tag to where the next panel begins. */
export function panelOf(svg: string, name: string, footOf = name): PanelRead {
  const part = (which: string) => {
    const from = svg.indexOf(`data-panel="${which}"`);
    if (from < 0) throw new Error(`no panel ${which}`);
    const to = svg.indexOf("data-panel=", from + 12);
    return svg.slice(from, to < 0 ? undefined : to);
  };
  const text = part(name);
  const heading = /<text x="2"[^>]*font-weight="bold"[^>]*>([^<]*)</.exec(text)?.[1] ?? "";
  // Figures stand 4 px below their marks, so that the mark is at the middle of the letters.
  const value = ruler(ticks(text, "y").map(({ y, value: v }) => [y - 4, v] as const));
  const along = ruler(ticks(part(footOf), "x").map(({ x, value: v }) => [x, v] as const));
  const lines = new Map(
    Array.from(
      text.matchAll(/<path d="([^"]*)"[^>]*data-line="([^"]*)"/g),
      ([, d, line]) => [plainly(line!), pointsOf(d!)] as const,
    ),
  );
  return { heading, value, along, lines };
}

function ticks(text: string, which: string): { x: number; y: number; value: number }[] {
  const found = text.matchAll(new RegExp(`<text x="([^"]*)" y="([^"]*)"[^>]*data-tick="${which}"[^>]*>([^<]*)<`, "g"));
  return Array.from(found, ([, x, y, value]) => ({
    x: Number(x),
    y: Number(y),
    value: Number(value!.replace("−", "-")),
  }));
}

const plainly = (text: string): string => text.replaceAll("&#39;", "'");

/** Straight through the first and the last of its marks. */
function ruler(marks: (readonly [number, number])[]): (at: number) => number {
  const [first, last] = [marks[0], marks[marks.length - 1]];
  if (!first || !last || first === last) throw new Error("an axis of fewer than two figures");
  return (at) => first[1] + ((at - first[0]) * (last[1] - first[1])) / (last[0] - first[0]);
}

const pointsOf = (d: string): (readonly [number, number])[] =>
  Array.from(d.matchAll(/[ML]([\d.-]+) ([\d.-]+)/g), ([, x, y]) => [Number(x), Number(y)] as const);

/** Tags opened and not closed, in order: none in a drawing that a strict reader takes. */
export function unclosed(xml: string): string[] {
  const open: string[] = [];
  for (const [, closing, name, self] of xml.matchAll(/<(\/?)([a-zA-Z][\w-]*)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (self) continue;
    if (!closing) open.push(name!);
    else if (open.pop() !== name) return [`</${name}>`];
  }
  return open;
}
