import { backwards, cholesky, forwards } from "../../numeric/cholesky.js";
import { INSTRUMENT, type Instrument } from "../../studies/trial/instruments.js";
import { type ByCell, COMPARED, type Compared } from "./cells.js";
import type { Sensitivities } from "./sensitivity.js";

/** What each quantity is read with, and so how far the log itself may be off. */
export const READ_WITH: Readonly<Record<Compared, Pick<Instrument, "gain" | "besides">>> = {
  speed: { gain: INSTRUMENT.timed.share, besides: INSTRUMENT.timed.besides },
  motor_current: INSTRUMENT.ammeter,
  battery_current: INSTRUMENT.ammeter,
  battery_voltage: INSTRUMENT.voltsUnderWay,
  temperature: INSTRUMENT.thermometer,
  // A logger's own share of one: common practice, no source.
  duty: { gain: 0, besides: 0.02 },
};

/** Logged less predicted, each piece of line and quantity a number, and what weighs it. */
export interface Residuals {
  readonly quantities: readonly Compared[];
  /** Of each number: quantity and piece. */
  readonly at: readonly { readonly name: Compared; readonly cell: number }[];
  readonly values: Float64Array;
  /** One standard deviation of what is by chance from piece to piece. */
  readonly noise: Float64Array;
}

const TO_SD = 1.4826;
const KEPT_mps = 0.1;

/** @returns what both the log and the sums tell of */
export function residualsOf(logged: ByCell, predicted: ByCell, { survey }: Pick<Sensitivities, "survey">): Residuals {
  const at: { name: Compared; cell: number }[] = [];
  const values: number[] = [];
  const noise: number[] = [];
  const quantities: Compared[] = [];
  for (const name of COMPARED) {
    const off = logged[name].map((each, i) => each - predicted[name][i]);
    const told = [...off.keys()].filter((i) => !Number.isNaN(off[i]));
    if (told.length < 3) continue;
    quantities.push(name);
    const steps = told.slice(1).map((i, k) => Math.abs(off[i] - off[told[k]]));
    const rough = (TO_SD * median(steps)) / Math.SQRT2;
    // The sums' driver keeps to the logged speed as a driver does: what little is left of that tells nothing.
    const least = name === "speed" ? KEPT_mps : READ_WITH[name].besides / 2;
    for (const i of told) {
      at.push({ name, cell: i });
      values.push(off[i]);
      noise.push(Math.hypot(rough, least, survey[name][i]));
    }
  }
  return { quantities, at, values: Float64Array.from(values), noise: Float64Array.from(noise) };
}

/** Nothing follows nearer than this. */
const MOST_ALIKE = 0.95;

/**
 * The same with as much more noise as pieces that follow one another want: so many fewer tell anything of their own. By the
 * correlation from one piece to the next, about each quantity's mean.
 */
export function loosened(residuals: Residuals): Residuals {
  const { at, values, quantities } = residuals;
  let [together, square] = [0, 0];
  for (const name of quantities) {
    const own = values.filter((_, i) => at[i].name === name);
    const mean = own.reduce((sum, each) => sum + each, 0) / own.length;
    const scale = own.reduce((sum, each) => sum + (each - mean) ** 2, 0) / own.length || 1;
    for (const [i, each] of own.entries()) {
      square += (each - mean) ** 2 / scale;
      if (i > 0) together += ((each - mean) * (own[i - 1] - mean)) / scale;
    }
  }
  const alike = square > 0 ? Math.min(MOST_ALIKE, Math.max(0, together / square)) : 0;
  const by = Math.sqrt((1 + alike) / (1 - alike));
  return { ...residuals, noise: residuals.noise.map((each) => by * each) };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

/** A quantity's effect by pieces, as the residuals are ranged. */
export const ranged = ({ at }: Residuals, of: ByCell): Float64Array =>
  Float64Array.from(at, ({ name, cell }) => {
    const each = of[name][cell];
    return Number.isNaN(each) ? 0 : each;
  });

/** The meters' errors that are one and the same in all that is read with them: of gain, and of zero. */
export function metersOf({ at, quantities }: Residuals, logged: ByCell): Float64Array[] {
  return quantities.flatMap((name) => {
    const { gain, besides } = READ_WITH[name];
    const own = (of: (cell: number) => number) =>
      Float64Array.from(at, (each) => (each.name === name ? of(each.cell) : 0));
    return [own((cell) => gain * logged[name][cell]), own(() => besides)].filter((column) =>
      column.some((e) => e !== 0),
    );
  });
}

/**
 * What speeding up takes, as much of it as the log likes: a speed that is logged roughly makes accelerations that never
 * were, and they would speak for a lighter train (errors in variables).
 */
export function speedingUp(residuals: Residuals, { figures }: Pick<Sensitivities, "figures">): Float64Array[] {
  const turning = figures.filter(({ doubt }) => /inertia$/.test(doubt.path));
  const size = (column: Float64Array) => column.reduce((sum, each) => sum + each * each, 0);
  const columns = turning.map(({ moves }) => ranged(residuals, moves)).sort((a, b) => size(b) - size(a));
  return columns.slice(0, 1);
}

/** What a solution leaves, and what it takes. */
export interface Left {
  /** Weighted squares left over, what the held ones cost counted in. */
  readonly squares: number;
  /** Of the free columns, and then of the held ones. */
  readonly amounts: Float64Array;
  /** Of the free columns' amounts; infinite where they cannot be told. */
  readonly covariance: readonly Float64Array[];
}

/**
 * Weighted least squares of what differs by columns: `free` ones as much as it takes, `held` ones at a cost, each a
 * standard deviation wide. That is generalised least squares, the held ones being errors in common.
 */
export function left(
  { values, noise }: Pick<Residuals, "values" | "noise">,
  free: readonly Float64Array[],
  held: readonly Float64Array[],
): Left {
  const columns = [...free, ...held];
  const n = columns.length;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const weight = 1 / noise[i] ** 2;
    squares += weight * values[i] ** 2;
    for (let j = 0; j < n; j++) {
      right[j] += weight * columns[j][i] * values[i];
      for (let k = 0; k <= j; k++) normal[j * n + k] += weight * columns[j][i] * columns[k][i];
    }
  }
  for (let j = 0; j < n; j++) {
    if (j >= free.length) normal[j * n + j] += 1;
    for (let k = 0; k < j; k++) normal[k * n + j] = normal[j * n + k];
  }
  const low = cholesky(normal, n);
  const solved = (b: Float64Array): Float64Array => {
    if (!low) return b.fill(Number.POSITIVE_INFINITY);
    forwards(low, b);
    backwards(low, b);
    return b;
  };
  const amounts = low ? solved(right.slice()) : new Float64Array(n);
  return {
    squares: squares - right.reduce((sum, each, j) => sum + each * amounts[j], 0),
    amounts,
    covariance: free.map((_, j) => solved(Float64Array.from({ length: n }, (_, k) => (k === j ? 1 : 0)))),
  };
}
