import { dirname, isAbsolute, join } from "node:path";
import type {
  LocoDefinition,
  MotorTables,
  PlanDefinition,
  Typed,
  TypedDoubts,
  UnitStyle,
  WholeColumns,
} from "@rideon/sim-core";
import { type Diagnostic, type Place, ReadError, sortedOnce, UsageError } from "./diagnostics.js";
import { FILES, type Root } from "./keys/files.js";
import { type MotorTable, readMotorTable, TABLES } from "./motor.tables.js";
import { readProfile } from "./profile.js";
import { applySet, parseSet, type SetOption, type ShortSet } from "./set.js";
import type { Arrived } from "./text/awaited.js";
import { type Findings, label, opened, orUsage, type Wanted } from "./text/open.js";
import { remarkIn } from "./text/remark.js";
import type { Walk } from "./yaml/slot.js";
import { readMap } from "./yaml/walk.js";
import { parseYaml } from "./yaml/yaml.js";

/** A plan as its file has it, with the files that it names. */
export interface FiledPlan extends PlanDefinition {
  loco: string;
  track: PlanDefinition["track"] & { profile: string };
}

/** A plan with its loco and its track, ready to make a train of. */
export interface Reading {
  plan: FiledPlan;
  loco: LocoDefinition;
  track: WholeColumns;
  /** What the files hold that the motor names. */
  tables: MotorTables;
  /**
   * Where a path stands: `loco.motor.nameplate.power`, `plan.cars.1.mass`, `track.3.height` (third post),
   * `loco.motor.curve.2.speed_rpm` (second row). Of a key that the files leave out, where its block stands.
   */
  place(path: string): Place | undefined;
  /** Every file that was read, standard input apart; none is read again. */
  files: readonly string[];
  /** What the plan's file says of itself at its head; "" where it says nothing. */
  remark: string;
  /** Doubt that was typed beside figures, by their paths. */
  doubts: TypedDoubts;
  /** Imperial where the speed was typed in mph or feet, or, with a lever, the gauge in inches. */
  units: UnitStyle;
}

export interface ReadOptions {
  /** `PATH=VALUE` as typed after `--set`, or what an option short for one sets. */
  sets?: readonly (string | ShortSet)[];
  /** Keys that need not be there, by full path: `loco.motor`. */
  without?: readonly string[];
  /**
   * What has come of standard input and of pipes with names; what has not is thrown, as a YetToCome. Where absent, they
   * are waited for, deaf to interrupts.
   */
  arrived?: Arrived;
}

/** A loco file of a hundred cars' worth of keys is still far below this. */
const YAML_LIMIT_bytes = 256 * 1024;
const PROFILE_LIMIT_bytes = 16 * 1024 * 1024;
/** A measured motor has some dozens of rows. */
const TABLE_LIMIT_bytes = 256 * 1024;

/**
 * Reads a plan, the loco and profile it names, and what the loco names in turn.
 * @param path the plan's file, or "-" for standard input
 * @throws ReadError with every problem of all files; @throws UsageError for every `--set`, or option short for one, that cannot be used
 */
export function readPlan(path: string, options: ReadOptions = {}): Reading {
  const found: Findings = { problems: [], usage: [], arrived: options.arrived };
  const sets = (options.sets ?? []).flatMap((set) => orUsage(found, () => parseSet(set)) ?? []);
  const mayLack = new Set(options.without ?? []);
  const plan = readFile(found, { path, root: "plan" }, sets, mayLack);
  const locoAt = plan && named(plan, path, "plan.loco");
  const loco = locoAt && readFile(found, { ...locoAt, root: "loco" }, sets, mayLack);
  const profileAt = plan && named(plan, path, "plan.track.profile");
  const profile = profileAt && openCsv(found, profileAt, PROFILE_LIMIT_bytes, readProfile);
  const tables = loco ? openTables(found, loco, locoAt.path) : [];
  if (found.usage.length > 0) throw new UsageError(found.usage.join("\n"));
  if (!plan || !loco || !profile || found.problems.length > 0) throw new ReadError(found.problems);
  const places = new Map([...plan.places, ...loco.places, ["track", { file: profileAt.path, line: 1 }]]);
  const rows: Rows = new Map([["track", { file: profileAt.path, lines: profile.lines }]]);
  for (const { name, file, lines } of tables) rows.set(`loco.motor.${name}`, { file, lines });
  return {
    plan: plan.definition as unknown as FiledPlan,
    loco: loco.definition as unknown as LocoDefinition,
    track: profile.columns,
    tables: Object.fromEntries(tables.map(({ name, rows }) => [name, rows])),
    files: [path, locoAt.path, profileAt.path, ...tables.map(({ file }) => file)].filter((each) => each !== "-"),
    remark: remarkIn(plan.text),
    place: (wanted) => rowIn(rows, wanted) ?? placeIn(places, wanted),
    doubts: Object.fromEntries([...plan.doubts, ...loco.doubts]),
    units: unitStyle(plan.typed.get("plan.speed"), loco.typed.get("loco.gauge")),
  };
}

