import type { Default } from "./defaults.js";

/**
 * The grammar of the input tables. One table of keys per part feeds the reader, the JSON Schema, the help, the files
 * that `new` writes and the README's list, and the TypeScript types below are worked out from the same table, so that
 * none of them can drift. A definition mirrors the file: the file's key, then the unit of its dimension.
 */

/** Every dimension a file may carry, and the SI unit (as a name's suffix) it is converted to at the door. */
export const UNIT_OF = {
  mass: "kg",
  length: "m",
  area: "m2",
  cable_area: "mm2",
  speed: "mps",
  shaft_speed: "radps",
  acceleration: "mps2",
  time: "s",
  voltage: "V",
  current: "A",
  power: "W",
  resistance: "ohm",
  charge: "C",
  force: "N",
  torque: "Nm",
  torque_constant: "NmpA",
  viscous_drag: "Nms",
  inertia: "kgm2",
  heat_capacity: "JpK",
  thermal_resistance: "KpW",
  temperature: "degC",
  rate: "ps",
  per_speed: "spm",
} as const;

export type Dimension = keyof typeof UNIT_OF;

/** The same units as people write them. */
export const UNIT_IN_WORDS: Readonly<Record<Dimension, string>> = {
  mass: "kg",
  length: "m",
  area: "m²",
  cable_area: "mm²",
  speed: "m/s",
  shaft_speed: "rad/s",
  acceleration: "m/s²",
  time: "s",
  voltage: "V",
  current: "A",
  power: "W",
  resistance: "ohm",
  charge: "C",
  force: "N",
  torque: "N m",
  torque_constant: "N m/A",
  viscous_drag: "N m s",
  inertia: "kg m²",
  heat_capacity: "J/K",
  thermal_resistance: "K/W",
  temperature: "°C",
  rate: "1/s",
  per_speed: "s/m",
};

/** Bounds on a value in SI units; `above` and `below` exclude the bound itself. */
export interface Bounds {
  min?: number;
  max?: number;
  above?: number;
  below?: number;
}

/**
 * What is met with on club and garden lines, both ends included, in SI units: common practice, no source. A value outside
 * is read, and warned of. Where 0 is far from the rest but means that there is none, it is told apart.
 */
export type Usual = readonly [least: number, most: number, orNone?: "or 0"];

interface Ranges extends Bounds {
  usual?: Usual;
}

interface Common {
  /** What the key means, in the words of the trade. */
  meaning: string;
  /** What is taken where the key is left out, with its source. Absent: no default. */
  default?: Default;
  /** Must be given. */
  required?: true;
  /** One right value, for error messages and help. */
  example?: string;
}

export type QuantityKey<D extends Dimension = Dimension> = Common & Ranges & { kind: "quantity"; dimension: D };
/** A pure number: bare, `80 %`, `1 in 110` or `9 N/kN`. */
export type NumberKey = Common & Ranges & { kind: "number" };
export type CountKey = Common & Ranges & { kind: "count" };
export type TextKey = Common & { kind: "text" };
export type FileKey = Common & { kind: "file" };
export type YesNoKey = Common & { kind: "yes_no" };
export type ChoiceKey<C extends string = string> = Common & {
  kind: "choice";
  choices: readonly C[];
};
/** `[12, 36]`: teeth of the driving and the driven sprocket. */
export type TeethKey = Common & { kind: "teeth"; usual?: Usual };
/** One quantity, or a map from discharge time to capacity: `{ 20 h: 75 Ah, 5 h: 64 Ah }`. */
export type CapacityKey = Common & Bounds & { kind: "capacity"; usual?: Usual };
/** Pairs of share and volts: `[[0, 11.9 V], [50 %, 12.2 V], [1, 12.7 V]]`. */
export type VoltageTableKey = Common & { kind: "voltage_table"; usual?: Usual };
export type MapKey<K extends Keys = Keys> = Common & { kind: "map"; keys: K; oneOf?: readonly OneOf[] };
export type ListKey<K extends Keys = Keys> = Common & { kind: "list"; keys: K; oneOf?: readonly OneOf[] };

/** Of these keys exactly one (`required`) or at most one may stand in the map. */
export interface OneOf {
  of: readonly string[];
  required?: true;
}

export type Key =
  | QuantityKey
  | NumberKey
  | CountKey
  | TextKey
  | FileKey
  | YesNoKey
  | ChoiceKey
  | TeethKey
  | CapacityKey
  | VoltageTableKey
  | MapKey
  | ListKey;

export type Keys = { readonly [name: string]: Key };

/** A capacity and the discharge time it is stated for, which is absent where there is one figure without a rate. */
export interface CapacityRate {
  time_s?: number;
  capacity_C: number;
}

/** The same as labels have it. */
export interface LabelRate {
  time_h?: number;
  capacity_Ah: number;
}

type Rate = CapacityRate | LabelRate;

/** One capacity, or several at their discharge times. */
export type Capacity = Rate | readonly Rate[];

const HOUR_s = 3600;

/** The rates of a capacity, in SI. */
export const ratesOf = (capacity: Capacity): CapacityRate[] =>
  (isList(capacity) ? capacity : [capacity]).map((rate) => {
    if ("capacity_C" in rate) return rate;
    const { time_h, capacity_Ah } = rate;
    return { ...(time_h === undefined ? {} : { time_s: time_h * HOUR_s }), capacity_C: capacity_Ah * HOUR_s };
  });

const isList = (capacity: Capacity): capacity is readonly Rate[] => Array.isArray(capacity);

type ValueOf<K> = K extends { kind: "quantity" | "number" | "count" }
  ? number
  : K extends { kind: "text" | "file" }
    ? string
    : K extends { kind: "yes_no" }
      ? boolean
      : K extends { kind: "choice"; choices: readonly (infer C)[] }
        ? C
        : K extends { kind: "teeth" }
          ? readonly [driving: number, driven: number]
          : K extends { kind: "capacity" }
            ? Capacity
            : K extends { kind: "voltage_table" }
              ? readonly (readonly [share: number, volts: number])[]
              : K extends { kind: "map"; keys: infer M }
                ? Definition<M>
                : K extends { kind: "list"; keys: infer M }
                  ? readonly Definition<M>[]
                  : never;

type FieldName<N, K> = N extends string
  ? K extends { kind: "quantity"; dimension: infer D }
    ? D extends Dimension
      ? `${N}_${(typeof UNIT_OF)[D]}`
      : never
    : N
  : never;

/** Must a definition have it? Files that a file must name hold what else is handed over as it is. */
type MustHave<K> = K extends { required: true } ? (K extends { kind: "file" } ? false : true) : false;

/** The TypeScript shape of what a table of keys reads: the file's names, each quantity wearing its SI unit. */
export type Definition<M> = Simplify<
  { [N in keyof M as MustHave<M[N]> extends true ? FieldName<N, M[N]> : never]: ValueOf<M[N]> } & {
    [N in keyof M as MustHave<M[N]> extends true ? never : FieldName<N, M[N]>]?: ValueOf<M[N]>;
  }
>;

type Simplify<T> = { [P in keyof T]: T[P] };

/** The name a key's value has in a definition: `mass` of a mass becomes `mass_kg`. */
export const fieldName = (name: string, key: Key): string =>
  key.kind === "quantity" ? `${name}_${UNIT_OF[key.dimension]}` : name;
