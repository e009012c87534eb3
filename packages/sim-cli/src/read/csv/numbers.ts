import { quoted } from "@rideon/sim-core";

/** The mark before a number's decimals; the other one may part its thousands. */
export type Mark = "." | ",";

/** What begins the decimals of a file's numbers, and the line that shows it; 0 where it goes without saying. */
export interface Shown {
  mark: Mark;
  line: number;
}

/** Every number of a cell, without its sign: `12,5`, `1.234,5`, the two of `10 m in 6,1 s`. */
const NUMBERS = /[.,]?\d[\d.,]*/g;
/** A whole number with its thousands parted by one mark all along. */
const THOUSANDS = /^[1-9]\d{0,2}([.,])\d{3}(?:\1\d{3})*$/;
/** `1,250`: thousands, or three decimals. */
const EITHER = /^[1-9]\d{0,2}[.,]\d{3}$/;

const CALLED = { ".": "point", ",": "comma" } as const;
const other = (mark: Mark): Mark => (mark === "." ? "," : ".");

/** The mark that begins the decimals of a cell's numbers, where one of them shows it beyond doubt. */
export function markIn(cell: string): Mark | undefined {
  for (const [number] of cell.matchAll(NUMBERS)) {
    const mark = markOf(number);
    if (mark) return mark;
  }
  return undefined;
}

/** The mark of a number that is below a thousand for sure: `1,512` has three decimals. */
export const smallMarkIn = (cell: string): Mark | undefined =>
  EITHER.test(cell.replace(/^[-+\u2212]/, "")) ? (/[.,]/.exec(cell)?.[0] as Mark) : undefined;

function markOf(number: string): Mark | undefined {
  const marks = number.replaceAll(/\d/g, "");
  const last = marks.at(-1) as Mark | undefined;
  if (last === undefined || EITHER.test(number)) return undefined;
  if (marks.length === 1) return last;
  if (THOUSANDS.test(number)) return other(last);
  const [whole = "", ...decimals] = number.split(last);
  return decimals.length === 1 && THOUSANDS.test(whole) ? last : undefined;
}

/**
 * The cell with points before its decimals and nothing between thousands; what is no number in either way stays as it is.
 * @param shown by the file's other numbers; absent where none of them shows it
 * @param refuse is told of a number that can be read in two ways
 */
export function withPoints(cell: string, shown: Shown | undefined, refuse: (message: string) => void): string {
  return cell.replaceAll(NUMBERS, (number) => {
    const either = EITHER.test(number);
    const mark = either ? shown?.mark : markOf(number);
    if (either && (!mark || !number.includes(mark))) refuse(bothWays(number, shown));
    else if (shown && shown.line > 0 && mark && mark !== shown.mark) refuse(unlike(number, mark, shown));
    else if (mark && mark === (shown?.mark ?? mark)) return number.replaceAll(other(mark), "").replace(mark, ".");
    return number;
  });
}

function bothWays(number: string, shown: Shown | undefined): string {
  const [whole = "", thousandths = ""] = number.split(/[.,]/);
  const mark = shown?.mark ?? (number.includes(",") ? "," : ".");
  const decimal = Number(`${whole}.${thousandths}`);
  const written = `${whole}${mark}${thousandths}0`;
  return `"${number}" could be ${decimal} or ${whole}${thousandths}; write ${written} or ${whole}${thousandths}`;
}

const unlike = (number: string, mark: Mark, shown: Shown): string =>
  `${quoted(number)} has a ${CALLED[mark]} before its decimals, and line ${shown.line} a ${CALLED[shown.mark]}; write both alike`;