/** One of the two YAML files, read along its table. */
interface ReadFile extends Pick<Walk, "places" | "typed" | "doubts"> {
  text: string;
  definition: Record<string, unknown>;
}

function readFile(
  found: Findings,
  wanted: Wanted & { root: Root },
  sets: readonly SetOption[],
  mayLack: ReadonlySet<string>,
): ReadFile | undefined {
  const text = opened(found, wanted, YAML_LIMIT_bytes);
  if (text === undefined) return undefined;
  const { path, root } = wanted;
  const file = parseYaml(label(path), text);
  for (const option of sets) if (option.root === root) orUsage(found, () => applySet(file, option));
  const walk: Walk = { file, root, mayLack, places: new Map(), typed: new Map(), doubts: new Map() };
  walk.places.set(root, { file: file.label, line: 1, column: 1 });
  const top = { path: "", node: file.doc.contents, head: null };
  const definition = file.broken ? {} : readMap(walk, top, FILES[root]);
  found.problems = found.problems.concat(file.problems);
  found.usage.push(...sortedOnce(file.usage).map((each) => `${each.file}: ${each.message}`));
  return { text, definition, places: walk.places, typed: walk.typed, doubts: walk.doubts };
}

/** What `read` makes of a file that a key names. */
function openCsv<T>(
  found: Findings,
  wanted: Wanted,
  limit_bytes: number,
  read: (file: string, text: string, problems: Diagnostic[]) => T | undefined,
): T | undefined {
  const text = opened(found, wanted, limit_bytes);
  if (text === undefined) return undefined;
  const problems: Diagnostic[] = [];
  const table = read(wanted.path, text, problems);
  found.problems = found.problems.concat(problems);
  return table;
}

/** The tables that the loco's motor names. */
const openTables = (found: Findings, loco: ReadFile, path: string): MotorTable[] =>
  TABLES.flatMap((name) => {
    const wanted = named(loco, path, `loco.motor.${name}.file`);
    return (wanted && openCsv(found, wanted, TABLE_LIMIT_bytes, readMotorTable(name))) ?? [];
  });

/** The file named under a key, such as `plan.track.profile`: from the naming file's folder, or the current one for a `--set`. */
function named({ definition, places }: ReadFile, from: string, full: string): Wanted | undefined {
  const [, ...keys] = full.split(".");
  let value: unknown = definition;
  for (const key of keys) value = (value as Record<string, unknown> | undefined)?.[key];
  const namedAt = places.get(full);
  if (typeof value !== "string" || !namedAt) return undefined;
  const here = from === "-" || namedAt.line === undefined || isAbsolute(value);
  return { path: here ? value : join(dirname(from), value), namedAt, key: keys.join(".") };
}

/** Of each table, the line on which each of its rows stands. */
type Rows = Map<string, { file: string; lines: readonly number[] }>;

/** Rows count from 1; a CSV's place has a line alone. */
function rowIn(tables: Rows, path: string): Place | undefined {
  const [, name = "", row] = /^(.*?)\.(\d+)(?:\.|$)/.exec(path) ?? [];
  const { file, lines } = tables.get(name) ?? {};
  const line = lines?.[Number(row) - 1];
  return file === undefined || line === undefined ? undefined : { file, line };
}

function placeIn(places: ReadonlyMap<string, Place>, path: string): Place | undefined {
  for (let part = path; part !== ""; part = part.slice(0, Math.max(0, part.lastIndexOf(".")))) {
    const place = places.get(part);
    if (place) return place;
  }
  return undefined;
}

function unitStyle(speed: Typed | undefined, gauge: Typed | undefined): UnitStyle {
  const imperial = speed
    ? /mph|mile|\bmi\b|f(?:oo|ee)?t|fps/i.test(speed.unit)
    : /^(?:in|inch|inches|ft|foot|feet)$/i.test(gauge?.unit ?? "");
  return imperial ? "imperial" : "metric";
}
