import type { Widths } from "../../numeric/normal.js";

/** What people have in their box, and what a reading wants of it. */
export const TOOLS = ["voltmeter", "clamp", "balance", "tape", "watch", "rule", "level", "thermometer"] as const;
export type Tool = (typeof TOOLS)[number];

/** An instrument that a club has, and how far it may be off: standard deviations. */
export interface Instrument {
  readonly name: string;
  /** What it takes to read it. */
  readonly tools: readonly Tool[];
  /** One and the same in all that is read with it: its calibration, as a share of the reading. */
  readonly gain: number;
  /** Another each time: a share of the reading, and a part besides. */
  readonly share: number;
  readonly besides: number;
  /** Is it compared as it reads, and not by ratio? */
  readonly plain: boolean;
}

const made =
  (...tools: Tool[]) =>
  (name: string, gain: number, share: number, besides: number, plain = false): Instrument => ({
    ...{ name, tools, gain, share, besides, plain },
  });
const volts = made("voltmeter");
const balance = made("balance");

/** Common practice, no source: meters of the cheaper kind, a fisherman's balance, a tape, a wrist watch. */
export const INSTRUMENT = {
  voltmeter: volts("voltmeter", 0.004, 0.001, 0.02, true),
  // Read on the move, from a battery that has not settled to its load.
  voltsUnderWay: volts("voltmeter", 0.004, 0.001, 0.06, true),
  millivolts: volts("voltmeter on its lowest range", 0.004, 0.005, 0.003),
  ammeter: made("clamp")("clamp ammeter for direct current", 0.02, 0.01, 0.4),
  balance: balance("spring balance", 0.02, 0.03, 2),
  // What is left of a pull after friction: a difference, and so not compared by ratio.
  holding: balance("spring balance", 0.02, 0.03, 2, true),
  level: made("level", "rule")("straight edge, level and rule", 0, 0.02, 6, true),
  // What a chopper with nothing on it shows hangs on the meter: it is told from none, and from volts under load.
  pulses: volts("voltmeter", 0.004, 0.02, 0.1, true),
  timed: made("tape", "watch")("tape and watch", 0, 0.03, 0.02),
  turns: made("watch")("turns counted against a watch", 0, 0.02, 1),
  counted: made()("ten turns by hand", 0, 0.01, 0.05),
  watch: made("watch")("watch", 0, 0.03, 0.25),
  tape: made("tape")("tape", 0, 0.03, 0.2),
  thermometer: made("thermometer")("thermometer", 0, 0, 3, true),
  rule: made("rule")("steel rule", 0, 0.005, 0.5),
  slack: made("rule")("steel rule", 0, 0.2, 1),
};

/** A person sees one thing and writes another: as often as this (common practice, no source). */
export const MISREAD = 0.001;
/** How often no is written where yes is true, and yes where no is. */
export interface Misread {
  readonly wrongNo: number;
  readonly wrongYes: number;
}
export const SEEN: Misread = { wrongNo: MISREAD, wrongYes: MISREAD };
/** One who looks in a hurry overlooks what is there, and seldom sees what is not (no source). */
export const LOOKED: Misread = { wrongNo: 0.005, wrongYes: 0.05 };

/** The widths of doubts and errors are guesses themselves: right as often as not, and seldom worse than half (no source). */
export const WIDTHS: Widths = [
  [1, 0.55],
  [1.5, 0.35],
  [2, 0.1],
];

/** Standard deviations either side that leave out one sound loco in twenty, with those widths. */
export const BAND = 2.65;

/**
 * What is in doubt by a share is as likely to be half as double: such readings are compared on a scale that is even below
 * this many times the instrument's own least error, and logarithmic above.
 */
const EVEN = 4;

const even = ({ besides }: Instrument): number => EVEN * besides;

/** A reading on the scale it is compared on; volts and degrees as they are. */
export const onScale = (instrument: Instrument | undefined, value: number): number =>
  instrument && !instrument.plain ? Math.asinh(value / even(instrument)) : value;

/** And back. */
export const offScale = (instrument: Instrument | undefined, scaled: number): number =>
  instrument && !instrument.plain ? even(instrument) * Math.sinh(scaled) : scaled;

/** The error that is another each time, on that scale. */
export function errorOnScale(instrument: Instrument | undefined, value: number): number {
  if (!instrument) return 0;
  const error = Math.hypot(instrument.share * value, instrument.besides);
  return instrument.plain ? error : error / Math.hypot(value, even(instrument));
}

/** What one standard deviation of its calibration comes to, on that scale. */
export function gainOnScale({ gain, plain, ...instrument }: Instrument, value: number): number {
  return plain ? gain * value : (gain * value) / Math.hypot(value, EVEN * instrument.besides);
}
