import { type Doubtful, groupOf } from "../../doubt/doubts.js";
import { askDrawn } from "../../doubt/draw.js";
import { keyAt, RunError } from "../../errors.js";
import { UNIT_IN_WORDS } from "../../keys.js";
import { NINETEEN_IN_TWENTY } from "../../numeric/quantile.js";
import type { PlanFiles } from "../../studies/limits/limits.js";
import { createPlan, type Plan } from "../../train/plan.js";
import type { Fitted } from "../fitted.js";
import type { Basis } from "./basis.js";
import type { ByCell } from "./cells.js";
import { quantitiesOf } from "./quantities.js";
import { type Sensitivity, sensitivities } from "./sensitivity.js";
import { mustBeNear, refusal, type StillOff, stillOff } from "./still.js";
import { type Left, left, loosened, metersOf, type Residuals, ranged, residualsOf, speedingUp } from "./weigh.js";

/** Figures fitted to a log. */
export interface Fit {
  fitted: Fitted[];
  /** Row after row, as the log alone tells them: near 1 or -1 it cannot tell two apart. */
  correlation: number[][];
  /** What is left over after it, by pieces of line, in times what chance leaves. */
  rms: number;
  /** Quantities that differ still by more than is left open: then the figures are no measurement to go on. */
  differs_still: StillOff[];
}

/** Beyond this two figures are not told apart. */
const NOT_APART = 0.97;
/** A log that leaves a figure as wide as this, in what was known of it, tells nothing. */
const LEAST_TOLD = 0.9;
const HINTED = 8;
/** Of a standard deviation of what was known: how far a figure is moved to see what it does. */
const STEP = 0.25;
/** A fit is done where less than this is wanted still: of the doubt that the log leaves, or of what was known. */
const NEAR = 0.05;
const NEAR_KNOWN = 0.02;
/** Squares that the roughness of a run may hide: four, and a share of all. */
const ROUGH_SQUARES = 4;
const ROUGH_SHARE = 0.05;
const MOST_TURNS = 12;
const LEAST_STEP = 1 / 64;
/** A piece that the train did not reach weighs like one far off, in times of chance. */
const NOT_REACHED = 10;

/**
 * Figures that make the sums agree best with the log, all others where they stand: by generalised least squares, the
 * meters' own errors held in common, in Gauss-Newton steps, halved while they do not help. The interval counts what the log
 * leaves open, pieces of line that follow one another telling less, and the doubt of every other figure.
 * @throws InputError where a figure cannot be fitted, or the log cannot tell
 */
export function fitted(files: PlanFiles, paths: readonly string[], basis: Basis, ask: (plan: Plan) => ByCell): Fit {
  const { moved, logged, predicted, residuals } = basis;
  const own = chosenOf(paths, moved.figures, residuals);
  const meters = metersOf(residuals, logged);
  const rough = speedingUp(residuals, moved);
  const firstSlopes = own.map(({ moves }) => ranged(residuals, moves));
  mustTell(paths, left(residuals, [...firstSlopes, ...rough], meters).covariance);
  const lines = own.map(({ doubt }) => straight(doubt));
  // What differs with the figures there; a piece that the sums' train does not reach is none of it.
  const off = (z: Float64Array): Float64Array => {
    const cells = moving(files, lines, z, ask);
    return Float64Array.from(residuals.at, ({ name, cell }) =>
      cells ? logged[name][cell] - cells[name][cell] : Number.NaN,
    );
  };
  const at = (z: Float64Array): Residuals => {
    const values = off(z).map((each, i) => (Number.isNaN(each) ? NOT_REACHED * residuals.noise[i] : each));
    return { ...residuals, values };
  };
  const slopesAt = (z: Float64Array) =>
    own.map((_, j) => {
      const [above, below] = [1, -1].map((way) => off(z.map((each, k) => each + (k === j ? way * STEP : 0))));
      return above.map((each, i) => (below[i] - each) / (2 * STEP) || 0);
    });
  let z = new Float64Array(own.length);
  let here: Residuals = residuals;
  let slopes = slopesAt(z);
  let done = false;
  for (let turn = 0; turn < MOST_TURNS && !done; turn++) {
    const { amounts, covariance, squares } = left(here, [...slopes, ...rough], meters);
    const before = left(here, rough, meters).squares;
    const stepped = (share: number) => z.map((each, j) => each + share * amounts[j]);
    let share = 1;
    let next = at(stepped(share));
    while (share > LEAST_STEP && left(next, rough, meters).squares > before) {
      share /= 2;
      next = at(stepped(share));
    }
    // A run is rough: a driver looks up by tenths of a second. Where no step helps, it is an end if none promised much.
    const promised = before - squares;
    const stuck = share <= LEAST_STEP;
    done = stuck
      ? promised < ROUGH_SQUARES + ROUGH_SHARE * before
      : own.every((_, j) => Math.abs(amounts[j]) < Math.max(NEAR * Math.sqrt(covariance[j][j]), NEAR_KNOWN));
    if (!stuck) {
      z = stepped(share);
      here = next;
      slopes = slopesAt(z);
    } else if (!done) break;
  }
  if (!done)
    throw refusal(
      paths.map((path) => `${path}: no value makes the sums agree best; ask without --fit for what differs`),
    );
  const end = loosened(here);
  const columns = [...slopes, ...rough];
  // What the others do hangs on what was fitted: a train that runs away downhill feels each of them more.
  const middle = moving(files, lines, z, ask) ?? predicted;
  const others = sensitivities(files, middle, ask, { lines, z });
  const after = quantitiesOf({
    ...basis,
    predicted: middle,
    moved: others,
    residuals: residualsOf(logged, middle, others),
  });
  mustBeNear(after);
  const moves = others.figures.map((each) => ranged(residuals, each.moves));
  return {
    ...told(lines, z, covarianceOf(end, columns, meters, moves, own.length), here),
    differs_still: after.flatMap((each) => stillOff(each) ?? []),
  };
}

