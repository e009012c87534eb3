import type { Notes } from "../errors.js";
import { type TrackColumns, UNFIT } from "../parts/track.columns.js";
import { found } from "./given.values.js";
import type { Own } from "./own.js";

/** A table that is wrong all along is told at its first rows. */
const MOST_TOLD = 20;

const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

/** Lists, and arrays of numbers however they are kept. */
const isList = (value: unknown): value is ArrayLike<unknown> => Array.isArray(value) || value instanceof Float64Array;

/** No line that this is for is longer: the way to a stop is worked out a hand's breadth at a time, m. */
const FURTHEST_m = 1e6;

/** What a column of the profile may hold, and what is said of anything else. */
const COLUMNS: readonly [name: keyof TrackColumns, may: (value: unknown) => boolean, wanted: string][] = [
  ["distance_m", (value) => isNumber(value) && Math.abs(value) <= FURTHEST_m, "a number of at most 1000 km"],
  ["height_m", isNumber, "a number"],
  ["sine", isNumber, "a number"],
  ["sineDoubt", (value) => isNumber(value) && value >= 0 && value <= 1, "a share from 0 to 1"],
  [
    "levelling",
    (value) => ["", ...UNFIT].some((each) => each === value),
    `one of ${UNFIT.join(", ")}, or an empty text`,
  ],
  ["curvature_radpm", isNumber, "a number"],
  ["limit_mps", (value) => typeof value === "number" && value > 0, "a speed above 0, or Infinity"],
  ["place", (value) => typeof value === "string", "text"],
];

/** Looks at the columns of a profile: as many values in each, each of its kind, and posts that lead on. */
export function lookAtColumns(notes: Notes, columns: unknown): void {
  const refuse = (path: string, message: string) => notes.problems.push({ path, message });
  if (typeof columns !== "object" || columns === null || Array.isArray(columns)) {
    refuse("track", `${found(columns)} stands where columns are wanted: ${COLUMNS.map(([name]) => name).join(", ")}`);
    return;
  }
  const given = columns as Partial<Record<keyof TrackColumns, unknown>>;
  for (const name of Object.keys(given)) {
    if (!COLUMNS.some(([known]) => known === name)) refuse(`track.${name}`, "there is no such column");
  }
  const { distance_m } = given;
  if (distance_m === undefined || !isList(distance_m)) return void refuse("track.distance_m", "a list is wanted");
  if (distance_m.length < 2) refuse("track.distance_m", "two posts or more are wanted");
  if ((given.height_m === undefined) === (given.sine === undefined)) {
    refuse("track", "heights or gradients are wanted: one of height_m and sine");
  }
  for (const [name, may, wanted] of COLUMNS) {
    const column = given[name];
    if (column === undefined) continue;
    if (!isList(column)) refuse(`track.${name}`, `${found(column)} stands where a list is wanted`);
    else if (column.length !== distance_m.length) {
      refuse(`track.${name}`, `has ${column.length} values, and there are ${distance_m.length} posts`);
    } else lookAtColumn(notes, name, column, may, wanted);
  }
}

function lookAtColumn(
  notes: Notes,
  name: keyof TrackColumns,
  column: ArrayLike<unknown>,
  may: (value: unknown) => boolean,
  wanted: string,
): void {
  let told = 0;
  for (let i = 0; i < column.length && told < MOST_TOLD; i++) {
    const wrong = may(column[i])
      ? name === "distance_m" && i > 0 && Number(column[i]) <= Number(column[i - 1])
        ? `${column[i]} is no further on than the post before`
        : undefined
      : `${found(column[i])} stands where ${wanted} is wanted`;
    if (wrong === undefined) continue;
    notes.problems.push({ path: `track.${i + 1}.${name}`, message: wrong });
    told++;
  }
}

/** Of each table of the motor, how many numbers a row has. */
const TABLES = { curve: 3, saturation: 2 } as const;

/** No train that this is for runs faster: a law of resistance is looked at up to here, m/s. */
const FASTEST_mps = 40;

/** Looks at what stands in no file. */
export function lookAtOwn(notes: Notes, own: Own): void {
  const refuse = (path: string, message: string) => notes.problems.push({ path, message });
  for (const [name, width] of Object.entries(TABLES) as [keyof typeof TABLES, number][]) {
    const rows: unknown = own[name];
    if (rows === undefined) continue;
    const isRow = (row: unknown) => isList(row) && row.length === width && Array.from(row).every(isNumber);
    if (!isList(rows)) refuse(`loco.motor.${name}`, `${found(rows)} stands where rows are wanted`);
    else {
      const wrong = Array.from(rows, (row, i) => (isRow(row) ? 0 : i + 1)).filter((i) => i > 0);
      for (const i of wrong.slice(0, MOST_TOLD))
        refuse(`loco.motor.${name}.${i}`, `a row of ${width} numbers is wanted`);
    }
  }
  if (own.motor !== undefined) lookAtMotor(own.motor, refuse);
  if (own.resistance_N !== undefined) lookAtLaw(own.resistance_N, refuse);
}

type Refuse = (path: string, message: string) => void;

function lookAtMotor(given: NonNullable<Own["motor"]>, refuse: Refuse): void {
  const at = "own.motor";
  const { resistance_ohm, flux, drag_Nm, dragPerSpeed_Nms, rated } = given;
  if (!(isNumber(resistance_ohm) && resistance_ohm > 0))
    refuse(`${at}.resistance_ohm`, `${found(resistance_ohm)} is not a number above 0`);
  for (const [name, value] of Object.entries({ drag_Nm, dragPerSpeed_Nms })) {
    if (!(isNumber(value) && value >= 0)) refuse(`${at}.${name}`, `${found(value)} is not a number from 0 up`);
  }
  for (const name of ["voltage_V", "current_A", "speed_radps", "power_W"] as const) {
    const value: unknown = rated?.[name];
    if (!(isNumber(value) && value > 0)) refuse(`${at}.rated.${name}`, `${found(value)} is not a number above 0`);
  }
  const isKnot = (knot: unknown) =>
    Array.isArray(knot) && knot.length === 2 && knot.every((each) => isNumber(each) && each >= 0);
  if (!Array.isArray(flux) || flux.length === 0 || !flux.every(isKnot)) {
    refuse(`${at}.flux`, "pairs of current and flux are wanted, both from 0 up: [[0, 0.07], [50, 0.08]]");
  } else if (flux.some(([current_A], i) => i > 0 && current_A <= flux[i - 1][0]) || flux.at(-1)![1] <= 0) {
    refuse(`${at}.flux`, "currents rise from pair to pair, and the last flux is above 0");
  }
}

function lookAtLaw(law: NonNullable<Own["resistance_N"]>, refuse: Refuse): void {
  const at = "own.resistance_N";
  if (typeof law !== "function") return void refuse(at, `${found(law)} stands where a function is wanted`);
  const train = { mass_kg: 300, length_m: 5, vehicles: 3 };
  for (let speed_mps = 0; speed_mps <= FASTEST_mps; speed_mps += 0.5) {
    const force_N: unknown = law(speed_mps, train);
    if (isNumber(force_N) && force_N >= 0) continue;
    return void refuse(at, `at ${speed_mps} m/s it gives ${found(force_N)}, and a number from 0 up is wanted`);
  }
}
