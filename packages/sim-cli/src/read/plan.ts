import { dirname, isAbsolute, join } from "node:path";
import type { LocoDefinition, PlanDefinition, TrackColumns, Typed, UnitStyle } from "@rideon/sim-core";
import { type Diagnostic, type Place, ReadError, sortedOnce, UsageError } from "./diagnostics.js";
import { FILES } from "./files.js";
import { type Findings, label, opened, orUsage, type Wanted } from "./open.js";
import { type Profile, readProfile } from "./profile.js";
import { applySet, parseSet, type SetOption } from "./set.js";
import { readMap, type Walk } from "./walk.js";
import { parseYaml } from "./yaml.js";

/** A plan with its loco and its track, ready to make a train of. */
export interface Reading {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  /**
   * Where a path stands: `loco.motor.nameplate.power`, `plan.cars.1.mass`, `track.3.height` (third post). Of a key that
   * the files leave out, where its block stands.
   */
  place(path: string): Place | undefined;
  /** Imperial where the speed was typed in mph or feet, or, with a lever, the gauge in inches. */
  units: UnitStyle;
}

export interface ReadOptions {
  /** `PATH=VALUE` as typed after `--set`. */
  sets?: readonly string[];
  /** Keys that need not be there, by full path: `loco.motor`. */
  without?: readonly string[];
}

/** A loco file of a hundred cars' worth of keys is still far below this. */
const YAML_LIMIT_bytes = 256 * 1024;
const PROFILE_LIMIT_bytes = 16 * 1024 * 1024;

/**
 * Reads a plan and the loco and profile it names.
 * @param path the plan's file, or "-" for standard input
 * @throws ReadError with every problem of all files; @throws UsageError for every `--set` that cannot be used
 */
export function readPlan(path: string, options: ReadOptions = {}): Reading {
  const found: Findings = { problems: [], usage: [] };
  const sets = (options.sets ?? []).flatMap((set) => orUsage(found, () => parseSet(set)) ?? []);
  const mayLack = new Set(options.without ?? []);
  const plan = readFile(found, { path, root: "plan" }, sets, mayLack);
  const loco = plan && readFile(found, named(plan, path, "plan.loco"), sets, mayLack);
  const profileAt = plan && named(plan, path, "plan.track.profile");
  const profile = profileAt && openProfile(found, profileAt);
  if (found.usage.length > 0) throw new UsageError(found.usage.join("\n"));
  if (!plan || !loco || !profile || found.problems.length > 0) throw new ReadError(found.problems);
  const places = new Map([...plan.places, ...loco.places, ["track", { file: profileAt.path, line: 1 }]]);
  return {
    plan: plan.definition as unknown as PlanDefinition,
    loco: loco.definition as unknown as LocoDefinition,
    track: profile.columns,
    place: (wanted) => placeIn(places, profileAt.path, profile, wanted),
    units: unitStyle(plan.typed.get("plan.speed"), loco.typed.get("loco.gauge")),
  };
}

/** One of the two YAML files, read along its table. */
interface ReadFile extends Pick<Walk, "places" | "typed"> {
  definition: Record<string, unknown>;
}

function readFile(
  found: Findings,
  wanted: Wanted | undefined,
  sets: readonly SetOption[],
  mayLack: ReadonlySet<string>,
): ReadFile | undefined {
  const text = wanted && opened(found, wanted, YAML_LIMIT_bytes);
  if (!wanted || text === undefined) return undefined;
  const { path, root } = wanted;
  const file = parseYaml(label(path), text);
  for (const option of sets) if (option.root === root) orUsage(found, () => applySet(file, option));
  const walk: Walk = { file, root, mayLack, places: new Map(), typed: new Map() };
  walk.places.set(root, { file: file.label, line: 1, column: 1 });
  const top = { path: "", node: file.doc.contents, head: null };
  const definition = file.broken ? {} : readMap(walk, top, FILES[root]);
  found.problems = found.problems.concat(file.problems);
  found.usage.push(...sortedOnce(file.usage).map((each) => `${each.file}: ${each.message}`));
  return { definition, places: walk.places, typed: walk.typed };
}

function openProfile(found: Findings, wanted: Wanted): Profile | undefined {
  const text = opened(found, wanted, PROFILE_LIMIT_bytes);
  if (text === undefined) return undefined;
  const problems: Diagnostic[] = [];
  const profile = readProfile(wanted.path, text, problems);
  found.problems = found.problems.concat(problems);
  return profile;
}

/** The file that the plan names under this key: from the plan's folder, or from the current one for a `--set`. */
function named(
  { definition, places }: ReadFile,
  plan: string,
  full: "plan.loco" | "plan.track.profile",
): Wanted | undefined {
  const isLoco = full === "plan.loco";
  const track = definition["track"] as { profile?: unknown } | undefined;
  const name = isLoco ? definition["loco"] : track?.profile;
  const namedAt = places.get(full);
  if (typeof name !== "string" || !namedAt) return undefined;
  const here = plan === "-" || namedAt.line === undefined || isAbsolute(name);
  const path = here ? name : join(dirname(plan), name);
  return { path, root: isLoco ? "loco" : "plan", namedAt, key: full.slice("plan.".length) };
}

function placeIn(
  places: ReadonlyMap<string, Place>,
  file: string,
  { lines }: Profile,
  path: string,
): Place | undefined {
  const post = /^track\.(\d+)(?:\.|$)/.exec(path);
  const line = post && lines[Number(post[1]) - 1];
  if (line) return { file, line };
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
