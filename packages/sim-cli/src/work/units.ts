import { type Fitted, keyAt, figures as round, usualInWords } from "@rideon/sim-core";
import { label } from "../read/text/open.js";
import { capital } from "../words/lists.js";
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

type Range = readonly [least: number, most: number];

/** The ends of the ranges of a key's default, of all its kinds. */
function rangeOf(path: string): Range {
  const given = keyAt(path)?.default as unknown as { range: Record<string, Range> } | undefined;
  const ranges = Object.values(given?.range ?? {});
  return [Math.min(...ranges.map(([least]) => least)), Math.max(...ranges.map(([, most]) => most))];
}

/** On average club track, with whatever bearings; starting takes so many times of it. */
function averageOf(path: string): Range {
  const rolling = rangeOf(ROLLING);
  if (path === ROLLING) return rolling;
  const times = rangeOf(path);
  return [rolling[0] * times[0], rolling[1] * times[1]];
}

const ROLLING = "loco.resistance.rolling";

const within = (value: number, [least, most]: Range): boolean => value >= least && value <= most;

/**
 * Warns of a figure that is not usual for its key, or that another unit would put among the usual ones: readings under the
 * heading of another unit make a figure as good as any, and nobody sees it once it is in a file.
 */
export function unusual(sheet: string, fitted: readonly Fitted[], of: (path: string) => Asked): PlacedWarning[] {
  return fitted.flatMap(({ path, value }) => {
    const key = keyAt(path);
    const usual = key && "usual" in key ? key.usual : undefined;
    const average = averageOf(path);
    if (usual === undefined || within(value, average)) return [];
    const { called, read, others } = of(path);
    const likely = others.filter(({ times }) => within(value * times, average));
    const odd = !within(value, [usual[0], usual[1]]);
    if (!odd && likely.length === 0) return [];
    const found = odd
      ? `${round(value)} is unusual; usual is ${key && usualInWords(key)}`
      : `${round(value)} is ${value > average[1] ? "more" : "less"} than on average club track, ${round(average[0])} to ${round(average[1])}`;
    const causes = likely.map(({ unit, times }) => `read in ${unit} they would make ${round(value * times)}`);
    const cause = `Were the readings made in ${read}, as the heading says?`;
    const told = causes.length > 0 ? `${cause} ${capital(causes.join(", "))}.` : `${cause} Look at the mass too.`;
    return [{ code: "unusual", file: label(sheet), line: null, column: null, message: `${called}: ${found}. ${told}` }];
  });
}

/** Of units by their size in SI, all but the one that was read; a figure goes in proportion to what was read. */
export const othersThan = (read: string, sizes: Readonly<Record<string, number>>): OtherUnit[] =>
  Object.entries(sizes).flatMap(([unit, size]) =>
    unit === read ? [] : [{ unit, times: size / (sizes[read] ?? Number.NaN) }],
  );
