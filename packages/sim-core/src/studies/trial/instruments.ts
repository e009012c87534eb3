/** An instrument that a club has, and how far it may be off: standard deviations. */
export interface Instrument {
  readonly name: string;
  /** One and the same in all that is read with it: its calibration, as a share of the reading. */
  readonly gain: number;
  /** Another each time: a share of the reading, and a part besides. */
  readonly share: number;
  readonly besides: number;
  /** Is it compared as it reads, and not by ratio? */
  readonly plain: boolean;
}

const made = (name: string, gain: number, share: number, besides: number, plain = false): Instrument => ({
  ...{ name, gain, share, besides, plain },
});

/** Common practice, no source: meters of the cheaper kind, a fisherman's balance, a tape, a wrist watch. */
export const INSTRUMENT = {
  voltmeter: made("voltmeter", 0.004, 0.001, 0.02, true),
  // Read on the move, from a battery that has not settled to its load.
  voltsUnderWay: made("voltmeter", 0.004, 0.001, 0.06, true),
  millivolts: made("voltmeter on its lowest range", 0.004, 0.005, 0.003),
  ammeter: made("clamp ammeter for direct current", 0.02, 0.01, 0.4),
  balance: made("spring balance", 0.02, 0.03, 2),
  // What is left of a pull after friction: a difference, and so not compared by ratio.
  holding: made("spring balance", 0.02, 0.03, 2, true),
  level: made("straight edge, level and rule", 0, 0.02, 6, true),
  timed: made("tape and watch", 0, 0.03, 0.02),
  turns: made("turns counted against a watch", 0, 0.02, 1),
  counted: made("ten turns by hand", 0, 0.01, 0.05),
  watch: made("watch", 0, 0.03, 0.25),
  tape: made("tape", 0, 0.03, 0.2),
  thermometer: made("thermometer", 0, 0, 3, true),
  rule: made("steel rule", 0, 0.005, 0.5),
  slack: made("steel rule", 0, 0.2, 1),
};

/** A person sees one thing and writes another: as often as this (common practice, no source). */
export const MISREAD = 0.001;

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
