import type { Band, Sureness } from "@rideon/sim-core";
import { COUNTED_ON, formatGradient, formatPercent } from "@rideon/sim-core";
import { ENDED_BY } from "./endings.js";
import { type Eyes, shortLength } from "./eyes.js";
import { capital } from "./lists.js";
import { BRIEFLY, measureRows, figureCalled as nameOf } from "./measure.js";
import type { Ready } from "./ready.js";
import { directed } from "./rounding.js";
import { section, table, wrap } from "./table.js";
import { terminal } from "./terminal.js";

/** A figure that has a band: what it is called, how a value is told, and the end that a safe plan counts with. */
interface Figure {
  what: string;
  told(value: number, eyes: Eyes): string;
  /** Where being wrong is dangerous: the end to count on, nineteen in twenty. */
  bad?: "high" | "low";
}

const whole = (value: number): string => (value < 0 ? "not even empty" : String(Math.round(value)));

/** A gradient below nothing is one that it needs the other way to start. */
const slope = (percent: number): string => (percent > 0 ? formatGradient(percent / 100) : "none");

const FIGURES: Record<string, Figure> = {
  energy_Wh: { what: "energy", told: (value) => `${value} Wh` },
  time_s: { what: "time", told: (value, eyes) => eyes.of(value, "time") },
  peak_motor_current_A: {
    what: "motor current at most",
    told: (value, eyes) => eyes.of(value, "current"),
    bad: "high",
  },
  lowest_battery_voltage_V: { what: "volts at least", told: (value, eyes) => eyes.of(value, "voltage"), bad: "low" },
  peak_winding_temperature_C: {
    what: "winding at most",
    told: (value, eyes) => eyes.of(value, "temperature"),
    bad: "high",
  },
  laps_to_reserve: { what: "laps to the reserve", told: whole, bad: "low" },
  charge_per_lap_Ah: { what: "charge for a lap", told: (value) => `${value} Ah` },
  passengers_it_can_restart: { what: "passengers it restarts with", told: whole, bad: "low" },
  restart_gradient_percent: { what: "steepest restart", told: slope, bad: "low" },
  stop_m: { what: "longest stop, braked", told: (value, eyes) => shortLength(value, eyes), bad: "high" },
  run_on_m: { what: "runs on with no brake", told: (value, eyes) => shortLength(value, eyes), bad: "high" },
  motor_continuous_power_W: { what: "motor, for as long as it runs", told: (value) => `${value} W`, bad: "high" },
  motor_peak_power_W: { what: "motor, starting away", told: (value) => `${value} W`, bad: "high" },
  starting_force_N: { what: "pull to start away", told: (value, eyes) => eyes.of(value, "force"), bad: "high" },
  rail_energy_per_lap_Wh: { what: "energy of a lap, at the rail", told: (value) => `${value} Wh` },
};

/** Two figures where the band is wide; more where it is narrow, and never more than it is worth. */
export function digitsFor({ p05, p95, p50 }: Band): number {
  const width = Math.abs(p95 - p05);
  const size = Math.max(Math.abs(p50), Math.abs(p05), Math.abs(p95));
  return width > 0 && size > 0 ? Math.min(6, Math.max(2, 1 + Math.ceil(Math.log10(size / width)))) : 3;
}

const rounded = (value: number, band: Band): number => Number(value.toPrecision(digitsFor(band)));

/** `29 to 60`. */
export function bandInWords(name: string, band: Band, eyes: Eyes): string {
  const told = (value: number) => FIGURES[name]?.told(rounded(value, band), eyes) ?? String(rounded(value, band));
  const [low, high] = [told(band.p05), told(band.p95)];
  return low === high ? low : `${low} to ${high}`;
}

/** Chances that are told of what holds: what it is that holds. */
const HOLDS: Record<string, string> = {
  charge_lasts: "the charge lasts for what the plan asks",
  restarts: "it starts again on the steepest bit as loaded",
  stops_within_sight: "it stops within sight from the hardest places",
};

/** `91 of 100`: never more sure than so many draws can tell. */
export function ofHundred(share: number, draws: number): string {
  const count = Math.round(100 * share);
  if (count === 0) return draws < 100 ? "hardly any of 100" : "none of 100";
  if (count === 100) return draws < 100 ? "nearly all of 100" : "all of 100";
  return `${count} of 100`;
}

/** Ways to end that are as they should be, or no ending at all. */
const QUIET = new Set(["completed", "no_trouble", "told", "comes_to_rest_unbraked"]);

export function chanceLines({ chances, draws, flipped_by }: Sureness): string[] {
  return Object.entries(chances).flatMap(([name, share]) => {
    if (QUIET.has(name)) return [];
    const holds = HOLDS[name];
    const flip = flipped_by[name];
    const by = flip === undefined ? "" : `; ${nameOf(flip)} decides that most`;
    if (holds) return [`${capital(holds)} in ${ofHundred(share, draws)}${by}.`];
    return [`It ${endingInWords(name)} in ${ofHundred(share, draws)}${by}.`];
  });
}

/** Endings that go by one name whatever was behind them. */
const ALSO: Record<string, string> = {
  runs_away_unbraked: "runs away with no brake on",
  rolls_back_unbraked: "comes to a stand and rolls back with no brake on",
  tripped: "trips its breaker or its battery's protection",
  flat: "runs flat",
};

