import { assume, type Notes, shown } from "../errors.js";
import { ratesOf } from "../keys.js";
import { type Chemistry, HOUR_s } from "./battery.data.js";
import { fitPeukert, fitWells, type HourRate, ratesFromPeukert } from "./battery.fit.js";
import { batteryKeys } from "./battery.keys.js";
import { capacityOver_C, type Wells } from "./battery.wells.js";
import type { LocoDefinition } from "./files.keys.js";

type Each = LocoDefinition["battery"]["each"];

/** One battery's wells and label at 25 °C, and the Peukert's law that goes through the label. */
export interface Capacity extends Wells {
  readonly label_C: number;
  readonly label_s: number;
  readonly peukert: number;
}

/** The rate that lead-acid labels are given at. */
const LABEL_s = 20 * HOUR_s;

/** Fits that miss a capacity by more are told, of Peukert's law later than of rates that were typed; and refused. */
const MISS_TOLD = 0.02;
const LAW_MISS_TOLD = 0.05;
const MISS_REFUSED = 0.1;

/** Wells hold at most so many times their label: no fit comes to more. */
const MOST_SPAN = 2;

const counted = (label_C: number, label_s = LABEL_s): Capacity => ({
  wells_C: label_C,
  availableShare: 1,
  exponentRate_ps: 0,
  label_C,
  label_s,
  peukert: 1,
});

/**
 * The wells of one battery: given, or fitted to its hour rates. From one rate with Peukert's exponent, or from two rates
 * and the exponent through them, the rates of 20, 10, 5 and 1 h are made by Peukert's law and fitted; three rates and
 * more are fitted as they stand. Lithium iron phosphate gives the same charge at any rate and is only counted.
 */
export function capacityOf(each: Each, chemistry: Chemistry, notes: Notes): Capacity {
  if (each.kinetic) return fromKinetic(each, notes);
  const at = "loco.battery.each.capacity";
  const refuse = (message: string, path = at): Capacity => {
    notes.problems.push({ path, message });
    return counted(HOUR_s);
  };
  const rates = each.capacity ? ratesOf(each.capacity) : [];
  if (rates.length === 0) return refuse("give capacity or kinetic", "loco.battery.each");
  if (rates.length === 1) return fromOne(rates[0], each.peukert, chemistry, notes);
  if (chemistry === "lifepo4") return refuse("lifepo4 gives the same charge at any rate: give one capacity");
  if (each.peukert !== undefined) {
    return refuse("hour rates already say what Peukert's exponent says: leave one out", "loco.battery.each.peukert");
  }
  const sorted: HourRate[] = rates
    .map(({ time_s = Number.NaN, capacity_C }) => ({ time_s, capacity_C }))
    .sort((a, b) => a.time_s - b.time_s);
  if (sorted.some((r) => !(r.time_s > 0))) return refuse("each of several capacities needs its discharge time");
  for (let i = 1; i < sorted.length; i++) {
    const [fast, slow] = [sorted[i - 1], sorted[i]];
    const named = `${shown(slow.time_s / HOUR_s, "h")} and ${shown(fast.time_s / HOUR_s, "h")}`;
    if (slow.time_s === fast.time_s) return refuse(`${named}: the same time twice`);
    if (slow.capacity_C < fast.capacity_C) return refuse(`${named}: a slower discharge cannot give less charge`);
    const same = slow.capacity_C / slow.time_s >= fast.capacity_C / fast.time_s;
    if (same) return refuse(`${named}: the faster discharge would be at the smaller current`);
  }
  const label = sorted.reduce((best, r) => (fromLabel(r) < fromLabel(best) ? r : best));
  const peukert = fitPeukert(sorted, label.time_s).exponent;
  if (peukert > 2) return refuse(`they make a Peukert exponent of ${shown(peukert)}; real batteries stay below 2`);
  return fitted(sorted.length > 2 ? sorted : undefined, label, peukert, notes);
}

/** How far a rate is from the usual one, in octaves. */
const fromLabel = (r: HourRate): number => Math.abs(Math.log2(r.time_s / LABEL_s));

