import { newNotes } from "../errors.js";
import { type CHEMISTRY, HOUR_s } from "./battery.data.js";
import { type Battery, createBattery, emfLoaded_V, labelShare, startingWells_C } from "./battery.js";
import { wellsAfter_C } from "./battery.wells.js";

/** What the running of a day draws at the battery's terminals. */
export interface Draw {
  readonly time_s: number;
  readonly mean_W: number;
  /** Mean square of the current over the square of its mean: in peaks a battery loses more in its own resistance. */
  readonly unevenness: number;
  /** The most that lasts long enough for a cut-out to act. */
  readonly peak_W: number;
}

/** What asks for the ampere-hours: the reserve; how fast they are drawn; or the cut-out, which must not act on a peak. */
export type DecidedBy = "reserve" | "rate" | "cut_out";

export interface BatteryFor {
  /** By the label at 25 °C, of lead-acid at the 20-hour rate; Infinity where none keeps its volts above the cut-out. */
  readonly label_C: number;
  readonly decidedBy: DecidedBy;
}

/**
 * The smallest full battery that has its usual reserve of the label's charge left after a day, and even then volts enough
 * for a peak. It is emptied by its own equations, E I = P + u R I² and the wells in closed form.
 * @param cutoutCell_V volts a cell below which the controller shuts off, after a cable of `cable_ohm`
 */
export function batteryFor(
  chemistry: keyof typeof CHEMISTRY,
  voltage_V: number,
  draw: Draw,
  cutoutCell_V: number,
  cable_ohm: number,
  air_degC: number,
): BatteryFor {
  // Wells grow with the label and the resistance falls with it: a battery of 1 Ah stands for all.
  const each = { voltage_V, capacity: [{ capacity_C: HOUR_s }] };
  const one = createBattery({ chemistry, each }, air_degC, newNotes());
  const smallestWith = (enough: (left: Left, ohm: number) => boolean) =>
    smallest((ah) => {
      const left = emptied(one, ah, draw);
      return left !== undefined && enough(left, one.resistance_ohm / ah);
    });
  const holding = (power_W: number) =>
    smallestWith(
      ({ emf_V }, ohm) => emf_V - (ohm + cable_ohm) * current_A(emf_V, ohm, power_W) >= cutoutCell_V * one.cells,
    );
  const reserve_Ah = smallestWith(({ share }) => share >= one.reserve);
  const rate_Ah = holding(draw.mean_W);
  const cutout_Ah = holding(Math.max(draw.mean_W, draw.peak_W));
  const most_Ah = Math.max(reserve_Ah, rate_Ah, cutout_Ah);
  const decidedBy = most_Ah === reserve_Ah ? "reserve" : most_Ah === rate_Ah ? "rate" : "cut_out";
  return { label_C: most_Ah * HOUR_s, decidedBy };
}

/** What a day leaves: the share of the label's charge, and the e.m.f. that the available well still has. */
interface Left {
  readonly share: number;
  readonly emf_V: number;
}

const PARTS = 120;

/** A full battery `times` as large as `one` after a day's draw; undefined where it does not last the day. */
function emptied(one: Battery, times: number, draw: Draw): Left | undefined {
  const part_s = draw.time_s / PARTS;
  const full_C = one.availableShare * one.wells_C;
  const emf_V = () => emfLoaded_V(one, labelShare(one, available_C / full_C));
  let [available_C, bound_C] = startingWells_C(one, 1);
  let drawn_C = 0;
  for (let i = 0; i < PARTS; i++) {
    const drawn_A = current_A(emf_V(), (draw.unevenness * one.resistance_ohm) / times, draw.mean_W) / times;
    [available_C, bound_C] = wellsAfter_C(one, available_C, bound_C, drawn_A, part_s);
    drawn_C += drawn_A * part_s;
    // Nothing left, or less than it takes.
    if (!(available_C > 0)) return undefined;
  }
  return { share: 1 - drawn_C / one.label_C, emf_V: emf_V() };
}

/** The current at which an e.m.f. behind a resistance gives a power, the smaller of two; NaN where it cannot. */
const current_A = (emf_V: number, ohm: number, power_W: number): number =>
  (2 * power_W) / (emf_V + Math.sqrt(emf_V * emf_V - 4 * ohm * power_W));

/** The least above 0 from which on something holds, by doubling and halving; Infinity where it never does. */
function smallest(holds: (ah: number) => boolean): number {
  let low = 0;
  let high = 1;
  while (!holds(high)) {
    low = high;
    high *= 2;
    if (high > MOST_Ah) return Number.POSITIVE_INFINITY;
  }
  while (high - low > 1e-6 * high) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** More than all the batteries there are. */
const MOST_Ah = 1e15;
