import {
  CAUSES,
  type CauseName,
  type Filled,
  nearest,
  type Priors,
  type SheetReading,
  type Taken,
  type Told,
} from "@rideon/sim-core";
import { quotedCell, type Row, type Tell } from "../csv/csv.js";
import { TOLD } from "./told.js";
import { isNothing, ReadingError, readingIn, type UnitWords } from "./units.js";

/** A row of this beginning tells how much likelier than usual a cause is before anything is read. */
const PRIOR = "prior.";

/** What is known of a sheet's readings: how each is called, its unit, and what may be answered in place of a no. */
export type Known = Pick<SheetReading, "reading" | "unit" | "or_else">;

/** A filled sheet, and what was taken for granted in reading it. */
export interface ReadSheet extends Filled {
  readonly remarks: readonly string[];
}

/** Where in a row its reading and its value stand. */
export interface Places {
  reading: number;
  value: number;
}

export const knownOf = (sheet: readonly { readonly readings: readonly Known[] }[]): ReadonlyMap<string, Known> =>
  new Map(sheet.flatMap((step) => step.readings.map((each) => [each.reading, each])));

export const isEmpty = ({ taken, told }: Filled): boolean => taken.length === 0 && Object.keys(told ?? {}).length === 0;

/** Every row's reading; what is wrong with one is told, and the others are read all the same. */
export function filledIn(
  rows: readonly Row[],
  at: Places,
  known: ReadonlyMap<string, Known>,
  tell: Tell,
  units: UnitWords = {},
): ReadSheet {
  const filled = { taken: [] as Taken[], priors: {} as Priors, told: {} as Told, remarks: [] as string[] };
  const lines = new Map<string, number>();
  for (const { line, cells } of rows) {
    const [name = "", value = "", next = ""] = [cells[at.reading], cells[at.value], cells[at.value + 1]];
    const refuse = (message: string) => tell(line, message);
    const reading = known.get(name);
    const day = TOLD.find((each) => each.row === name);
    const cause = name.startsWith(PRIOR) ? causeOf(name.slice(PRIOR.length), refuse) : undefined;
    if (!reading && !day && !name.startsWith(PRIOR))
      refuse(unknownReading(name, [...known.keys(), ...TOLD.map((t) => t.row)]));
    if (!reading && !day && !cause) continue;
    const before = lines.get(name);
    if (before !== undefined && value !== "") refuse(`reading: ${name} stands on line ${before} already`);
    if (value === "" || before !== undefined) continue;
    lines.set(name, line);
    if (isParted(value, next)) {
      refuse(`value: ${name}: ${quotedCell(`${value},${next}`)} has a comma in it; write it with a point`);
      continue;
    }
    if (cause) filled.priors[cause] = priorIn(name, value, refuse);
    else if (day) takeTold(filled, day, value, units, refuse);
    else if (reading) takeInto(filled, reading, value, units, refuse);
  }
  return filled;
}

/** Half a number in each of two cells: a comma was meant for a point. */
const isParted = (value: string, next: string): boolean => /^\d+$/.test(value) && /^\d+(?: \S{1,3})?$/.test(next);

interface Into {
  taken: Taken[];
  told: Told;
  remarks: string[];
}

function takeInto(
  { taken, remarks }: Into,
  { reading, unit, or_else }: Known,
  text: string,
  units: UnitWords,
  refuse: (message: string) => void,
): void {
  try {
    if (or_else && unit === "yes/no" && isNothing(text)) taken.push({ reading: or_else.reading, value: 0 });
    else {
      const { value, remark } = readingIn(text, reading, unit, units);
      taken.push({ reading, value });
      if (remark) remarks.push(`${reading}: ${remark}`);
    }
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    refuse(`value: ${reading}: ${error.message}${or_else ? `; or else, ${or_else.answer}` : ""}`);
  }
}

function takeTold(
  filled: Into,
  { row, key, read }: (typeof TOLD)[number],
  text: string,
  units: UnitWords,
  refuse: (message: string) => void,
): void {
  try {
    const { value, remark } = read(text, units);
    filled.told = { ...filled.told, [key]: value };
    if (remark) filled.remarks.push(`${row}: ${remark}`);
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    refuse(`value: ${row}: ${error.message}`);
  }
}

function unknownReading(name: string, names: readonly string[]): string {
  if (name === "") return "reading: the cell is blank; it names a reading of the sheet";
  const near = nearest(name, names);
  const hint = near ? `did you mean ${near}?` : "rideon trial prints the sheet with their names";
  return `reading: ${name.slice(0, 60)} is not on this loco's sheet; ${hint}`;
}

function causeOf(name: string, refuse: (message: string) => void): CauseName | undefined {
  const cause = CAUSES.find((each) => each === name);
  if (cause) return cause;
  const near = nearest(name, CAUSES);
  refuse(
    `reading: ${PRIOR}${name.slice(0, 60)}: there is no such cause; ${near ? `did you mean ${PRIOR}${near}?` : `there are ${CAUSES.join(", ")}`}`,
  );
  return undefined;
}

/** `3`: three times as likely as usual. */
function priorIn(name: string, text: string, refuse: (message: string) => void): number {
  const value = /^\d*\.?\d+$/.test(text) ? Number(text) : Number.NaN;
  if (value > 0 && Number.isFinite(value)) return value;
  refuse(
    `value: ${name}: ${quotedCell(text)} is not a number above 0; it tells how much likelier than usual, such as 3 or 0.2`,
  );
  return 1;
}
