import { assume, InputError, type Notes, shown } from "../errors.js";
import { areaTo, lookUp, type Table, table } from "../numeric/tables.js";
import { capacityOf } from "./battery.capacity.js";
import { CHEMISTRY, type Chemistry, END_OF_CELL_V, HOUR_s, KNEE_FILL } from "./battery.data.js";
import { cellsOf, inTheCold, resistanceOf, restedOf } from "./battery.each.js";
import { batteryKeys as usually } from "./battery.keys.js";
import { capacityOver_C, type Wells } from "./battery.wells.js";
import type { LocoDefinition } from "./files.keys.js";

export { flow_A } from "./battery.wells.js";

type Definition = LocoDefinition["battery"];

/** The whole battery as it stands: all in series and in parallel, in this air, with its age. */
export interface Battery extends Wells {
  /** The label's capacity, that state of charge is a share of. */
  readonly label_C: number;
  /** Discharge time the label is given at, and the exponent of Peukert's law through it (1: no dependence on rate). */
  readonly label_s: number;
  readonly peukert: number;
  /** What both wells hold when full, over the label's charge: what the label leaves out stays behind the end volts. */
  readonly span: number;
  /** Rested volts against the share of the label's charge. */
  readonly rested: Table;
  /** Under load, from this share down, volts fall straight to `kneeFoot_V` where the wells end; -Infinity: no knee. */
  readonly kneeShare: number;
  readonly kneeFoot_V: number;
  /** In this air; and at 25 °C, which a short circuit is worked out with. */
  readonly resistance_ohm: number;
  readonly warm_ohm: number;
  /** 0 where there is none; the time is then 1 s. */
  readonly polarisation_ohm: number;
  readonly polarisation_s: number;
  /** Current it takes when charged up to its limit of volts, for each coulomb that it lacks, 1/s; Infinity: any. */
  readonly acceptance_ps: number;
  readonly nominal_V: number;
  /** As printed on the label, at 25 °C and new, all strings together. */
  readonly printed_C: number;
  /** In series in all; NaN where neither given nor known from the chemistry. */
  readonly cells: number;
  /** Share of the charge to keep. */
  readonly reserve: number;
  readonly chemistry: Chemistry;
}

export function createBattery(definition: Definition, air_degC: number, notes: Notes): Battery {
  const { each } = definition;
  const at = "loco.battery";
  const chemistry = definition.chemistry ?? "other";
  const series = assume(notes, `${at}.in_series`, definition.in_series, usually.in_series.default);
  const parallel = assume(notes, `${at}.in_parallel`, definition.in_parallel, usually.in_parallel.default);
  const health = assume(notes, `${at}.health`, definition.health, usually.health.default);
  const cells = cellsOf(each, chemistry, notes);
  const capacity = capacityOf(each, chemistry, notes);
  const one_ohm = resistanceOf(each, chemistry, cells, capacity.label_C, notes);
  const cold = inTheCold(chemistry, air_degC, notes);
  const left = parallel * health * cold.capacity;
  const rested = table(
    restedOf(each, chemistry, cells, notes).map(([share, volts]) => [share, volts * series] as const),
  );
  const knee = chemistry === "lead-acid";
  const span = capacity.wells_C / capacity.label_C;
  // Labels are measured warm: the end volts tell of the resistance there.
  const twentyHour_A = capacityOver_C(capacity, 20 * HOUR_s) / (20 * HOUR_s);
  const kneeFoot_V = knee ? series * (END_OF_CELL_V * cells + one_ohm * twentyHour_A) : rested.y[0];
  return {
    wells_C: capacity.wells_C * left,
    availableShare: capacity.availableShare,
    exponentRate_ps: capacity.exponentRate_ps,
    label_C: capacity.label_C * left,
    label_s: capacity.label_s,
    peukert: capacity.peukert,
    span,
    rested,
    kneeShare: knee ? labelShare({ span }, KNEE_FILL) : Number.NEGATIVE_INFINITY,
    kneeFoot_V: Math.min(kneeFoot_V, rested.y[0]),
    resistance_ohm: (one_ohm * cold.resistance * series) / parallel,
    warm_ohm: (one_ohm * series) / parallel,
    polarisation_ohm: ((each.polarisation?.resistance_ohm ?? 0) * series) / parallel,
    polarisation_s: each.polarisation?.time_s ?? 1,
    acceptance_ps: chemistry === "other" ? Number.POSITIVE_INFINITY : CHEMISTRY[chemistry].acceptance_ph / HOUR_s,
    nominal_V: each.voltage_V * series,
    printed_C: capacity.label_C * parallel,
    cells: cells * series,
    reserve: assume(
      notes,
      `${at}.use_down_to`,
      definition.use_down_to,
      usually.use_down_to.default.value[knownOr(chemistry)],
    ),
    chemistry,
  };
}

