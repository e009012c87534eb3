import { InputError, type Problem } from "../../errors.js";

/** What a log tells besides the time, and the unit it is in. */
export const LOGGED = {
  distance: "m",
  speed: "m/s",
  motor_current: "A",
  battery_current: "A",
  battery_voltage: "V",
  temperature: "°C",
  duty: "",
} as const;
export type Logged = keyof typeof LOGGED;

/**
 * A log of a run, a value for each reading and NaN where there was none. Time grows; it may begin anywhere. Distance is
 * that of an odometer, from anywhere. The temperature is that of the motor's case, duty a share of one.
 */
export type LogColumns = {
  readonly time_s: ArrayLike<number>;
  /** Readings at which a lap begins: the button was pressed there. */
  readonly laps?: readonly number[];
} & { readonly [Q in Logged]?: ArrayLike<number> };

/** Nothing on a club line runs faster, m/s. */
const FASTEST_mps = 15;
/** What no log of such a loco holds: wrong columns and wrong units, from and to. */
const MAY_BE: { readonly [Q in Logged]?: readonly [least: number, most: number] } = {
  speed: [-FASTEST_mps, FASTEST_mps],
  motor_current: [-2000, 2000],
  battery_current: [-2000, 2000],
  battery_voltage: [0, 500],
  temperature: [-40, 300],
  duty: [-1.001, 1.001],
};
const ODD: { readonly [Q in Logged]?: string } = {
  speed: "is none that a train on such a line runs at",
  battery_voltage: "is none that such a battery has",
  temperature: "is none that a motor's case has",
  duty: "is no share of one",
};
/** A duty of so much and more was written in per cent: what is read in per cent hardly goes so far beyond all of it. */
const PER_CENT = 2;
/** A day of a hundred readings a second. */
const MOST_READINGS = 10_000_000;
const LONGEST_s = 86_400;
const MOST_TOLD = 20;

/**
 * Looks at a log before anything is made of it.
 * @throws InputError with the readings that will not do: `log.17`
 */
export function mustBeLog(log: LogColumns): void {
  const problems: Problem[] = [];
  const say = (i: number, message: string) => {
    if (problems.length < MOST_TOLD) problems.push({ path: `log.${i + 1}`, message });
  };
  const { time_s } = log;
  const n = time_s.length;
  if (n < 3) say(Math.max(0, n - 1), "three readings or more are wanted");
  if (n > MOST_READINGS) say(0, `${n} readings are more than ${MOST_READINGS}`);
  for (let i = 1; i < n; i++)
    if (!(time_s[i] > time_s[i - 1]))
      say(
        i,
        `the time, ${time_s[i]} s, is no later than the one before, ${time_s[i - 1]} s; readings stand in order of time`,
      );
  if (n > 1 && time_s[n - 1] - time_s[0] > LONGEST_s) say(n - 1, "the log is longer than a day; ask for less of it");
  for (const [name, range] of Object.entries(MAY_BE) as [Logged, readonly [number, number]][]) {
    const column = log[name];
    if (!column) continue;
    for (let i = 0; i < n; i++)
      if (column[i] < range[0] || column[i] > range[1])
        say(
          i,
          `${shortly(column[i])}${LOGGED[name] === "" ? "" : ` ${LOGGED[name]}`} ${ODD[name] ?? "is out of reason"}; ${name === "duty" && Math.abs(column[i]) >= PER_CENT ? "per cent stand under the heading duty_percent" : "is the unit that of the heading?"}`,
        );
  }
  if (!log.distance && !log.speed && (log.laps?.length ?? 0) < 2)
    say(0, "nothing tells where the train was: a column of distance or of speed is wanted, or the laps");
  if (problems.length > 0) throw new InputError(problems);
}

const shortly = (value: number): string => String(Number(value.toPrecision(4)));
