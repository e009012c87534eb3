import type { Basis } from "./basis.js";
import type { Compared } from "./cells.js";

/** A meter that would explain what differs, were it off. */
export interface MeterOff {
  name: Compared;
  /** What it reads, in times of what flows by the sums. */
  reads: number;
  /** False where the volts did not follow the amps that it reads, so that these did not flow; null where no volts tell. */
  flowed: false | null;
}

const CURRENTS = ["battery_current", "motor_current"] as const satisfies readonly Compared[];
/** Nearer to one it is as good as it should be: instruments are off by some per cent. */
const LEAST_OFF = 0.12;
/** Of what differs, in squares, so much goes with one factor everywhere. */
const LEAST_SHARE = 0.6;
/** Of the volts that so many amps more would have taken: below the first none did, above the second they did. */
const [NOT_FLOWED, FLOWED] = [0.3, 0.6] as const;
/** Volts that tell at all: that they followed and that they did not are so many standard deviations apart. */
const TOLD = 3;

/**
 * A meter or its shunt reads one factor too much or too little everywhere, and the battery's volts know nothing of it: they
 * fall by what truly flows. Null where no one factor explains it, or the volts fell as the amps would have it.
 */
export function meterOff(basis: Basis): MeterOff | null {
  for (const name of CURRENTS) {
    const cells = toldIn(basis, name);
    if (cells.length < 3) continue;
    const [logged, predicted] = [basis.logged[name], basis.predicted[name]];
    const sum = (of: (i: number) => number) => cells.reduce((all, i) => all + of(i), 0);
    const reads = sum((i) => logged[i] * predicted[i]) / sum((i) => predicted[i] ** 2);
    const before = sum((i) => (logged[i] - predicted[i]) ** 2);
    const after = sum((i) => (logged[i] - reads * predicted[i]) ** 2);
    if (!(reads > 0) || Math.abs(reads - 1) < LEAST_OFF || after > (1 - LEAST_SHARE) * before) continue;
    const followed = volts(basis, name);
    if (followed !== null && followed > FLOWED) continue;
    return { name, reads, flowed: followed !== null && followed < NOT_FLOWED ? false : null };
  }
  return null;
}

const toldIn = ({ logged, predicted }: Basis, name: Compared): number[] =>
  [...logged[name].keys()].filter((i) => !Number.isNaN(logged[name][i] - predicted[name][i]));

/**
 * How far the volts followed the current that was logged more or less, along the line and whatever a voltmeter's zero is: 1 as
 * the sums have volts fall with current, 0 not at all; null where that is less than they scatter by, or less than the doubt of the battery's resistance leaves open.
 */
function volts(basis: Basis, name: Compared): number | null {
  const cells = toldIn(basis, name).filter(
    (i) => !Number.isNaN(basis.logged.battery_voltage[i] - basis.predicted.battery_voltage[i]),
  );
  if (cells.length < 3) return null;
  const about = (of: (i: number) => number): number[] => {
    const mean = cells.reduce((all, i) => all + of(i), 0) / cells.length;
    return cells.map((i) => of(i) - mean);
  };
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((all, each, k) => all + each * b[k], 0);
  const { logged, predicted, moved } = basis;
  const amps = about((i) => predicted[name][i]);
  const slope_VpA =
    dot(
      amps,
      about((i) => predicted.battery_voltage[i]),
    ) / dot(amps, amps);
  // What the amps that were logged more would have done to the volts, and what was done to them.
  const expected = about((i) => slope_VpA * (logged[name][i] - predicted[name][i]));
  const seen = about((i) => logged.battery_voltage[i] - predicted.battery_voltage[i]);
  const followed = dot(expected, seen) / dot(expected, expected);
  const rest = seen.map((each, k) => each - followed * expected[k]);
  const sd = Math.sqrt(dot(rest, rest) / (cells.length - 2) / dot(expected, expected));
  // A battery of less resistance hides amps that flowed: what every figure moves the volts by, beside what its amps do.
  const doubts = moved.figures.map(
    ({ moves }) =>
      dot(
        expected,
        about((i) => (moves.battery_voltage[i] || 0) - slope_VpA * (moves[name][i] || 0)),
      ) / dot(expected, expected),
  );
  const doubt = Math.sqrt(doubts.reduce((all, each) => all + each * each, sd ** 2));
  return doubt < 1 / TOLD ? followed : null;
}