function fromOne(
  rate: { time_s?: number; capacity_C: number },
  given: number | undefined,
  chemistry: Chemistry,
  notes: Notes,
): Capacity {
  const key = "loco.battery.each.peukert";
  const label_s = rate.time_s ?? LABEL_s;
  if (chemistry === "lifepo4" && given !== undefined && given !== 1) {
    notes.problems.push({ path: key, message: "lifepo4 gives the same charge at any rate: leave it out" });
  }
  if (chemistry === "lifepo4" || (chemistry === "other" && given === undefined))
    return counted(rate.capacity_C, label_s);
  if (rate.time_s === undefined) {
    const source = "usual labelling of lead-acid batteries: common practice, no source";
    notes.assumed.push({ key: "loco.battery.each.capacity", value: "at the 20 h rate", source });
  }
  const peukert = assume(notes, key, given, batteryKeys.each.keys.peukert.default.value);
  return fitted(undefined, { time_s: label_s, capacity_C: rate.capacity_C }, peukert, notes);
}

function fitted(rates: readonly HourRate[] | undefined, label: HourRate, peukert: number, notes: Notes): Capacity {
  // At the same charge whatever the rate there is no second well to fit.
  if (peukert - 1 < 1e-9) return counted(label.capacity_C, label.time_s);
  const points = rates ?? ratesFromPeukert(label.capacity_C, label.time_s, peukert);
  const { wells, misses, worstMiss } = fitWells(points);
  const path = "loco.battery.each.capacity";
  const given = points.map(({ time_s, capacity_C }, i) => {
    const got = `${shown((capacity_C * (1 + misses[i])) / HOUR_s)} of ${shown(capacity_C / HOUR_s, "Ah")}`;
    return `${got} at ${shown(time_s / HOUR_s, "h")} (${misses[i] < 0 ? "" : "+"}${(100 * misses[i]).toFixed(1)} %)`;
  });
  if (worstMiss > MISS_REFUSED) {
    const message = `no available and bound charge give these hour rates; the nearest would give ${given.join(", ")}: check them`;
    notes.problems.push({ path, message });
    return counted(label.capacity_C, label.time_s);
  }
  if (worstMiss > (rates ? MISS_TOLD : LAW_MISS_TOLD)) {
    const message = `the battery model does not give these hour rates exactly: ${given.join(", ")}`;
    notes.warnings.push({ code: "battery_fit", path, message });
  }
  return { ...wells, label_C: label.capacity_C, label_s: label.time_s, peukert };
}

/** Wells as given; what a label would say of them is their 20-hour capacity. */
function fromKinetic(each: Each, notes: Notes): Capacity {
  const { capacity_C, available_share, exponent_rate_ps } = each.kinetic!;
  const at = "loco.battery.each";
  if (each.capacity) notes.problems.push({ path: `${at}.kinetic`, message: "give capacity or kinetic, not both" });
  if (each.peukert !== undefined) {
    notes.problems.push({ path: `${at}.peukert`, message: "the two wells already say it: leave it out" });
  }
  if (available_share === 1) return counted(capacity_C);
  const wells = { wells_C: capacity_C, availableShare: available_share, exponentRate_ps: exponent_rate_ps };
  const rates = [20, 10, 5, 1].map((hours) => {
    const time_s = hours * HOUR_s;
    return { time_s, capacity_C: capacityOver_C(wells, time_s) };
  });
  const label_C = rates[0].capacity_C;
  if (capacity_C > MOST_SPAN * label_C) {
    const message = `in 20 h these wells give only ${shown(label_C / HOUR_s, "Ah")} of the ${shown(capacity_C / HOUR_s, "Ah")} they hold: charge is counted by what they give, and no usual battery keeps so much back`;
    notes.warnings.push({ code: "battery_fit", path: `${at}.kinetic`, message });
  }
  return { ...wells, label_C, label_s: LABEL_s, peukert: fitPeukert(rates, LABEL_s).exponent };
}
