import { InputError } from "../../errors.js";
import type { EndedBy, Outcome } from "../../event.js";
import { sound } from "../../record/sound.js";
import { mustBeAsked } from "../../studies/asked.js";
import type { PlanFiles } from "../../studies/limits/limits.js";
import { createPlan, type Plan } from "../../train/plan.js";
import { agreement, astray_m, type Strayed, strayedAt } from "./agree.js";
import type { Basis } from "./basis.js";
import { cellsOf, loggedIn, strayedIn, without } from "./cells.js";
import { type Covers, comparedIn, coversOf } from "./covers.js";
import { betterBegun, betterScaled } from "./elsewhere.js";
import { type Explanation, explained } from "./explain.js";
import { type Fit, fitted } from "./fit.js";
import { rollsIn } from "./freest.js";
import { type Journey, journeyOf } from "./journey.js";
import { type LogColumns, mustBeLog } from "./log.js";
import { type MeterOff, meterOff } from "./meter.js";
import { type Placed, placeLog } from "./place.js";
import { type Predicted, predict } from "./predict.js";
import { type PlaceCompared, placesOf, type QuantityCompared, quantitiesOf } from "./quantities.js";
import { sensitivities } from "./sensitivity.js";
import { speedUnit } from "./speed-unit.js";
import { type SteadyPiece, steadiest } from "./steady.js";
import { residualsOf } from "./weigh.js";

export interface CompareOptions {
  /** Chainage of the head where the log begins, or where the lap button is pressed, m; the first post unless told. */
  from_m?: number;
  /** Figures to be fitted: `loco.resistance.rolling`. */
  fit?: readonly string[];
  /** Told of each run that is done. */
  onRun?: () => void;
}

/** A logged run beside the sums, driven along the line as it was driven. */
export interface CompareAnswer extends Partial<Fit> {
  /** How the sums' own run ended: completed where it came as far as the log goes. */
  outcome: Outcome;
  ended_by: EndedBy | null;
  /** Since the log began; to where the sums' run came, and to where the log goes. */
  came_m: number;
  distance_m: number;
  time_s: number;
  readings: number;
  /** Where the log begins, of the head. */
  from_m: number;
  placed_by: Placed["by"];
  /** Marked by the button from one to the next. */
  laps: number;
  scale: number | null;
  speed_over_distance: number | null;
  fell: number;
  stops: number;
  gaps: { reading: number; for_s: number }[];
  /** Metres of it in which current, volts or duty could be held beside the sums. */
  compared_m: number;
  /** Where the sums' train did not keep to the logged speed, and nothing else is compared: farthest off, and how long it was so. */
  strayed: Strayed | null;
  /** How much of the line that is, and whether its steepest bits are in it. */
  covers: Covers;
  /**
   * Is all that was logged within what both leave open, the whole way? Null where it is and that tells too little: nothing
   * but the speed, or not enough of the line.
   */
  agrees: boolean | null;
  /** What a metre per second of the log is of the plan's, where it looks like another unit of the speed; null where it does not. */
  speed_unit: number | null;
  /** Metres of the line to a metre of the log with which it would lie much better, on a circuit; null where none is. */
  better_scale: number | null;
  /** A meter that would explain it by itself, were it off; null where none would. */
  meter: MeterOff | null;
  /** Chainage where the log would begin to lie much better, on a circuit; null where none is. */
  better_from_m: number | null;
  /** How freely it leaves the train to roll, in times of the files' rolling, at most 1; null where it tells nothing of that. */
  rolls: number | null;
  /** The same in the middle of what it leaves open. */
  rolls_about: number | null;
  /** How stiffly it leaves the train to roll, in times of the files' rolling, at least 1; null where it tells nothing of that. */
  stiffens: number | null;
  quantities: QuantityCompared[];
  places: PlaceCompared[];
  explained_by: Explanation[];
  /** What a sheet of the first outing asks for, where the log has the lever. */
  steady: SteadyPiece | null;
}

/** A log of less tells nothing, m. */
const SHORTEST_m = 20;

/**
 * Compares a logged run with the sums: the plan's train is driven along the line at the logged speed, and what motor and
 * battery should then have read is held beside what they did, piece by piece of the line. The doubt is that of every figure
 * (law of propagation, JCGM 100:2008) and of the meters.
 * @throws InputError, RunError
 */
