import type { Book, Chapter, Prediction } from "./book.js";
import type { CauseName, SizeUnit } from "./causes.js";
import { told } from "./evidence.js";
import { predictionAt, spread } from "./likelihood.js";
import type { ReadingUnit } from "./readings.kinds.js";

/** What is noticed from the seat. */
export const SYMPTOMS = [
  "no_amps",
  "amps_without_movement",
  "volts_fall_too_far",
  "slow_but_strong",
  "fast_but_weak",
  "jerks",
  "slips",
  "hot",
  "wrong_way",
  "trips",
] as const;
export type Symptom = (typeof SYMPTOMS)[number];

/** What a symptom shows in, on a sound machine and with each cause that brings it about. */
export interface FaultRow {
  symptom: Symptom;
  /** What the telling readings are on a sound machine; 1 and 0 are yes and no, null is nothing to read. */
  sound: FaultReading[];
  causes: FaultCause[];
}

export interface FaultReading {
  reading: string;
  unit: ReadingUnit;
  value: number | null;
}

export interface FaultCause {
  cause: CauseName;
  where: string;
  /** The size it is worked out for: in the middle of its range, or the nearest that shows the symptom. */
  size: number | null;
  size_unit: SizeUnit;
  readings: FaultReading[];
  /** The reading by which it is told from the row's other causes, where one stands out. */
  told_by: string | null;
}

/** What is read for a symptom, and when it is there: by the ratio `x` of a reading to a sound machine's, or by what is
 * seen here and what usually is. */
interface Sign {
  readonly readings: readonly string[];
  readonly shows: (x: (reading: string) => number, says: (reading: string) => Says, breaker_A: number) => boolean;
}

/** A reading as it is, and whether a sound machine has a yes there. */
interface Says {
  readonly value: number;
  readonly yes: boolean;
  readonly no: boolean;
  readonly usually: boolean;
}

/** Least change that is noticed: common practice, no source. */
const MORE = 1.12;
const LESS = 0.9;

const SIGNS: Record<Symptom, Sign> = {
  no_amps: {
    readings: ["rest_volts", "held_controller_volts", "held_motor_amps", "run_motor_amps"],
    shows: (x) => x("run_motor_amps") < 0.2 && x("restart_most_amps") < 0.2,
  },
  amps_without_movement: {
    readings: ["run_speed", "run_motor_amps", "run_battery_volts", "held_pull", "roll_train"],
    shows: (x) => x("run_speed") === 0 && x("run_motor_amps") > 0.3,
  },
  volts_fall_too_far: {
    readings: ["rest_volts", "restart_least_volts", "run_battery_volts", "run_controller_volts", "run_battery_amps"],
    shows: (x) => x("restart_least_volts") < 0.97 || x("run_controller_volts") < 0.97,
  },
  slow_but_strong: {
    readings: ["run_speed", "stands_rpm_full", "held_pull", "run_motor_amps", "run_controller_volts"],
    shows: (x) => x("run_speed") > 0 && x("run_speed") < LESS && x("held_pull") > LESS,
  },
  fast_but_weak: {
    readings: ["run_speed", "stands_rpm_full", "held_pull", "held_motor_amps", "restart_amps"],
    shows: (x) => x("stands_rpm_full") > MORE && x("held_pull") < 1.02,
  },
  jerks: {
    readings: ["restart_cuts_out", "restart_spins", "held_motor_amps", "held_pull"],
    shows: (x, says) =>
      (says("restart_cuts_out").yes && !says("restart_cuts_out").usually) ||
      (x("held_pull") < 0.6 * x("held_motor_amps") && x("roll_loco") < MORE),
  },
  slips: {
    readings: ["restart_spins", "restart_most_amps", "restarts", "held_pull"],
    // Where a sound machine spins its wheels at full lever too, less current shows that they grip less.
    shows: (x, says) => {
      const { yes, usually } = says("restart_spins");
      return yes && (!usually || x("restart_most_amps") < LESS);
    },
  },
  hot: {
    readings: ["run_motor_amps", "restart_amps", "roll_train", "stands_amps"],
    shows: (x) => x("run_speed") > 0 && (x("run_motor_amps") > 1.25 || x("restart_amps") > 1.25),
  },
  wrong_way: {
    readings: ["stands_forwards", "run_forwards"],
    shows: (_, says) => says("stands_forwards").no && says("stands_forwards").usually,
  },
  trips: {
    readings: ["run_battery_amps", "restart_battery_amps", "run_speed", "run_motor_amps"],
    shows: (_, says, breaker_A) =>
      Math.max(says("run_battery_amps").value, says("restart_battery_amps").value) > breaker_A,
  },
};

