import { InputError, type Problem } from "../errors.js";
import type { Bounds } from "../keys.js";
import { LONGEST_s } from "../loop/step.js";
import { found, wrongNumber } from "../train/given.values.js";

/** A finer step finds nothing more and takes for ever, s. */
const FINEST_s = 1e-4;
const FINEST_EVERY_s = 0.001;

const NUMBERS = {
  step_s: { min: FINEST_s, max: LONGEST_s },
  every_s: { min: FINEST_EVERY_s, max: 86400 },
  sight_m: { above: 0, max: 1e4 },
  chainage_m: { min: 0, max: 1e7 },
  share: { min: -1, max: 1 },
  charge: { min: 0, max: 1 },
  charger_current_A: { min: 1e-3, max: 1e4 },
  charger_voltage_V: { min: 0.5, max: 2000 },
  by_h: { above: 0, max: 336 },
  passengers: { min: 0, max: 1000 },
  seats: { min: 0, max: 1e4 },
  most: { min: 1, max: 1000 },
  draws: { min: 20, max: 1e6 },
  life_h: { min: 1, max: 1e6 },
  jerk_factor: { min: 1, max: 20 },
  motor_speed_rpm: { min: 100, max: 1e5 },
  motor_efficiency: { min: 0.05, max: 1 },
  rotor_inertia_kgm2pW: { min: 0, max: 1 },
} as const satisfies Record<string, Bounds>;

/**
 * Looks at what a question is asked with; whatever is absent is as the question has it.
 * @throws InputError with every number that is none or out of its bounds, named
 */
export function mustBeAsked(asked: { readonly [N in keyof typeof NUMBERS]?: unknown }): void {
  const problems: Problem[] = [];
  for (const [name, value] of Object.entries(asked)) {
    if (value === undefined || !(name in NUMBERS)) continue;
    const wrong = wrongNumber(name, value, NUMBERS[name as keyof typeof NUMBERS]);
    if (wrong !== undefined) problems.push({ path: `options.${name}`, message: wrong });
  }
  if (problems.length > 0) throw new InputError(problems);
}

/** @throws InputError where a list is none, or has something else in it than is wanted */
export function mustBeList(path: string, list: unknown, may: (each: unknown) => boolean, wanted: string): void {
  if (list === undefined || (Array.isArray(list) && list.every(may))) return;
  const odd: unknown = Array.isArray(list) ? list.find((each) => !may(each)) : list;
  throw new InputError([{ path: `options.${path}`, message: `${found(odd)} stands where ${wanted} are wanted` }]);
}
