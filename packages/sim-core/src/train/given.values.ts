import { quoted } from "../errors.js";
import type { Bounds } from "../keys.js";

/** A value as messages repeat it. */
export function found(value: unknown): string {
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object" && value !== null) return "an object";
  return typeof value === "function" ? "a function" : String(value);
}

/** What is wrong with a number and its bounds; nothing where it can be used. */
export function wrongNumber(field: string, value: unknown, { min, above, max, below }: Bounds): string | undefined {
  if (typeof value !== "number" || !Number.isFinite(value)) return `${found(value)} is not a number`;
  const wanted =
    min !== undefined && value < min
      ? `at least ${min}`
      : above !== undefined && value <= above
        ? `more than ${above}`
        : max !== undefined && value > max
          ? `at most ${max}`
          : below !== undefined && value >= below
            ? `less than ${below}`
            : undefined;
  return wanted && `${value} is out of range; ${field} must be ${wanted}`;
}

const MOST_TEETH = 9999;

export function wrongTeeth(value: unknown): string | undefined {
  const isTeeth = (each: unknown) => Number.isInteger(each) && (each as number) > 0 && (each as number) <= MOST_TEETH;
  if (Array.isArray(value) && value.length === 2 && value.every(isTeeth)) return undefined;
  return "two whole numbers of teeth are wanted, driving and driven: [12, 36]";
}

/** Discharge times that a battery may be rated at, s: from a minute to two months. */
export const RATE_TIMES: Bounds = { min: 60, max: 5e6 };
const HOUR_s = 3600;

export function wrongCapacity(value: unknown, bounds: Bounds): string | undefined {
  const rates: unknown[] = Array.isArray(value) ? value : [value];
  if (rates.length === 0) return "the list is empty";
  const times = new Set<number>();
  for (const rate of rates) {
    if (typeof rate !== "object" || rate === null) return `${found(rate)} stands where ${RIGHT} is wanted`;
    const fields = Object.keys(rate).filter((field) => (rate as Record<string, unknown>)[field] !== undefined);
    const label = fields.includes("capacity_Ah");
    const [amount, time, unit] = label
      ? (["capacity_Ah", "time_h", HOUR_s] as const)
      : (["capacity_C", "time_s", 1] as const);
    const odd = fields.find((field) => field !== amount && field !== time);
    if (odd !== undefined || !fields.includes(amount)) return `${RIGHT} is wanted${odd ? `, without ${odd}` : ""}`;
    const { [amount]: charge, [time]: during } = rate as Record<string, unknown>;
    const wrong =
      wrongNumber(amount, charge, inUnits(bounds, unit)) ??
      (during === undefined ? undefined : wrongNumber(time, during, inUnits(RATE_TIMES, unit)));
    if (wrong !== undefined) return wrong;
    if (during === undefined) continue;
    if (times.has((during as number) * unit)) return `${time} ${during} is given twice`;
    times.add((during as number) * unit);
  }
  return undefined;
}

const RIGHT = "{ capacity_Ah: 75, time_h: 20 } or { capacity_C, time_s }";

const inUnits = ({ min, max }: Bounds, unit: number): Bounds => ({
  min: (min ?? 0) / unit,
  max: (max ?? Number.POSITIVE_INFINITY) / unit,
});

export function wrongVoltageTable(value: unknown): string | undefined {
  const isPair = (pair: unknown) => Array.isArray(pair) && pair.length === 2 && pair.every(Number.isFinite);
  if (!Array.isArray(value) || value.length < 2 || !value.every(isPair)) {
    return "two or more pairs of charge and volts are wanted: [[0, 11.9], [0.5, 12.2], [1, 12.7]]";
  }
  const pairs = value as [number, number][];
  if (pairs.some(([share, volts]) => share < 0 || share > 1 || volts <= 0)) {
    return "shares go from 0 to 1, and volts are more than 0";
  }
  const rising = pairs.every(([share], i) => i === 0 || share > pairs[i - 1][0]);
  return rising ? undefined : "the shares of the charge rise from pair to pair";
}