export function faultTable(book: Book): FaultRow[] {
  const place = new Map(book.readings.map(({ reading }, at) => [reading, at]));
  const valueIn = (prediction: Prediction, reading: string) => {
    const at = place.get(reading);
    return at === undefined ? null : told(book, prediction, at);
  };
  const breaker_A = book.setting.machine.train.breaker.rating_A;
  return SYMPTOMS.map((symptom): FaultRow => {
    const sign = SIGNS[symptom];
    const known = sign.readings.filter((reading) => place.has(reading));
    const rowOf = (prediction: Prediction): FaultReading[] =>
      known.map((reading) => ({
        reading,
        unit: book.readings[place.get(reading) ?? 0].unit,
        value: valueIn(prediction, reading),
      }));
    const shown = book.chapters.flatMap((chapter) => {
      if (chapter.cause.cause === "nothing_wrong") return [];
      return sizesOf(chapter)
        .map((size) => ({ chapter, size, prediction: predictionAt(chapter, size) }))
        .filter(({ prediction }) => {
          const says = (reading: string): Says => ({
            value: valueIn(prediction, reading) ?? 0,
            yes: valueIn(prediction, reading) === 1,
            no: valueIn(prediction, reading) === 0,
            usually: valueIn(book.sound, reading) === 1,
          });
          const x = (reading: string) =>
            (valueIn(prediction, reading) ?? Number.NaN) / (valueIn(book.sound, reading) ?? Number.NaN);
          return sign.shows(x, says, breaker_A);
        })
        .slice(0, 1);
    });
    return {
      symptom,
      sound: rowOf(book.sound),
      causes: shown.map(({ chapter: { cause, variant }, prediction, size }) => ({
        cause: cause.cause,
        where: variant.where,
        size: cause.unit === "none" ? null : size,
        size_unit: cause.unit,
        readings: rowOf(prediction),
        told_by: standsOut(
          book,
          prediction,
          shown.map((each) => each.prediction).filter((other) => other !== prediction),
        ),
      })),
    };
  });
}

/** The middle of the range, and then further and further out: the first that shows a symptom is told. */
function sizesOf({ variant: { sizes } }: Chapter): number[] {
  const last = sizes.length - 1;
  return [...new Set([0.5, 0.25, 0.75, 0, 1].map((share) => sizes[Math.round(share * last)]))];
}

/** The reading furthest, in standard deviations, from what the nearest other cause has there. */
function standsOut(book: Book, mine: Prediction, others: readonly Prediction[]): string | null {
  let best: string | null = null;
  let most = 2;
  book.readings.forEach(({ reading, unit }, at) => {
    const value = unit === "yes/no" ? told(book, mine, at) : mine.scaled[at];
    if (value === null) return;
    const apart = others.map((other) => {
      const there = unit === "yes/no" ? told(book, other, at) : other.scaled[at];
      if (there === null) return 0;
      return unit === "yes/no" ? 3 * Math.abs(value - there) : Math.abs(value - there) / spread(mine, at);
    });
    const nearest = Math.min(...apart);
    if (others.length > 0 && nearest > most) {
      most = nearest;
      best = reading;
    }
  });
  return best;
}
