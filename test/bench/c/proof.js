// Proves that the port in C and the core did the same day: every state on the way, every lap, every event.

const TOLERANCE = 1e-9;
const KINDS = ["starts", "lap", "completed"];

/** How far apart two numbers are: as a share of the larger, below 1 as they stand. */
const apart = (a, b) => Math.abs(a - b) / Math.max(1, Math.abs(a), Math.abs(b));

/** The furthest that two lists are apart, NaN counted as infinitely far. */
export function furthest(theirs, own, what) {
  if (theirs.length !== own.length)
    throw new Error(`${what}: C tells ${theirs.length} numbers, JavaScript ${own.length}`);
  let most = 0;
  for (let i = 0; i < own.length; i++) {
    const by = apart(theirs[i], own[i]);
    if (!(by <= most)) most = Number.isNaN(by) ? Number.POSITIVE_INFINITY : by;
  }
  return most;
}

function mustAgree(theirs, own, what) {
  const by = furthest(theirs, own, what);
  if (!(by <= TOLERANCE)) throw new Error(`${what}: C is ${by.toExponential(1)} off JavaScript`);
  return by;
}

/**
 * Laps as the port tells them, then events, as the core has them in its answer.
 * @throws Error where anything differs by more than a thousand-millionth
 */
export function proven({ steps, states, rest }, own, answer) {
  mustAgree([steps], [own.steps], "steps");
  const { per_lap, events } = answer;
  const laps = per_lap.flatMap((row) => [
    row.time_s,
    row.energy_Wh * 3600,
    row.charge_Ah * 3600,
    row.state_of_charge,
    row.lowest_battery_voltage_V,
    row.peak_winding_temperature_C,
  ]);
  const happened = events.flatMap(({ kind, lap, time_s, chainage_m }) => [
    KINDS.indexOf(kind),
    lap,
    time_s,
    chainage_m,
  ]);
  mustAgree(rest, [...laps, ...happened], "laps and events");
  const worst = mustAgree(states, own.states, "states");
  const equal = own.states.reduce((count, x, i) => count + (Object.is(x, states[i]) ? 1 : 0), 0);
  return { worst, equal };
}

/** @throws Error where what a part came to differs */
export const mustBeAlike = (theirs, own, part) => mustAgree([theirs], [own], part);
