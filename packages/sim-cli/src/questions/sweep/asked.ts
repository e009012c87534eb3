import { figuresOf, type Swept } from "@rideon/sim-core";
import { ReadError, UsageError } from "../../read/diagnostics.js";
import { readCases, readPlan } from "../../read/index.js";
import { patiently } from "../../read/text/awaited.js";
import { type PlanFlags, setsOf } from "../../work/flags.js";
import { sheetIn } from "../../work/sheet.js";
import { type Axis, axisOf, keyOf, mustDiffer } from "./axes.js";
import { countOf, type Sweep, setsOfCase } from "./grid.js";

export interface SweepFlags extends PlanFlags {
  vary?: readonly string[];
  cases?: string;
  beside?: readonly string[];
  ask?: readonly Swept[];
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
/** Side by side. */
export const MOST_DESIGNS = 5;

/** What is asked, of the options of a command line. @throws UsageError, ReadError */
export async function sweepOf(plan: string, flags: SweepFlags): Promise<Sweep> {
  if (plan === "-")
    throw new UsageError("a sweep reads its plan anew for every case: give it as a file, not from standard input");
  const { cases } = flags;
  const axes: Axis[] = [
    ...besideOf(plan, setsOf(flags), flags.beside ?? []),
    ...(cases === undefined ? [] : [await patiently((arrived) => sheetIn(cases, LIMIT_bytes, readCases, arrived))]),
    ...(flags.vary ?? []).map(axisOf),
  ];
  if (axes.length === 0)
    throw new UsageError(
      "nothing is varied: --vary passengers=0..12, --cases cases.csv or --beside other-loco.yaml tells what",
    );
  mustDiffer(axes);
  const bands = flags.bands ? { draws: flags.draws ?? null, seed: flags.seed ?? 1 } : null;
  const asked = flags.ask ?? ["limits"];
  if (bands && !figuresOf(asked).some(({ headline }) => headline))
    throw new UsageError(
      `--bands: what ${asked.join(" and ")} tells is judged on the safe side and has no bands; ask run, laps, climb or brakes for some`,
    );
  const sweep: Sweep = { plan, sets: setsOf(flags), axes, asked, bands };
  const count = countOf(sweep);
  if (count > MOST_CASES) throw new UsageError(`these are ${count} cases, and ${MOST_CASES} are the most`);
  mustBeReadable(sweep);
  mustBeKeys(sweep);
  return sweep;
}

/** A plan that cannot be read, nor its first case, is no plan to vary. @throws ReadError, UsageError */
function mustBeReadable(sweep: Sweep): void {
  try {
    readPlan(sweep.plan, { sets: sweep.sets });
  } catch (error) {
    try {
      readPlan(sweep.plan, { sets: setsOfCase(sweep, 0) });
    } catch {
      throw error;
    }
  }
}

/** The plan's own loco first. @throws UsageError */
function besideOf(plan: string, sets: Sweep["sets"], others: readonly string[]): Axis[] {
  if (others.length === 0) return [];
  if (others.length >= MOST_DESIGNS)
    throw new UsageError(
      `--beside: ${others.length + 1} designs are more than can be told side by side, ${MOST_DESIGNS}; --vary loco=a.yaml,b.yaml takes more`,
    );
  const own = readPlan(plan, { sets }).files[1] ?? "";
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
function triedWith({ plan, sets }: Sweep, column: string, value: string): string | undefined {
  try {
    readPlan(plan, { sets: [...sets, { typed: `${column}=${value}`, set: `${keyOf(column)}=${value}` }] });
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
