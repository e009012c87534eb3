import { type Fitted, keyAt, figures as round, usualInWords } from "@rideon/sim-core";
import { UsageError } from "../read/diagnostics.js";
import { label } from "../read/text/open.js";
import { capital, listed } from "../words/lists.js";
import type { PlacedWarning } from "../words/warnings.js";

/** A unit that readings may have been made in, and the figure they would then make, over the one they made. */
export interface OtherUnit {
  unit: string;
  times: number;
}

/** What a figure is called, and the units that its readings have columns for, but for the one they stood under. */
export interface Asked {
  called: string;
  read: string;
  others: readonly OtherUnit[];
}

export const BEARINGS = ["ball", "plain"] as const;
export type Bearings = (typeof BEARINGS)[number];

type Range = readonly [least: number, most: number];

/** The range of a key's default with one kind of bearings. */
function rangeOf(path: string, kind: Bearings): Range {
  const given = keyAt(path)?.default as unknown as { range: Record<Bearings, Range> } | undefined;
  return given?.range[kind] ?? [Number.NaN, Number.NaN];
}

/** On average club track, with these kinds of bearings; starting takes so many times of it. */
function averageOf(path: string, kinds: readonly Bearings[]): Range {
  const ranges = kinds.map((kind): Range => {
    const rolling = rangeOf(ROLLING, kind);
    const times = path === ROLLING ? [1, 1] : rangeOf(path, kind);
    return [rolling[0] * (times[0] ?? 1), rolling[1] * (times[1] ?? 1)];
  });
  return [Math.min(...ranges.map(([least]) => least)), Math.max(...ranges.map(([, most]) => most))];
}

const ROLLING = "loco.resistance.rolling";

const within = (value: number, [least, most]: Range): boolean => value >= least && value <= most;

/** What is unusual about measured figures. */
export interface Suspected {
  warnings: PlacedWarning[];
  /** Of those that another unit would put among the usual ones, the question that wants an answer first; or else null. */
  question: string | null;
}

/**
 * Warns of a figure that is not usual for its key, or that another unit would put among the usual ones: readings under the
 * heading of another unit make a figure as good as any, and nobody sees it once it is in a file.
 * @param known the bearings of what was measured, all kinds of them; where nobody told, any
 */
export function unusual(
  sheet: string,
  fitted: readonly Fitted[],
  of: (path: string) => Asked,
  known: readonly Bearings[] = [],
): Suspected {
  const kinds = known.length > 0 ? known : BEARINGS;
  const track = `average club track${known.length > 0 ? ` with ${listed(known)} bearings` : ""}`;
  // One balance and one hand: a unit that makes rolling usual is that of the pull to start as well, which is known less well.
  const vouched = new Set(
    fitted.flatMap(({ path, value }) =>
      path === ROLLING && within(value, averageOf(path, kinds)) ? [of(path).read] : [],
    ),
  );
  const questions = new Set<string>();
  const warnings = fitted.flatMap(({ path, value }) => {
    const key = keyAt(path);
    const usual = key && "usual" in key ? key.usual : undefined;
    const average = averageOf(path, kinds);
    if (usual === undefined || within(value, average)) return [];
    const { called, read, others } = of(path);
    const likely = vouched.has(read) ? [] : others.filter(({ times }) => within(value * times, average));
    const odd = !within(value, [usual[0], usual[1]]);
    if (!odd && likely.length === 0) return [];
    const found = odd
      ? `${round(value)} is unusual; usual is ${key && usualInWords(key)}`
      : `${round(value)} is ${value > average[1] ? "more" : "less"} than on ${track}, ${round(average[0])} to ${round(average[1])}`;
    const causes = likely.map(({ unit, times }) => `read in ${unit} they would make ${round(value * times)}`);
    const cause = `Were the readings made in ${read}, as the heading says?`;
    const told = causes.length > 0 ? `${cause} ${capital(causes.join(", "))}.` : `${cause} Look at the mass too.`;
    const message = `${called}: ${found}. ${told}`;
    if (causes.length > 0) questions.add(capital(message));
    return [{ code: "unusual", file: label(sheet), line: null, column: null, message }];
  });
  return { warnings, question: questions.size > 0 ? [...questions].join(" ") : null };
}

/** Refuses to put a figure into a file that another unit would put among the usual ones. @throws UsageError */
export function mustBeSure(into: string, { question }: Suspected): void {
  if (question === null) return;
  throw new UsageError(
    `--into ${into}: nothing was put there. ${question} Mend the heading, or the bearings that are told; or, if both are right, leave --into away and paste the lines yourself`,
  );
}

/** Of units by their size in SI, all but the one that was read; a figure goes in proportion to what was read. */
export const othersThan = (read: string, sizes: Readonly<Record<string, number>>): OtherUnit[] =>
  Object.entries(sizes).flatMap(([unit, size]) =>
    unit === read ? [] : [{ unit, times: size / (sizes[read] ?? Number.NaN) }],
  );
