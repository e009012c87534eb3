import type { Warning } from "../../errors.js";
import { sound } from "../../record/sound.js";
import { createPlan, type Plan } from "../../train/plan.js";
import type { Pair } from "../gears/choices.js";
import { bySurvey } from "../limits/aboard.js";
import type { PlanFiles } from "../limits/limits.js";
import { askCheck, askGears, askShafts } from "./ask.drive.js";
import { askParts, askSize, askWiring } from "./ask.parts.js";
import { askBrakes, askClimb, askLaps, askLimits, askRun, tablesOf } from "./ask.running.js";
import type { Ask, Value } from "./asking.js";
import { figuresOf, type Swept } from "./figures.js";
import { belowReserve, beyondSeats } from "./lacks.js";

/** What one case came to: null where it has no such figure, as what runs away has no stopping distance. */
export interface SweptCase {
  readonly figures: Readonly<Record<string, Value>>;
  /** `completed`, or what ended a working or a day before its time. */
  readonly outcome: string;
  /** What is to be looked at in its plan. */
  readonly warnings: readonly Warning[];
  /**
   * What it falls short by: how it ended, figures that hold in every case to be recommended and do not hold here, and
   * `SWEPT_LACKS`, those that are counted with their number: `too_many_aboard:12`.
   */
  readonly short: readonly string[];
  /** Teeth of the choice of `gears` that is told first; null where it is not asked, or finds none. */
  readonly teeth: readonly Pair[] | null;
}

export interface SweptOptions {
  /** Teeth of the sprockets to hand, for `gears`; those that shops keep where absent. */
  teeth?: readonly number[];
}

const ASK: Readonly<Record<Swept, Ask>> = {
  run: askRun,
  laps: askLaps,
  climb: askClimb,
  brakes: askBrakes,
  limits: askLimits,
  gears: askGears,
  size: askSize,
  check: askCheck,
  shafts: askShafts,
  parts: askParts,
  wiring: askWiring,
};

/** Is all that is asked of the train and its line alone, so that the loco needs no drive yet? */
export const needsNoDrive = (asked: readonly Swept[]): boolean => asked.every((question) => question === "size");

/**
 * The key figures of a plan, by the questions asked: a pure function of its files.
 * @throws InputError where the files make no train; RunError where a run of it cannot be finished
 */
export function sweptCase(files: PlanFiles, asked: readonly Swept[], { teeth }: SweptOptions = {}): SweptCase {
  let made: Plan | undefined;
  const plan = () => {
    made ??= createPlan(files.plan, files.loco, files.track, tablesOf(files));
    return made;
  };
  if (!needsNoDrive(asked)) plan();
  const parts = asked.map((question) => ASK[question]({ files, plan, teeth }));
  const figures = Object.assign({}, ...parts.map((part) => part.figures)) as SweptCase["figures"];
  const trouble = parts.find((part) => part.trouble !== null)?.trouble ?? "completed";
  const told = new Set(parts.flatMap(({ toldBy = [] }) => toldBy));
  const short = [
    ...(trouble === "completed" ? [] : [trouble]),
    ...figuresOf(asked).flatMap(({ name, wanted }) =>
      wanted && figures[name] === false && !told.has(name) ? [name] : [],
    ),
    ...parts.flatMap(({ lacks = [] }) => lacks),
    ...beyondSeats(files),
    ...(made ? belowReserve(made) : []),
    // No judgement on such a line is good enough to act on, whatever was asked.
    ...(made && bySurvey(made).length > 0 ? ["survey_good_enough"] : []),
  ];
  return sound({
    figures,
    outcome: trouble,
    warnings: made?.notes.warnings ?? parts.find(({ warnings }) => warnings)?.warnings ?? [],
    short: [...new Set(short)],
    teeth: parts.find((part) => part.teeth)?.teeth ?? null,
  });
}
