import { quoted, UNFIT, type Unfit, type WholeColumns } from "@rideon/sim-core";
import { checkWidth, eachRow, isUnparted, numberOf, type Row, type Tell, unknownColumn } from "./csv/csv.js";
import { type Diagnostic, tellFirst } from "./diagnostics.js";
import { COLUMNS, type Column } from "./profile.columns.js";
import { wrongText } from "./yaml/values.js";

/** A profile as read: its columns, and the line of the file on which each post stands. */
export interface Profile {
  columns: WholeColumns;
  lines: number[];
}

interface HeaderCell extends Column {
  name: string;
  index: number;
  /** In SI, a value for each post; of places and levelling there are none. */
  values: number[];
}

/**
 * Reads a profile: comment lines begin with #, a header names the columns and their units, a row for each post.
 * @returns the columns in SI units, or nothing where `problems` says why
 */
export function readProfile(label: string, text: string, problems: Diagnostic[]): Profile | undefined {
  const tell = tellFirst(label, problems);
  let header: Row | undefined;
  let posts: Posts | undefined;
  const parted = eachRow(text, tell, (row) => {
    if (posts) readPost(posts, row, problems.length === 0, tell);
    else {
      header = row;
      posts = newPosts(row, tell);
    }
  });
  if (!parted) return undefined;
  if (!header || !posts) {
    tell(1, "the file is empty; it begins with a header such as distance_m,height_m");
    return undefined;
  }
  const { count, lastLine } = posts;
  const found = count === 0 ? "no post follows" : "one post alone follows";
  if (count < 2 && problems.length === 0) tell(lastLine, `${found} the header; a line has two or more`);
  return problems.length > 0 ? undefined : { columns: columnsOf(posts), lines: posts.lines };
}

/** What the rows have come to so far. Nothing more is kept once something is wrong. */
interface Posts {
  columns: number;
  cells: readonly HeaderCell[];
  places: string[];
  levelling: (Unfit | "")[];
  lines: number[];
  count: number;
  lastLine: number;
  furthest_m: number;
}

const newPosts = (header: Row, tell: Tell): Posts => ({
  columns: header.cells.length,
  cells: readHeader(header, tell),
  places: [],
  levelling: [],
  lines: [],
  count: 0,
  lastLine: header.line,
  furthest_m: Number.NEGATIVE_INFINITY,
});

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
    found.push({ ...column, name, index, values: [] });
  }
  const has = (measure: Column["measure"]) => found.some((each) => each.measure === measure);
  if (!has("distance")) tell(line, "a column of distances is missing: distance_m, distance_ft or distance_yd");
  if (!has("rise")) tell(line, "a column of heights or gradients is missing, such as height_m or gradient_percent");
  return found;
}

function readPost(posts: Posts, row: Row, keep: boolean, tell: Tell): void {
  posts.count++;
  posts.lastLine = row.line;
  checkWidth(row, posts.columns, tell);
  let place = "";
  let levelling: Unfit | "" = "";
  let distance: HeaderCell | undefined;
  let along_m = Number.NaN;
  for (const cell of posts.cells) {
    if (cell.measure === "place") place = placeOf(row, cell, tell);
    else if (cell.measure === "levelling") levelling = levellingOf(row, cell, tell);
    else {
      const value = cellOf(row, cell, tell);
      if (keep) cell.values.push(value);
      if (cell.measure === "distance" && !distance) {
        distance = cell;
        along_m = value;
      }
    }
  }
  if (distance && along_m <= posts.furthest_m)
    tell(row.line, `${distance.name}: ${row.cells[distance.index]} is no further on than the post before`);
  if (along_m > posts.furthest_m) posts.furthest_m = along_m;
  if (!keep) return;
  posts.places.push(place);
  posts.levelling.push(levelling);
  posts.lines.push(row.line);
}

function placeOf({ line, cells }: Row, { name, index }: HeaderCell, tell: Tell): string {
  const place = cells[index] ?? "";
  const wrong = place === "" ? undefined : wrongText(place);
  if (wrong) tell(line, `${name}: ${wrong}`);
  return place;
}

/** Why nobody may ride by the stretch: what `levels` wrote. Whatever else stands there is not passed over. */
function levellingOf({ line, cells }: Row, { name, index }: HeaderCell, tell: Tell): Unfit | "" {
  const text = (cells[index] ?? "").trim().toLowerCase();
  const found = UNFIT.find((each) => each === text);
  if (found === undefined && text !== "")
    tell(
      line,
      `${name}: ${quoted(cells[index] ?? "")} is none of ${UNFIT.join(", ")}; it is blank where the levelling closed`,
    );
  return found ?? "";
}

/** The cell's value in SI; a wrong one is told, and NaN stands in for it. */
function cellOf({ line, cells }: Row, column: HeaderCell, tell: Tell): number {
  const text = cells[column.index];
  if (text === undefined) return Number.NaN;
  const refuse = (message: string): number => {
    tell(line, `${column.name}: ${message}`);
    return Number.NaN;
  };
  if (text === "" && column.blank !== undefined) return column.blank;
  const value = numberOf(text, refuse);
  if (Number.isNaN(value)) return value;
  const wrong = column.refuse?.(value);
  return wrong ? refuse(`${quoted(text)}: ${wrong}`) : column.toSI(value);
}

function columnsOf({ cells, places, levelling, lines }: Posts): WholeColumns {
  const column = (measure: Column["measure"]) => cells.find((each) => each.measure === measure);
  const numbers = (cell: HeaderCell | undefined, absent: number) => cell?.values ?? lines.map(() => absent);
  const rise = column("rise")!;
  return {
    distance_m: numbers(column("distance"), 0),
    [rise.name.startsWith("height") ? "height_m" : "sine"]: numbers(rise, 0),
    ...(column("doubt") && { sineDoubt: numbers(column("doubt"), 0) }),
    ...(column("levelling") && { levelling }),
    curvature_radpm: numbers(column("radius"), 0),
    limit_mps: numbers(column("limit"), Number.POSITIVE_INFINITY),
    place: places,
  };
}
