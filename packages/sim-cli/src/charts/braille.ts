/** A curve in braille dots, two across and four down in every character. */
export interface Curve {
  x: readonly number[];
  y: readonly number[];
  /** Of every so many columns of dots, only the first few are set: a line that is told apart without colour. */
  dashes?: Dashes;
}

export interface Dashes {
  set: number;
  of: number;
}

export interface Frame {
  columns: number;
  rows: number;
  x: readonly [from: number, to: number];
  y: readonly [from: number, to: number];
}

const ACROSS = 2;
const DOWN = 4;
/** Unicode's braille patterns: the bit of each dot, by column and row. */
const BITS = [
  [0x01, 0x02, 0x04, 0x40],
  [0x08, 0x10, 0x20, 0x80],
] as const;
const BLANK = 0x2800;

/** The curve as lines of text, top line first; points outside the frame lie on its edge. */
export function drawn({ x, y, dashes = UNBROKEN }: Curve, frame: Frame): string[] {
  const cells = Array.from({ length: frame.rows }, () => new Uint8Array(frame.columns));
  const dotX = scale(frame.x, frame.columns * ACROSS - 1);
  const dotY = scale(frame.y, frame.rows * DOWN - 1);
  const set = (column: number, fromTop: number) => {
    if (column % dashes.of >= dashes.set) return;
    const cell = cells[Math.floor(fromTop / DOWN)]!;
    cell[Math.floor(column / ACROSS)]! |= BITS[column % ACROSS]![fromTop % DOWN]!;
  };
  for (let i = 0; i < x.length; i++) {
    const [fromX, fromY] = [dotX(x[Math.max(0, i - 1)]!), dotY(y[Math.max(0, i - 1)]!)];
    const [toX, toY] = [dotX(x[i]!), dotY(y[i]!)];
    const dots = Math.max(1, Math.abs(toX - fromX), Math.abs(toY - fromY));
    for (let n = 0; n <= dots; n++) {
      const share = n / dots;
      set(Math.round(fromX + share * (toX - fromX)), frame.rows * DOWN - 1 - Math.round(fromY + share * (toY - fromY)));
    }
  }
  return cells.map((line) => String.fromCharCode(...Array.from(line, (bits) => (bits === 0 ? 0x20 : BLANK + bits))));
}

const UNBROKEN: Dashes = { set: 1, of: 1 };

/** A stretch of a line of characters, and the first of the pictures under it that has a dot there; -1 where none has. */
export interface Stretch {
  text: string;
  layer: number;
}

/** Pictures of one frame on top of each other: every line in stretches of one layer. */
export function overlaid(layers: readonly (readonly string[])[]): Stretch[][] {
  const [first = []] = layers;
  return first.map((line, row) => {
    const stretches: Stretch[] = [];
    for (let column = 0; column < line.length; column++) {
      const codes = layers.map((lines) => bitsOf(lines[row]?.charCodeAt(column) ?? BLANK));
      const bits = codes.reduce((all, each) => all | each, 0);
      const text = bits === 0 ? " " : String.fromCharCode(BLANK + bits);
      const layer = codes.findIndex((each) => each > 0);
      const last = stretches.at(-1);
      if (last?.layer === layer) last.text += text;
      else stretches.push({ text, layer });
    }
    return stretches;
  });
}

const bitsOf = (code: number): number => (code < BLANK ? 0 : code - BLANK);

/** To whole dots from 0 to `most`. */
export function scale([from, to]: readonly [number, number], most: number): (value: number) => number {
  const span = to > from ? to - from : 1;
  return (value) => Math.round(Math.min(1, Math.max(0, (value - from) / span)) * most);
}

/** A round figure that is at least `value`, or short of it by a hair that no dot shows. */
export function roundUp(value: number): number {
  if (!(value > 0)) return 1;
  const decade = 10 ** Math.floor(Math.log10(value));
  return decade * (ROUND.find((step) => step * decade >= value * (1 - HAIR)) ?? 10);
}

const ROUND = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10];
const HAIR = 0.01;
