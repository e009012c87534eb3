import { figuresOf, SWEPT, type Swept } from "@rideon/sim-core";
import { ReadError, UsageError } from "../../read/diagnostics.js";
import { readCases } from "../../read/index.js";
import { patiently } from "../../read/text/awaited.js";
import { listed } from "../../words/lists.js";
import { type PlanFlags, setsOf } from "../../work/flags.js";
import { sheetIn } from "../../work/sheet.js";
import { type Axis, axisOf, keyOf, mustDiffer } from "./axes.js";
import { countOf, type Sweep, setsOfCase } from "./grid.js";
import { readCase } from "./reading.js";

export interface SweepFlags extends PlanFlags {
  vary?: readonly string[];
  cases?: string;
  beside?: readonly string[];
  ask?: readonly Swept[];
  teeth?: readonly number[];
  bands?: true;
  draws?: number;
  seed?: number;
  workers?: number;
  share?: { k: number; of: number };
  list?: true;
  gather?: readonly string[];
  best?: string;
  need?: readonly string[];
  svg?: string;
}

/** A million cases of some hundred characters. */
const LIMIT_bytes = 512 * 1024 * 1024;
const MOST_CASES = 10_000_000;
/** Questions with a figure that has a band. */
const BANDED = SWEPT.filter((question) => figuresOf([question]).some(({ headline }) => headline));
/** Side by side. */
export const MOST_DESIGNS = 5;

/** What is asked, of the options of a command line. @throws UsageError, ReadError */
export async function sweepOf(plan: string, flags: SweepFlags): Promise<Sweep> {
  if (plan === "-")
    throw new UsageError("a sweep reads its plan anew for every case: give it as a file, not from standard input");
  const { cases } = flags;
  const asked = flags.ask ?? ["limits"];
  if (flags.teeth && !asked.includes("gears"))
    throw new UsageError(
      "--teeth: sprockets to hand are a matter of gears, which is not asked here; ask it with --ask",
    );
  const axes: Axis[] = [
    ...besideOf({ plan, asked }, setsOf(flags), flags.beside ?? []),
    ...(cases === undefined ? [] : [await patiently((arrived) => sheetIn(cases, LIMIT_bytes, readCases, arrived))]),
    ...(flags.vary ?? []).map(axisOf),
  ];
  if (axes.length === 0)
    throw new UsageError(
      "nothing is varied: --vary passengers=0..12, --cases cases.csv or --beside other-loco.yaml tells what",
    );
  mustDiffer(axes);
  const bands = flags.bands ? { draws: flags.draws ?? null, seed: flags.seed ?? 1 } : null;
  if (bands && !figuresOf(asked).some(({ headline }) => headline))
    throw new UsageError(
      `--bands: what ${listed(asked)} ${asked.length === 1 ? "tells" : "tell"} has no bands; ask ${BANDED.slice(0, -1).join(", ")} or ${BANDED.at(-1)} for some`,
    );
  const sweep: Sweep = { plan, sets: setsOf(flags), axes, asked, teeth: flags.teeth ?? null, bands };
  const count = countOf(sweep);
  if (count > MOST_CASES) throw new UsageError(`these are ${count} cases, and ${MOST_CASES} are the most`);
  mustBeReadable(sweep);
  mustBeKeys(sweep);
  return sweep;
}

/** A plan that cannot be read, nor its first case, is no plan to vary. @throws ReadError, UsageError */
function mustBeReadable(sweep: Sweep): void {
  try {
    readCase(sweep, sweep.sets);
  } catch (error) {
    try {
      readCase(sweep, setsOfCase(sweep, 0));
    } catch {
      throw error;
    }
  }
}

/** The plan's own loco first. @throws UsageError */
function besideOf(of: Pick<Sweep, "plan" | "asked">, sets: Sweep["sets"], others: readonly string[]): Axis[] {
  if (others.length === 0) return [];
  if (others.length >= MOST_DESIGNS)
    throw new UsageError(
      `--beside: ${others.length + 1} designs are more than can be told side by side, ${MOST_DESIGNS}; --vary loco=a.yaml,b.yaml takes more`,
    );
  const own = readCase(of, sets).files[1] ?? "";
  return [{ columns: ["loco"], rows: [own, ...others].map((each) => [each]) }];
}

/** So many values of a key are tried, to see whether it is one. */
const TRIED = 20;

/**
 * A key that is none makes every case invalid: that is told before any is worked out. A value that is wrong is the matter of
 * its own case.
 */
function mustBeKeys(sweep: Sweep): void {
  const wrong: string[] = [];
  for (const { columns, rows } of sweep.axes)
    for (const [i, column] of columns.entries()) {
      const values = [...new Set(rows.map((row) => row[i] ?? "").filter((cell) => cell !== ""))].slice(0, TRIED);
      const said: string[] = [];
      // The first that can be used shows that the key is one.
      const used = values.some((value) => {
        const told = triedWith(sweep, column, value);
        if (told !== undefined) said.push(told);
        return told === undefined;
      });
      if (!used && said[0] !== undefined) wrong.push(said[0]);
    }
  if (wrong.length > 0) throw new UsageError(wrong.join("\n"));
}

/** What is wrong with a value by itself, where the option is to blame; nothing where it can be used. */
function triedWith(sweep: Sweep, column: string, value: string): string | undefined {
  try {
    readCase(sweep, [...sweep.sets, { typed: `${column}=${value}`, set: `${keyOf(column)}=${value}` }]);
    return undefined;
  } catch (error) {
    if (error instanceof UsageError) return error.message;
    if (error instanceof ReadError) return undefined;
    throw error;
  }
}

/** Cases of a share: blocks of neighbours, so that a whole is its parts, one after the other. */
export function partOf(count: number, share: { k: number; of: number } | undefined): { from: number; to: number } {
  if (!share) return { from: 0, to: count };
  const edge = (k: number) => Math.floor((k * count) / share.of);
  return { from: edge(share.k - 1), to: edge(share.k) };
}
