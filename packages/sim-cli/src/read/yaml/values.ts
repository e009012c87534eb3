import {
  type Bounds,
  type CountKey,
  endsOf,
  type Key,
  nearest,
  type QuantityKey,
  quoted,
  readDoubtful,
  type Typed,
  type TypedDoubtful,
  UnitError,
} from "@rideon/sim-core";
import { isPlain } from "../../ground/plain.js";
import { refuse, type Slot, textOf, trappedComment, type Walk } from "./slot.js";

/** Says what is wrong with a value; nothing is read from it then. */
export type Refuse = (message: string) => undefined;

type ScalarKey = Exclude<Key, { kind: "map" | "list" | "teeth" | "capacity" | "voltage_table" }>;

/** One value: a quantity, a number, a text, a choice. */
export function readScalar(walk: Walk, slot: Slot, key: ScalarKey): unknown {
  const { file } = walk;
  const say: Refuse = (message) => refuse(file, slot, message);
  const isText = key.kind === "text" || key.kind === "file";
  const trapped = isText ? trappedComment(file, slot) : undefined;
  if (trapped) return say(`${trapped} is read as a comment; put the whole text in quotes, or a blank after the #`);
  const text = textOf(file, slot, key.example);
  if (text === undefined) return undefined;
  switch (key.kind) {
    case "text":
    case "file": {
      const wrong = wrongText(text, key.kind === "file" ? LONGEST_PATH : LONGEST_TEXT);
      return wrong ? say(wrong) : text;
    }
    case "yes_no":
      if (/^(?:yes|true)$/i.test(text)) return true;
      return /^(?:no|false)$/i.test(text) ? false : say(`${quoted(text)} is neither yes nor no`);
    case "choice":
      return choiceOf(text, key, say);
    case "count":
      return countOf(text, key, say);
    default: {
      const typed = attempt(() => measured(text, key), say);
      if (!typed) return undefined;
      const at = `${walk.root}.${slot.path}`;
      walk.typed.set(at, typed);
      const value = within(typed, key, text, say);
      if (value === undefined || !typed.doubt) return value;
      if (!mayBeInDoubt(typed, key, text, say)) return undefined;
      walk.doubts.set(at, typed.doubt);
      return value;
    }
  }
}

/** Longer ones are no names; a path may be as long as a system lets it be. */
const LONGEST_TEXT = 200;
const LONGEST_PATH = 4096;

/** Why a text cannot be a name, or a path; nothing where it can. */
export function wrongText(text: string, longest = LONGEST_TEXT): string | undefined {
  if (!isPlain(text)) return "the text has characters that cannot be printed";
  return text.length > longest ? `the text is longer than ${longest} characters` : undefined;
}

function countOf(text: string, key: CountKey, say: Refuse): number | undefined {
  if (/±|\+\s*\/?\s*-|\d\s+to\s+\d/.test(text))
    return say(`${quoted(text)} puts a count in doubt; a count is one whole number`);
  const plain = /^[-+]?(?:[1-9]\d{0,2}(?:,\d{3})+|\d+)(?:\.0*)?$/.test(text);
  if (!plain)
    return say(`${quoted(text)} is not a whole number; write it like ${key.example ?? Math.max(1, key.min ?? 1)}`);
  return within({ value: Number(text.replaceAll(",", "")), unit: "", inTypedUnit: String }, key, text, say);
}

const measured = (text: string, key: QuantityKey | { kind: "number"; example?: string }): TypedDoubtful =>
  readDoubtful(text, key.kind === "quantity" ? key.dimension : undefined, key.example);

/** The ends of the doubt lie within the bounds of the key: what cannot be negative is not in doubt below 0. */
export function mayBeInDoubt(
  { value, doubt, inTypedUnit }: TypedDoubtful,
  bounds: Bounds,
  text: string,
  say: Refuse,
): boolean {
  const [low, high] = doubt ? endsOf(value, doubt) : [value, value];
  const least = bounds.min ?? bounds.above ?? Number.NEGATIVE_INFINITY;
  const most = bounds.max ?? bounds.below ?? Number.POSITIVE_INFINITY;
  if (low >= least && high <= most) return true;
  const wrong =
    low < least
      ? `goes down to ${inTypedUnit(low)} and must be at least ${inTypedUnit(least)}`
      : `goes up to ${inTypedUnit(high)} and must be at most ${inTypedUnit(most)}`;
  say(`${quoted(text)} ${wrong}; write a narrower doubt, or a range such as 8 to 12`);
  return false;
}

/** The value of `read`, or what its UnitError says is refused. */
export function attempt<T>(read: () => T, say: Refuse): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof UnitError) return say(error.message);
    throw error;
  }
}

/** The value, if its bounds allow it; they are told in the unit the person typed. */
export function within(
  { value, inTypedUnit, unit }: Typed,
  { min, above, max, below }: Bounds,
  text: string,
  say: Refuse,
): number | undefined {
  const said = (bound: number) =>
    bound === 0 && unit !== "°F" && unit !== "K" ? `0 ${unit}`.trim() : inTypedUnit(bound);
  const wanted =
    min !== undefined && value < min
      ? `at least ${said(min)}`
      : above !== undefined && value <= above
        ? `more than ${said(above)}`
        : max !== undefined && value > max
          ? `at most ${said(max)}`
          : below !== undefined && value >= below
            ? `less than ${said(below)}`
            : undefined;
  return wanted === undefined ? value : say(`${quoted(text)} is out of range; it must be ${wanted}`);
}

function choiceOf(text: string, key: Extract<Key, { kind: "choice" }>, say: Refuse) {
  if (key.choices.includes(text)) return text;
  const near = nearest(text, key.choices);
  return say(`${quoted(text)} is not one of ${key.choices.join(", ")}${near ? `; did you mean ${near}?` : ""}`);
}
