import { CP, type Fixed, type Plain } from "./defaults.js";
import type { TypedDoubts } from "./doubt/typed.js";
import { type Key, type Keys, UNIT_IN_WORDS } from "./keys.js";
import { locoKeys, planKeys } from "./parts/files.keys.js";

/** Something in the input that cannot be used. `path` names the key: `loco.gears.2.teeth`, `plan.cars.1.mass`. */
export interface Problem {
  path: string;
  message: string;
}

/** Something that can be used and should be looked at. `code` is fixed: scripts may rely on it. */
export interface Warning {
  code: string;
  path: string;
  message: string;
}

/** A value that the files leave out, as taken. */
export interface Assumed {
  key: string;
  value: string;
  source: string;
  /** The same as a number in the unit of the definition; absent where it is none. */
  amount?: number;
}

/** A figure that is assumed, as drawn within its doubt. */
export type DrawnDefault = (path: string, value: number) => number;

/** What was found while the parts were made: every problem, not the first. */
export interface Notes {
  problems: Problem[];
  warnings: Warning[];
  assumed: Assumed[];
  /** Draws what is assumed; absent where every figure is at its middle. */
  readonly drawn?: DrawnDefault | undefined;
  /** Doubt that was typed beside figures, by their paths. */
  readonly doubts?: TypedDoubts | undefined;
}

export const newNotes = (from: Pick<Notes, "drawn" | "doubts"> = {}): Notes => ({
  problems: [],
  warnings: [],
  assumed: [],
  drawn: from.drawn,
  doubts: from.doubts,
});

/** A message has so many problems; the error itself carries all of them. */
const MOST_IN_A_MESSAGE = 20;

function inOneMessage(problems: readonly Problem[]): string {
  const lines = problems.slice(0, MOST_IN_A_MESSAGE).map(({ path, message }) => `${path}: ${message}`);
  const left = problems.length - lines.length;
  return (left > 0 ? [...lines, `and ${left} more`] : lines).join("\n");
}

/** Thrown where something cannot be made of what is given. Printed, it shows its message alone. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** Every problem found, in the order found. */
  declare readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(inOneMessage(problems));
    // Neither is counted among what is printed of an error beside its message.
    Object.defineProperty(this, "name", { enumerable: false });
    Object.defineProperty(this, "problems", { value: problems, enumerable: false });
  }
}

/** A run that could not be finished through a fault of the program's own. */
export class RunError extends Error {
  override readonly name: string = "RunError";
  constructor(message: string) {
    super(message);
    Object.defineProperty(this, "name", { enumerable: false });
  }
}

/** One of which not all the energy is accounted for: a finer step may. */
export class OpenBooksError extends RunError {}

/** What may help where a run is lost. */
export const REMEDY = "try a smaller --step, or look among the values of the files for one that is far from usual";

/** The key of a table at a path such as `loco.gears.2.teeth`; list positions are passed over. */
export function keyAt(path: string): Key | undefined {
  const [file, ...names] = path.split(".").filter((part) => !/^\d+$/.test(part));
  let keys: Keys | undefined = file === "loco" ? locoKeys : file === "plan" ? planKeys : undefined;
  let key: Key | undefined;
  for (const name of names) {
    key = keys && Object.hasOwn(keys, name) ? keys[name] : undefined;
    keys = key && (key.kind === "map" || key.kind === "list") ? key.keys : undefined;
  }
  return key;
}

/** A value as messages repeat it; a long one is cut. */
export const cut = (text: string, longest = 60): string =>
  text.length > longest ? `${text.slice(0, longest)}…` : text;

/** The same in quotation marks. */
export const quoted = (text: string): string => `"${cut(text.trim())}"`;

/** A number as people read it: four figures, no trailing zeros. */
export const shown = (value: number, unit = ""): string => {
  const digits = Number(value.toPrecision(4)).toString();
  return unit === "" ? digits : `${digits} ${unit}`;
};

/**
 * The given value, or the default, which is then listed as assumed, in the unit and with the source of the key's table.
 * @param path the key, `loco.length`
 * @param fallback the table's default, or what its numbers come to: no number of the caller's own
 */
export function assume<T extends Plain>(
  notes: Notes,
  path: string,
  given: T | undefined,
  fallback: T | (Fixed & { readonly value: T }),
): T {
  if (given !== undefined) return given;
  const middle = typeof fallback === "object" ? fallback.value : fallback;
  const taken = typeof middle === "number" && notes.drawn ? (notes.drawn(path, middle) as T) : middle;
  const key = keyAt(path);
  const unit = key?.kind === "quantity" ? UNIT_IN_WORDS[key.dimension] : "";
  const value = typeof taken === "number" ? shown(taken, unit) : String(taken);
  const amount = typeof taken === "number" ? { amount: taken } : {};
  notes.assumed.push({ key: path, value, source: key?.default?.source ?? CP, ...amount });
  return taken;
}