/** For a chemistry that is not known the reserve of lead-acid is taken: the larger one. */
const knownOr = (chemistry: Chemistry) => (chemistry === "other" ? "lead-acid" : chemistry);

/**
 * How full a well is, on the label's scale that charge is shown on: the share at which both, level, would be as full. 1 is
 * full on either scale; with the label used up it is 0 on this one and a little is left, down to 1 - span.
 */
export const labelShare = ({ span }: Pick<Battery, "span">, fill: number): number => 1 - span * (1 - fill);

/** e.m.f. under load at a share on the label's scale; the knee goes on below 0, and a little past the wells' end. */
export function emfLoaded_V(b: Battery, share: number): number {
  if (share >= b.kneeShare) return lookUp(b.rested, share);
  const top_V = lookUp(b.rested, b.kneeShare);
  const end = labelShare(b, 0);
  return b.kneeFoot_V + ((top_V - b.kneeFoot_V) * (share - end)) / (b.kneeShare - end);
}

/** Most current that it takes at its limit of volts, with the available well at a share on the label's scale. */
export const accepted_A = (b: Battery, share: number): number =>
  b.acceptance_ps === Number.POSITIVE_INFINITY
    ? Number.POSITIVE_INFINITY
    : b.acceptance_ps * Math.max(0, 1 - share) * b.label_C;

/** Volts at the terminals; `polarised_A` is the current the polarisation has settled to. */
export const terminal_V = (b: Battery, emf_V: number, polarised_A: number, current_A: number): number =>
  emf_V - b.polarisation_ohm * polarised_A - b.resistance_ohm * current_A;

/** How fast the polarisation follows the current. */
export const polarisationRate_Aps = (b: Battery, polarised_A: number, current_A: number): number =>
  (current_A - polarised_A) / b.polarisation_s;

/**
 * The wells at the start, levelled after rest, at a charge counted from full by the label.
 * @throws InputError if the wells hold less than the label says is drawn
 */
export function startingWells_C(b: Battery, charge: number): [available_C: number, bound_C: number] {
  const total_C = b.wells_C - (1 - charge) * b.label_C;
  if (total_C <= 0) {
    const message = `at ${shown(100 * charge)} % nothing is left in a battery of ${shown(b.wells_C / HOUR_s, "Ah")} with a label of ${shown(b.label_C / HOUR_s, "Ah")}`;
    throw new InputError([{ path: "plan.charge", message }]);
  }
  const available_C = b.availableShare * total_C;
  return [available_C, total_C - available_C];
}

/** Chemical energy above empty: each well's charge through the rested volts, read on the label's scale. */
export function energy_J(b: Battery, available_C: number, bound_C: number): number {
  const inAvailable_C = b.availableShare * b.wells_C;
  const inBound_C = b.wells_C - inAvailable_C;
  const empty = areaTo(b.rested, labelShare(b, 0));
  const ofWell_J = (full_C: number, left_C: number) =>
    full_C > 0 ? (full_C / b.span) * (areaTo(b.rested, labelShare(b, left_C / full_C)) - empty) : 0;
  return ofWell_J(inAvailable_C, available_C) + ofWell_J(inBound_C, bound_C);
}
