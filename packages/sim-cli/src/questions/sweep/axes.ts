import { UsageError } from "../../read/diagnostics.js";
import { keyNamed } from "../../read/index.js";
import { SHORT_FOR } from "../../work/flags.js";
import { MOST_VALUES, rangeOf } from "./range.js";

/** What is varied together, a row of cells at a time: one key, or the columns of a file of cases. */
export interface Axis {
  /** As the CSV heads them: key paths. */
  readonly columns: readonly string[];
  /** A blank cell leaves the file's own value. */
  readonly rows: readonly (readonly string[])[];
}

/** `passengers=0..12`, `loco.gears.1.teeth=[11,44],[11,48]`. @throws UsageError */
export function axisOf(text: string): Axis {
  const said = `--vary ${text}`;
  const [, key = "", values = ""] = /^\s*([^=]*?)\s*=(.*)$/s.exec(text) ?? [];
  if (key === "" || values.trim() === "")
    throw new UsageError(
      `${said}: a key, = and its values are wanted, such as --vary passengers=0..12 or rail=dry,wet`,
    );
  const items = parted(values);
  if (items.some((item) => item === "")) throw new UsageError(`${said}: there is no value between two commas`);
  const rows = items.flatMap((item) => rangeOf(item, keyNamed(keyOf(key)), said) ?? [item]).map((item) => [item]);
  if (rows.length > MOST_VALUES) throw new UsageError(`${said}: that is more than ${MOST_VALUES} values`);
  const twice = rows.find(([value], i) => rows.length < 1000 && rows.findIndex(([other]) => other === value) < i);
  if (twice) throw new UsageError(`${said}: ${twice[0]} stands there twice`);
  return { columns: [key], rows };
}

/** Parted at commas that stand in no brackets and no quotes. */
function parted(text: string): string[] {
  const items: string[] = [""];
  let [depth, quote] = [0, ""];
  for (const c of text) {
    if (quote !== "") quote = c === quote ? "" : quote;
    else if (c === '"' || c === "'") quote = c;
    else if (c === "[" || c === "{") depth++;
    else if (c === "]" || c === "}") depth--;
    if (c === "," && depth === 0 && quote === "") items.push("");
    else items[items.length - 1] += c;
  }
  return items.map((item) => item.trim());
}

/** Of options short for a key, the key: `rail` is the plan's `track.rail`. */
export const keyOf = (column: string): string => (SHORT_FOR as Readonly<Record<string, string>>)[column] ?? column;

/** @throws UsageError where a key is varied twice */
export function mustDiffer(axes: readonly Axis[]): void {
  const keys = axes.flatMap(({ columns }) => columns);
  const twice = keys.find((key, i) => keys.findIndex((other) => keyOf(other) === keyOf(key)) < i);
  if (twice !== undefined) throw new UsageError(`${twice} is varied twice`);
}
