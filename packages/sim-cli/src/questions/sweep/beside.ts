import { readFileSync } from "node:fs";
import type { PartsAnswer, UnitStyle } from "@rideon/sim-core";
import { ReadError, UsageError } from "../../read/diagnostics.js";
import type { ShortSet } from "../../read/index.js";
import { differencesIn, readPlan } from "../../read/index.js";
import { eyesFor } from "../../words/eyes.js";
import { changeRows, notListed } from "../../words/parts.js";
import { filesOf, planOf } from "../../work/files.js";
import { onThread } from "../../work/thread.js";
import { MOST_DESIGNS } from "./asked.js";
import type { Sweep } from "./grid.js";

/** Another loco beside the plan's own: what its file has otherwise, and what of the parts that changes. */
export interface Beside {
  path: string;
  name: string;
  /** A row a key: as the plan's own loco has it, and as this one. */
  differences: string[][];
  /** Parts: what is now and then; null where one of the two makes no train. */
  bill: string[][] | null;
  /** What the list of its parts leaves out. */
  notListed: string[];
  /** What is warned of with this one and not with the first. */
  warnings: string[];
}

/** The designs of `--beside`, each held beside the first. */
export async function besides(sweep: Sweep, units?: UnitStyle): Promise<Beside[]> {
  const axis = sweep.axes.find(({ columns }) => columns.length === 1 && columns[0] === "loco");
  const [first = "", ...others] = axis?.rows.map(([path = ""]) => path) ?? [];
  if (others.length === 0 || others.length >= MOST_DESIGNS) return [];
  return Promise.all(others.map((path) => besideOf(sweep, first, path, units)));
}

async function besideOf(sweep: Sweep, own: string, path: string, units?: UnitStyle): Promise<Beside> {
  const text = (file: string) => {
    try {
      return readFileSync(file, "utf8");
    } catch {
      return "";
    }
  };
  const rows = differencesIn(text(own), text(path)).map((each) => [each.path, each.own || "–", each.other || "–"]);
  return {
    path,
    name: rows.find(([key]) => key === "name")?.[2] ?? path,
    differences: rows,
    ...(await billOf(sweep, own, path, units)),
  };
}

type Bill = Pick<Beside, "bill" | "notListed" | "warnings">;

/** What the change takes from the shop, and what is to be looked at first. */
async function billOf({ plan, sets }: Sweep, own: string, path: string, units?: UnitStyle): Promise<Bill> {
  const read = (loco: string) => {
    const set: ShortSet = { typed: `loco=${loco}`, set: `loco=${loco}` };
    return readPlan(plan, { sets: [...sets, set] });
  };
  try {
    const [before, after] = [read(own), read(path)];
    const asked = {
      ...filesOf(before),
      own: { beside: filesOf(after) },
      step_s: undefined,
      every_s: Number.POSITIVE_INFINITY,
      drawn: false,
    };
    const { answer } = await onThread<{ answer: PartsAnswer }>("parts", asked);
    const [first, other] = [planOf(filesOf(before)), planOf(filesOf(after))];
    const told = new Set(first.notes.warnings.map(({ message }) => message));
    return {
      bill: changeRows(answer.changes ?? [], eyesFor(before.units, units, first.track)),
      notListed: notListed({ coupled: other.train.shafts.drivenAxles > 1, axles: after.loco.wheels.axles ?? 2 }),
      warnings: other.notes.warnings.flatMap(({ message }) => (told.has(message) ? [] : [message])),
    };
  } catch (error) {
    // One of the two cannot be used: its rows say why.
    if (error instanceof ReadError || error instanceof UsageError || isInput(error))
      return { bill: null, notListed: [], warnings: [] };
    throw error;
  }
}

const isInput = (error: unknown): boolean => error instanceof Error && /^(?:InputError|RunError)$/.test(error.name);
