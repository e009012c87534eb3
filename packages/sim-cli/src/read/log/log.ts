import type { LogColumns, Logged } from "@rideon/sim-core";
import { checkWidth, eachRow, isUnparted, numberOf, quotedCell, type Row, type Tell } from "../csv/csv.js";
import { type Diagnostic, tellFirst } from "../diagnostics.js";
import { clockIn, isClock } from "./clock.js";
import { headingOf, type LogHeading, type Mapped, meantFor } from "./headings.js";

/** A log as read, and the line of each of its readings. */
export interface Log {
  columns: LogColumns;
  lines: Int32Array;
  /** Columns that hold nothing of ours. */
  leftOut: string[];
  /** Rows at the same time as the one before them. */
  repeated: number;
}

/**
 * Reads a log: comment lines begin with #, a header names the columns and their units, a row for each reading; blank cells
 * where nothing was read.
 * @returns it in SI units, or nothing where `problems` says why
 */
export function readLog(
  file: string,
  text: string,
  mapped: readonly Mapped[],
  problems: Diagnostic[],
): Log | undefined {
  const tell = tellFirst(file, problems);
  let taker: Taker | undefined;
  let header: Row | undefined;
  const parted = eachRow(text, tell, (row) => {
    if (header) taker?.take(row);
    else {
      header = row;
      taker = takerFor(row, mapped, tell, problems);
    }
  });
  if (!parted) return undefined;
  if (!header) tell(1, "the file is empty; it begins with a header such as time_s,speed_mph,battery_current_A");
  return problems.length > 0 ? undefined : taker?.log();
}

/** Columns with names of their own are told by an option: an example of one that stands there. */
const ownNames = ([first]: readonly string[]): string =>
  first === undefined
    ? ""
    : `. One with a name of its own is told by --column: --column "${first}=time_s", if that is it`;

interface Taker {
  take(row: Row): void;
  log(): Log;
}

interface Column {
  index: number;
  name: string;
  heading: LogHeading;
}

function takerFor(
  header: Row,
  mapped: readonly Mapped[],
  tell: Tell,
  problems: readonly Diagnostic[],
): Taker | undefined {
  if (isUnparted(header, tell)) return undefined;
  const { columns, leftOut } = columnsOf(header, mapped, tell);
  const timed = columns.find(({ heading: { of } }) => of === "time" || of === "clock");
  if (!timed) tell(header.line, `a column of time is missing: time_s, or time by the clock${ownNames(leftOut)}`);
  if (columns.length < 2 || !timed) {
    if (timed)
      tell(header.line, "there is nothing beside the time: speed_mph or distance_m, and battery_current_A or another");
    return undefined;
  }
  const clock = clockIn();
  let clocked = false;
  const lap = columns.find(({ heading: { of } }) => of === "lap");
  const told = columns.filter((each) => each !== timed && each !== lap);
  const [times, lines] = [growing(), growing()];
  const values = told.map(growing);
  const laps: { i: number; cell: string }[] = [];
  let last_s = Number.NEGATIVE_INFINITY;
  let repeated = 0;
  return {
    take(row) {
      const { line, cells } = row;
      checkWidth(row, header.cells.length, tell);
      const number = (at: Column): number => {
        const cell = cells[at.index] ?? "";
        const value = plainNumber(cell);
        return at.heading.toSI(
          Number.isNaN(value) ? numberOf(cell, (message) => tell(line, `${at.name}: ${message}`)) : value,
        );
      };
      const when = cells[timed.index] ?? "";
      if (timed.heading.of === "time" && isClock(when)) {
        // Once: the whole column is so.
        if (!clocked)
          tell(
            line,
            `${timed.name}: ${quotedCell(when)} is a time by the clock; the column is then called time, without a unit, or --column "${timed.name}=time" tells so`,
          );
        clocked = true;
        return;
      }
      const time_s =
        timed.heading.of === "clock"
          ? clock(when, (message) => tell(line, `${timed.name}: ${message}`))
          : number(timed);
      if (time_s < last_s)
        tell(line, `${timed.name}: ${cells[timed.index]} is before the reading above it; rows stand in order of time`);
      if (time_s === last_s) {
        repeated++;
        return;
      }
      last_s = time_s;
      const mark = lap ? (cells[lap.index] ?? "") : "";
      if (problems.length > 0) {
        // Nothing is kept any more: only what else is wrong is looked for.
        for (const each of told) if ((cells[each.index] ?? "") !== "") number(each);
        return;
      }
      if (mark !== "") laps.push({ i: times.count(), cell: mark });
      times.push(time_s);
      lines.push(line);
      for (const [k, each] of told.entries())
        values[k]?.push((cells[each.index] ?? "") === "" ? Number.NaN : number(each));
    },
    log: () => ({
      columns: {
        time_s: times.values(),
        ...(Object.fromEntries(told.map((each, k) => [each.heading.of, values[k]?.values()])) as {
          [Q in Logged]?: Float64Array;
        }),
        ...(lap && { laps: marksOf(laps, times.count()) }),
      },
      lines: Int32Array.from(lines.values()),
      leftOut,
      repeated,
    }),
  };
}

const PLAIN = /^-?\d+(?:\.\d+)?$/;

/** Most numbers are plain; NaN is for what is to be looked at closely. */
const plainNumber = (cell: string): number => (PLAIN.test(cell) ? Number(cell) : Number.NaN);

function columnsOf(header: Row, mapped: readonly Mapped[], tell: Tell): { columns: Column[]; leftOut: string[] } {
  const columns: Column[] = [];
  const leftOut: string[] = [];
  for (const [index, name] of header.cells.entries()) {
    const own = mapped.find((each) => each.name === name);
    const heading = own?.heading ?? headingOf(name);
    const meant = heading ? undefined : meantFor(name);
    const rival = heading && columns.find((each) => each.heading.of === heading.of);
    if (rival) tell(header.line, `${name} cannot stand beside ${rival.name}; take one of them out`);
    else if (heading) columns.push({ index, name, heading });
    else if (meant && !/^note/.test(name))
      tell(
        header.line,
        `${name} is not a column of a log; did you mean ${meant}? Another can be told by --column "${name}=…"`,
      );
    else if (name !== "") leftOut.push(name);
  }
  for (const { name } of mapped)
    if (!header.cells.includes(name))
      tell(header.line, `--column "${name}=…": there is no such heading; there are ${header.cells.join(", ")}`);
  return { columns, leftOut };
}

/**
 * Readings at which laps begin: where the number of the lap changes, if it stands at most readings; else every reading that
 * has anything in the column but 0, once for as long as the button is held.
 */
function marksOf(laps: readonly { i: number; cell: string }[], count: number): number[] {
  const numbered =
    laps.length > count / 2 && laps.every(({ cell }) => PLAIN.test(cell)) && laps.some(({ cell }) => Number(cell) > 1);
  if (numbered) return laps.filter(({ cell }, k) => k > 0 && cell !== laps[k - 1]?.cell).map(({ i }) => i);
  const pressed = laps.filter(({ cell }) => cell !== "0").map(({ i }) => i);
  return pressed.filter((i, k) => i !== (pressed[k - 1] ?? Number.NaN) + 1);
}

/** Numbers in an array that doubles as it fills. */
function growing() {
  let kept = new Float64Array(1024);
  let count = 0;
  return {
    push(value: number) {
      if (count === kept.length) {
        const more = new Float64Array(2 * count);
        more.set(kept);
        kept = more;
      }
      kept[count++] = value;
    },
    count: () => count,
    values: () => kept.slice(0, count),
  };
}