/** Of the fitted figures: what the log leaves open, and what every other figure's doubt would move them by. */
export function covarianceOf(
  residuals: Residuals,
  columns: readonly Float64Array[],
  meters: readonly Float64Array[],
  others: readonly Float64Array[],
  count: number,
): number[][] {
  const { covariance } = left(residuals, columns, meters);
  const moves = others.map((values) => left({ ...residuals, values }, columns, meters).amounts);
  return Array.from({ length: count }, (_, j) =>
    Array.from({ length: count }, (_, k) => moves.reduce((sum, by) => sum + by[j] * by[k], covariance[j][k])),
  );
}

function told(
  lines: readonly Doubtful[],
  z: Float64Array,
  covariance: number[][],
  { values, noise }: Residuals,
): Omit<Fit, "differs_still"> {
  const fits = lines.map(({ path, at, middle }, j): Fitted => {
    const half = NINETEEN_IN_TWENTY * Math.sqrt(covariance[j][j]);
    const ends = [at(middle, z[j] - half), at(middle, z[j] + half)];
    const key = keyAt(path.replaceAll(".*", ".1"));
    const unit = key?.kind === "quantity" ? UNIT_IN_WORDS[key.dimension] : "";
    return { path, value: at(middle, z[j]), unit, low: Math.min(...ends), high: Math.max(...ends) };
  });
  const correlation = lines.map((_, j) =>
    lines.map((_, k) => covariance[j][k] / Math.sqrt(covariance[j][j] * covariance[k][k])),
  );
  const squares = values.reduce((sum, each, i) => sum + (each / noise[i]) ** 2, 0);
  return { fitted: fits, correlation, rms: Math.sqrt(squares / values.length) };
}

function chosenOf(paths: readonly string[], figures: readonly Sensitivity[], residuals: Residuals): Sensitivity[] {
  const twice = paths.filter((path, i) => paths.findIndex((each) => groupOf(each) === groupOf(path)) < i);
  if (twice.length > 0) throw refusal(twice.map((path) => `${path} stands there twice`));
  const chosen = paths.map((path) => figures.find(({ doubt }) => doubt.path === groupOf(path)));
  const odd = paths.filter((_, i) => chosen[i] === undefined);
  if (odd.length > 0) {
    // Those that move it most, for a hint.
    const size = ({ moves }: Sensitivity) =>
      ranged(residuals, moves).reduce((sum, each, i) => sum + (each / residuals.noise[i]) ** 2, 0);
    const known = [...figures].sort((a, b) => size(b) - size(a)).map(({ doubt }) => doubt.path);
    const hint = known.slice(0, HINTED).join(", ");
    throw refusal(
      odd.map(
        (path) => `${path} is no figure that this log could tell; those that move most of what it reads are ${hint}`,
      ),
    );
  }
  return chosen.filter((each) => each !== undefined);
}

/** Moves as straight as can be: the figure's own standard deviation either way, within its bounds. */
function straight({ path, by, middle, at, measured }: Doubtful): Doubtful {
  const step = (at(middle, 1) - at(middle, -1)) / 2;
  const [least, most] = [at(middle, -60), at(middle, 60)];
  const [low, high] = step > 0 ? [Math.min(least, middle / 20), Math.max(most, middle * 20)] : [most, least];
  return { path, by, middle, measured, at: (_, z) => Math.min(high, Math.max(low, middle + step * z)) };
}

function moving(
  files: PlanFiles,
  lines: readonly Doubtful[],
  z: ArrayLike<number>,
  ask: (plan: Plan) => ByCell,
): ByCell | null {
  try {
    return askDrawn(files, lines, Float64Array.from(z), 0, (drawn) =>
      ask(createPlan(drawn.plan, drawn.loco, files.track, drawn.tables)),
    );
  } catch (error) {
    if (error instanceof RunError) return null;
    throw error;
  }
}

/** A log that tells nothing of a figure, or cannot tell two apart, is no ground to fit them on. */
function mustTell(paths: readonly string[], covariance: Left["covariance"]): void {
  const problems: string[] = [];
  for (const [j, path] of paths.entries()) {
    for (let k = 0; k < j; k++) {
      const r = covariance[j][k] / Math.sqrt(covariance[j][j] * covariance[k][k]);
      if (Math.abs(r) > NOT_APART || Number.isNaN(r))
        problems.push(
          `${paths[k]} and ${path} are not told apart by this log: more of the one does what ${r < 0 ? "less" : "more"} of the other does (correlation ${Number.isNaN(r) ? "1" : r.toFixed(2)}). Fit one of them, and measure the other by itself`,
        );
    }
    if (problems.length === 0 && !(covariance[j][j] < LEAST_TOLD ** 2))
      problems.push(
        `${path}: this log tells no more of it than is known already; a longer one, or one over steeper line, might`,
      );
  }
  if (problems.length > 0) throw refusal(problems);
}