export function compare(files: PlanFiles, log: LogColumns, options: CompareOptions = {}): CompareAnswer {
  const { from_m = 0, fit, onRun = () => {} } = options;
  mustBeAsked({ chainage_m: from_m });
  mustBeLog(log);
  const plan = createPlan(files.plan, files.loco, files.track, files.tables);
  const { placed, journey, cells } = laidOut(log, plan, from_m);
  const read = loggedIn(cells, log, placed, journey);
  const motor_degC = firstOf(log.temperature);
  const ask = (of: Plan): Predicted => {
    onRun();
    return predict(of, journey, cells, motor_degC);
  };
  const predicted = ask(plan);
  const strayed = strayedIn(read, predicted.cells);
  const logged = without(read, strayed);
  const moved = sensitivities(files, predicted.cells, (of) => ask(of).cells);
  const residuals = residualsOf(logged, predicted.cells, moved);
  if (residuals.quantities.length === 0 && predicted.outcome === "completed")
    throw new InputError([
      {
        path: "log.1",
        message: "nowhere in it does the train run steadily enough to be compared; a longer log is wanted",
      },
    ]);
  const basis: Basis = {
    logged,
    predicted: predicted.cells,
    load: predicted.load,
    moved,
    residuals,
    cells,
    astray_m: astray_m(placed, journey, plan),
  };
  if (fit && fit.length > 0 && predicted.outcome !== "completed") throw tooShortToFit(predicted, journey);
  const quantities = quantitiesOf(basis);
  const circuit = plan.track.kind === "circuit";
  const covers = coversOf(basis, journey, plan);
  const agrees = agreement(predicted.outcome, quantities, covers);
  const better_scale =
    circuit && agrees === false && placed.scale === null ? betterScaled(basis, journey, plan.track.length_m) : null;
  const rolls = quantities.length === 0 ? null : rollsIn(basis, plan, (of) => ask(of).cells);
  return sound({
    ...(fit && fit.length > 0 && fitted(files, fit, basis, (of) => ask(of).cells)),
    outcome: predicted.outcome,
    ended_by: predicted.outcome === "completed" ? null : predicted.by,
    came_m: predicted.run_m,
    distance_m: journey.length_m,
    time_s: journey.time_s,
    readings: log.time_s.length,
    from_m: journey.begins_m,
    placed_by: placed.by,
    laps: placed.laps,
    scale: placed.scale,
    speed_over_distance: placed.speed_over_distance,
    fell: placed.fell,
    stops: journey.stands.length,
    gaps: journey.gaps.map(({ reading, for_s }) => ({ reading, for_s })),
    compared_m: comparedIn(basis, journey),
    covers,
    strayed: strayedAt(strayed, basis),
    agrees,
    speed_unit: agrees === true || placed.by !== "speed" ? null : speedUnit(log, plan),
    better_scale,
    better_from_m:
      better_scale === null && circuit && agrees === false ? betterBegun(basis, journey, plan.track.length_m) : null,
    meter: meterOff(basis),
    ...(rolls ?? { rolls: null, rolls_about: null, stiffens: null }),
    quantities,
    places: placesOf(basis),
    explained_by: explained(residuals, moved, logged),
    steady: steadiest(basis),
  });
}

function laidOut(log: LogColumns, { track }: Plan, from_m: number) {
  const placed = placeLog(log, track, from_m);
  const journey: Journey = journeyOf(log, placed, track.kind === "circuit" ? track.length_m : 0);
  if (journey.length_m < SHORTEST_m)
    throw new InputError([
      {
        path: "log.1",
        message: `the train moves ${journey.length_m.toFixed(1)} m in it, and ${SHORTEST_m} m or more are wanted`,
      },
    ]);
  return { placed, journey, cells: cellsOf(journey, track.length_m) };
}

const tooShortToFit = ({ run_m }: Predicted, { length_m }: Journey): InputError =>
  new InputError([
    {
      path: "options.fit",
      message: `by the sums the train comes ${run_m.toFixed(0)} m of the ${length_m.toFixed(0)} m that the log goes, so there is nothing sound to fit to. Mend what stops it first; ask without --fit for what does`,
    },
  ]);

function firstOf(column: ArrayLike<number> | undefined): number | undefined {
  if (!column) return undefined;
  for (let i = 0; i < column.length; i++) if (!Number.isNaN(column[i])) return column[i];
  return undefined;
}