const endingInWords = (name: string): string => ALSO[name] ?? ENDED_BY[name as keyof typeof ENDED_BY]?.it ?? name;

/** `laps to the reserve at least 29`: the end that a safe plan counts on. */
export function badEnd(name: string, band: Band, eyes: Eyes): string {
  const figure = FIGURES[name];
  const high = figure?.bad === "high";
  const value = directed(high ? band.p95 : band.p05, digitsFor(band), high ? "up" : "down");
  if (value < 0) return `${figure?.what ?? name}: ${figure?.told(value, eyes) ?? value}`;
  return `${figure?.what ?? name} ${high ? "no more than" : "at least"} ${figure?.told(value, eyes) ?? value}`;
}

/** The upper end of a stop's band, never rounded down, m. */
export const bandEnd_m = (band: Band): number => directed(band.p95, digitsFor(band), "up");

/** What a safe plan counts on: the bad end, nineteen in twenty. */
function badEnds({ bands, told_in }: Sureness, eyes: Eyes): string[] {
  const ends = Object.entries(bands).flatMap(([name, band]) => {
    // A figure that some draws do not have at all has no end to count on.
    return SAFETY.has(name) && (told_in[name] ?? 1) >= COUNTED_ON ? [badEnd(name, band, eyes)] : [];
  });
  return ends.length === 0 ? [] : [`To be counted on in nineteen of twenty: ${ends.join("; ")}.`];
}

const SAFETY = new Set(["stop_m", "run_on_m", "passengers_it_can_restart", "laps_to_reserve"]);

/** What, its middle, and what nine in ten lie within. */
export const bandRows = ({ bands, told_in, draws }: Sureness, eyes: Eyes): string[][] =>
  Object.entries(bands).map(([name, band]) => {
    const share = told_in[name] ?? 1;
    const some = share < 0.995 ? `, where there is one: in ${ofHundred(share, draws)}` : "";
    const middle = FIGURES[name]?.told(rounded(band.p50, band), eyes) ?? "";
    return [figureCalled(name), middle, `${bandInWords(name, band, eyes)}${some}`];
  });

export const figureCalled = (name: string): string => FIGURES[name]?.what ?? name;

/** How sure the answer is, and what to measure first: after every answer. */
export function surenessLines(sureness: Sureness, ready: Ready): readonly string[] {
  const { eyes } = ready;
  const screen = terminal();
  const inside = screen.columns - 2;
  const { draws } = sureness;
  const rows = bandRows(sureness, eyes);
  const said = [...chanceLines(sureness), ...badEnds(sureness, eyes)].join(" ");
  return [
    ...section("How sure this is", [
      ...(rows.length === 0
        ? []
        : table(rows, { width: inside, head: ["", "middle", "nine in ten lie within"], right: [1] })),
      ...(said === "" ? [] : wrap(said, inside)),
      ...wrap(
        `From ${draws} draws within the doubt of every figure, given or assumed${troubled(sureness)}; --sure leaves this out.`,
        inside,
      ),
    ]),
    ...measureSection(sureness, ready, { brief: true }),
    "",
  ];
}

/** Figures of a day that trouble ends are no figures of the day. */
const troubled = ({ chances: { completed, no_trouble } }: Sureness): string =>
  (completed ?? no_trouble ?? 1) < 0.995 ? ", the figures from those without trouble" : "";

/** What widens the answer most, in order; a line each, or at length. */
export function measureSection(sureness: Sureness, ready: Ready, { brief = false } = {}): readonly string[] {
  const [first] = Object.entries(sureness.bands);
  if (!first || sureness.measure_first.length === 0) return [];
  const [name, band] = first;
  const inside = terminal().columns - 2;
  const heading = `What to measure first: shares of the spread of ${figureCalled(name)}, now ${bandInWords(name, band, ready.eyes)}`;
  return section(
    heading,
    brief
      ? table(briefRows(sureness, ready), { width: inside, head: ["", "share", "then", "by"], right: [1] })
      : table(measuredRows(sureness, ready), { width: inside, right: [1] }),
  );
}

/** What, its share of the spread of the first figure, how it is measured and what the band is then. */
export const measuredRows = (sureness: Sureness, ready: Pick<Ready, "notes" | "eyes">): string[][] =>
  namedOnce(sureness, ready).map(({ what, share, how, then }) => [what, share, `${how}${then && `; then ${then}`}`]);

/** The same, a line each. */
const briefRows = (sureness: Sureness, ready: Pick<Ready, "notes" | "eyes">): string[][] =>
  namedOnce(sureness, ready).map(({ what, share, briefly, then }) => [what, share, then, briefly]);

/** What goes by one name is measured at one go. */
function namedOnce({ bands, measure_first }: Sureness, ready: Pick<Ready, "notes" | "eyes">) {
  const [name = "", band] = Object.entries(bands)[0] ?? [];
  const rows = measure_first.map((each) => {
    const [what = "", how = ""] = measureRows([each], ready)[0] ?? [];
    const then = band && each.band_then ? bandInWords(name, { ...band, ...each.band_then }, ready.eyes) : "";
    const share = formatPercent(Math.round(100 * each.share) / 100);
    return { what, share, how, briefly: BRIEFLY[each.how], then };
  });
  return rows.filter(({ what }, i) => rows.findIndex((each) => each.what === what) === i);
}
