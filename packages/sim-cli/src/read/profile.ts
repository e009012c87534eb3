import type { TrackColumns } from "@rideon/sim-core";
import { checkWidths, isUnparted, numberOf, quotedCell, type Row, splitRows, type Tell, unknownColumn } from "./csv.js";
import { addProblem, type Diagnostic } from "./diagnostics.js";
import { COLUMNS, type Column } from "./profile.columns.js";

/** A profile as read: its columns, and the line of the file on which each post stands. */
export interface Profile {
  columns: TrackColumns;
  lines: number[];
}

interface HeaderCell extends Column {
  name: string;
  index: number;
}

/**
 * Reads a profile: comment lines begin with #, a header names the columns and their units, a row for each post.
 * @returns the columns in SI units, or nothing where `problems` says why
 */
export function readProfile(label: string, text: string, problems: Diagnostic[]): Profile | undefined {
  const tell: Tell = (line, message) => addProblem(problems, { file: label, line, message });
  const rows = splitRows(text, tell);
  const [header, ...posts] = rows ?? [];
  if (!rows) return undefined;
  if (!header) {
    tell(1, "the file is empty; it begins with a header such as distance_m,height_m");
    return undefined;
  }
  const cells = readHeader(header, tell);
  if (posts.length < 2)
    tell(
      (posts[0] ?? header).line,
      `${posts.length === 0 ? "no post follows" : "one post alone follows"} the header; a line has two or more`,
    );
  checkWidths(posts, header.cells.length, tell);
  const values = new Map(cells.map((cell) => [cell, posts.map((post) => cellOf(post, cell, tell))]));
  checkDistances(cells, values, posts, tell);
  return problems.length > 0
    ? undefined
    : { columns: columnsOf(cells, values, posts), lines: posts.map(({ line }) => line) };
}

function readHeader(header: Row, tell: Tell): HeaderCell[] {
  if (isUnparted(header, tell)) return [];
  const { line, cells } = header;
  const found: HeaderCell[] = [];
  for (const [index, name] of cells.entries()) {
    const column = COLUMNS.get(name);
    if (!column) {
      tell(line, unknownColumn(name, index, [...COLUMNS.keys()]));
      continue;
    }
    const rival = found.find((each) => each.measure === column.measure);
    if (rival?.name === name) tell(line, `${name} stands twice in the header`);
    else if (rival) tell(line, `${name} cannot stand beside ${rival.name}; keep one of them`);
    found.push({ ...column, name, index });
  }
  const has = (measure: Column["measure"]) => found.some((each) => each.measure === measure);
  if (!has("distance")) tell(line, "a column of distances is missing: distance_m, distance_ft or distance_yd");
  if (!has("rise")) tell(line, "a column of heights or gradients is missing, such as height_m or gradient_percent");
  return found;
}

/** The cell's value in SI; a wrong one is told, and NaN stands in for it. */
function cellOf({ line, cells }: Row, column: HeaderCell, tell: Tell): number {
  const text = cells[column.index];
  if (text === undefined || column.measure === "place") return Number.NaN;
  const refuse = (message: string): number => {
    tell(line, `${column.name}: ${message}`);
    return Number.NaN;
  };
  if (text === "" && column.blank !== undefined) return column.blank;
  const value = numberOf(text, refuse);
  if (Number.isNaN(value)) return value;
  const wrong = column.refuse?.(value);
  return wrong ? refuse(`${quotedCell(text)}: ${wrong}`) : column.toSI(value);
}

type Values = ReadonlyMap<HeaderCell, readonly number[]>;

function checkDistances(cells: readonly HeaderCell[], values: Values, posts: readonly Row[], tell: Tell) {
  const distance = cells.find((each) => each.measure === "distance");
  if (!distance) return;
  let furthest = Number.NEGATIVE_INFINITY;
  values.get(distance)?.forEach((value_m, i) => {
    const { line, cells: written } = posts[i]!;
    if (value_m <= furthest)
      tell(line, `${distance.name}: ${written[distance.index]} is no further on than the post before`);
    if (value_m > furthest) furthest = value_m;
  });
}

function columnsOf(cells: readonly HeaderCell[], values: Values, posts: readonly Row[]): TrackColumns {
  const column = (measure: Column["measure"]) => cells.find((each) => each.measure === measure);
  const numbers = (cell: HeaderCell | undefined, absent: number) => [
    ...(cell ? values.get(cell)! : posts.map(() => absent)),
  ];
  const rise = column("rise")!;
  const place = column("place");
  return {
    distance_m: numbers(column("distance"), 0),
    [rise.name.startsWith("height") ? "height_m" : "sine"]: numbers(rise, 0),
    curvature_radpm: numbers(column("radius"), 0),
    limit_mps: numbers(column("limit"), Number.POSITIVE_INFINITY),
    place: posts.map((post) => (place ? (post.cells[place.index] ?? "") : "")),
  };
}
