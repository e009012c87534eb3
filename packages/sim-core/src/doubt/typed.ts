/** Doubt that was typed beside a figure, in the unit of the definition. */
export type TypedDoubt =
  /** `0.010 ± 0.002`: nineteen in twenty lie within, normal, cut at three standard deviations. */
  | { readonly spread: "normal"; readonly half: number }
  /** `8 to 12 N/kN`: anywhere between, alike. */
  | { readonly spread: "even"; readonly low: number; readonly high: number };

/** By the path of the key: `loco.resistance.rolling`, `plan.cars.2.mass`. */
export type TypedDoubts = Readonly<Record<string, TypedDoubt>>;

/** The ends that a safe answer counts with: of nineteen in twenty, or all of the range. */
export const endsOf = (value: number, doubt: TypedDoubt): readonly [low: number, high: number] =>
  doubt.spread === "even" ? [doubt.low, doubt.high] : [value - doubt.half, value + doubt.half];

/** The same doubt in another unit. */
export const doubtTimes = (doubt: TypedDoubt, by: number): TypedDoubt =>
  doubt.spread === "even"
    ? { spread: "even", low: by * doubt.low, high: by * doubt.high }
    : { spread: "normal", half: by * doubt.half };
