import type { Warning } from "@rideon/sim-core";
import { plain } from "../../ground/plain.js";
import { several } from "../../words/setting.js";
import { type Cases, casesTold, counted, noCases } from "./cases.js";

const BETWEEN = " | ";

/** The warnings of a case in one cell: `more_passengers_than_seats plan.passengers: 9 passengers on 8 seats | …`. */
export const warnedCell = (warnings: readonly Warning[]): string =>
  warnings
    .map(({ code, path, message }) =>
      plain(`${code} ${path}: ${message}`).replaceAll(/\s+/g, " ").replaceAll(BETWEEN, " / "),
    )
    .join(BETWEEN);

export const warnedIn = (cell: string): Warning[] =>
  cell.split(BETWEEN).flatMap((text) => {
    const [, code, path, message] = /^(\S+) (\S+): (.*)$/.exec(text) ?? [];
    return code && path && message ? [{ code, path, message }] : [];
  });

/** A warning, the cases it belongs to, and how many others differ from it in their figures alone. */
export interface Warned extends Warning {
  cases: Cases;
  /** Messages of its kind and place, one of which it has; no more than are worth keeping. */
  messages: string[];
}

/** Kinds of warnings at places; no plan has so many. */
const MOST_KINDS = 200;
const MOST_MESSAGES = 20;

/** Adds the warnings of a row to those of the rows before. */
export function warn(
  known: Map<string, Warned>,
  { number, warned }: { readonly number: number; readonly warned: readonly Warning[] },
): void {
  for (const warning of warned) {
    const key = `${warning.code} ${warning.path}`;
    const kind = known.get(key) ?? { ...warning, cases: noCases(), messages: [] };
    if (!known.has(key) && known.size >= MOST_KINDS) continue;
    known.set(key, kind);
    counted(kind.cases, number);
    if (kind.messages.length < MOST_MESSAGES && !kind.messages.includes(warning.message))
      kind.messages.push(warning.message);
  }
}

/** A row each: the cases, and what they are warned of. The last says how many are left out. */
export function warnedRows(
  known: ReadonlyMap<string, Warned>,
  most: number,
  path: string | undefined,
  room?: number,
): string[][] {
  const all = [...known.values()];
  const rows = all
    .slice(0, most)
    .map(({ cases, message, messages }) => [
      casesTold(cases, room),
      `${message}${messages.length > 1 ? "; likewise of the others, with their own figures" : ""}`,
    ]);
  const left = all.length - rows.length;
  return left === 0
    ? rows
    : [...rows, ["…", `${several(left, "warning")} more${path ? `: the column warned of ${path} has them` : ""}`]];
}
