import { type BrakesRow, formatGradient, formatPercent, RAIL, figures as round } from "@rideon/sim-core";
import { figures, paragraph, picture, table } from "../../html/html.js";
import { placeBefore } from "../../words/eyes.js";
import { SET_NAMES, stoppingFigure } from "../brakes/stopping.svg.js";
import { effortFigure } from "../climb/effort.svg.js";
import { loadFigure } from "../climb/load.svg.js";
import { chargeFigure } from "../laps/charge.svg.js";
import { energyRows } from "../run/energy.js";
import { energyFigure } from "../run/energy.svg.js";
import { lapFigure } from "../run/lap.svg.js";
import { acrossRails, metres, nearestRow, placesNamed, type Told } from "./told.js";

/** Stopping distances round the line on the plan's own rail; the worst of every set on every rail. */
export function stoppingHtml(told: Told): string {
  const { brakes, eyes, picture: lap } = told;
  const rail = brakes.rails[0]?.rail ?? "";
  const rows = brakes.rows.filter((row) => row.rail === rail);
  if (rows.length === 0) return paragraph("The train does not get under way, so there is nothing to stop.");
  const head = ["Worst place", "rail", "from", "stops in", "seconds", "hardest", "wheels"];
  const worst = acrossRails(brakes.worst).map((row) => [
    `${SET_NAMES[row.brakes]}: ${eyes.place(row.chainage_m)}`,
    row.rails,
    eyes.speed(row.speed_mps),
    row.stops ? metres(row.distance_m) : `never; reaches ${eyes.speed(row.top_speed_mps)}`,
    row.time_s === null ? "–" : round(row.time_s),
    `${round(row.peak_deceleration_mps2)} m/s²`,
    row.wheels_locked ? "lock or slide" : "roll",
  ]);
  return [
    picture((sheet) => stoppingFigure(told, lap, rows, brakes.sight_m, sheet)),
    table(
      `The longest stop with each set of brakes, from the moment the driver should act (${round(brakes.reaction_time_s)} s to react)`,
      head,
      worst,
    ),
    brakeWanted(told),
    parking(told),
    byPlace(told, rows),
  ].join("\n");
}

function brakeWanted({ brakes: { brake_wanted: wanted, sight_m }, eyes }: Told): string {
  if (!wanted) return "";
  const enough = wanted.grip.map(
    ({ braked, rail, enough: does }) =>
      `${braked === "loco" ? "the loco's wheels alone" : "all wheels of the train"} on ${rail} rail ${does ? "can" : "cannot"}`,
  );
  return paragraph(
    `No service brake is described. To stop within ${eyes.length(sight_m)} from the worst place it wants ${eyes.of(wanted.rail_force_N, "force")} at the rail: ${eyes.of(wanted.hand_force_N, "force")} on a lever with a ratio of ${round(wanted.linkage_ratio)}, ${formatPercent(wanted.linkage_efficiency)} of it coming through, blocks with a friction of ${round(wanted.block_friction)} (common practice, no source). Passing that on, ${enough.join("; ")}.`,
  );
}

function parking(told: Told): string {
  const { brakes } = told;
  const rows = brakes.parking.map(({ brakes: set, holding_gradient_percent, places_it_will_not_hold: places }) => [
    SET_NAMES[set],
    holding_gradient_percent > 0 ? formatGradient(holding_gradient_percent / 100) : "nothing",
    staysAt(
      places.map(({ chainage_m }) => chainage_m),
      told,
    ),
  ]);
  return table(
    "Left standing: what each set holds, with no credit for stiff bearings",
    ["Brakes on", "holds on", "stays"],
    rows,
  );
}

function staysAt(not_m: readonly number[], { eyes, plan }: Told): string {
  if (not_m.length === 0) return "everywhere here";
  const names = new Set(not_m.map((at_m) => placeBefore(plan.track, at_m).replace(/^past /, "") || eyes.place(at_m)));
  return `not near ${[...names].join(", ")}`;
}

function byPlace(told: Told, rows: readonly BrakesRow[]): string {
  const sets = [...new Set(rows.map(({ brakes }) => brakes))];
  const places = placesNamed(told).map(({ chainage_m, name }) => [
    name,
    ...sets.map((set) =>
      metres(
        nearestRow(
          rows.filter(({ brakes }) => brakes === set),
          chainage_m,
        )?.distance_m ?? null,
      ),
    ),
  ]);
  return figures("Stopping distances by place", ["From", ...sets.map((set) => SET_NAMES[set])], places);
}

export function lapHtml(told: Told): string {
  const { picture: lap, run, eyes } = told;
  if (lap.run_m.length < 2 || (lap.run_m.at(-1) ?? 0) < 1)
    return paragraph(`It does not move: ${run.events.at(-1)?.detail ?? run.outcome}.`);
  const at = (chainage_m: number) =>
    lap.chainage_m.reduce(
      (best, each, i) => (Math.abs(each - chainage_m) < Math.abs((lap.chainage_m[best] ?? 0) - chainage_m) ? i : best),
      1,
    );
  const rows = placesNamed(told).map(({ chainage_m, name }) => {
    const i = at(chainage_m);
    return [
      name,
      eyes.speed(lap.speed_mps[i]!),
      `${round(lap.motor_current_A[i]!)} A`,
      `${round(lap.battery_current_A[i]!)} A`,
      `${round(lap.battery_voltage_V[i]!)} V`,
      eyes.of(lap.winding_temperature_C[i]!, "temperature"),
    ];
  });
  return (
    picture((sheet) => lapFigure(told, lap, run, sheet)) +
    figures("The lap at its places", ["Place", "speed", "motor", "battery", "volts", "winding"], rows)
  );
}

export function pullHtml(told: Told): string {
  const { effort, low, plan, eyes } = told;
  const wet_N = Math.min(1, RAIL.wet / plan.train.adhesion.static) * effort.grip_N;
  const every = effort.rows.filter((_, i) => i % 15 === 0);
  const rows = every.map((row) => [
    eyes.speed(row.speed_mps),
    eyes.of(row.pull_cold_N, "force"),
    eyes.of(row.pull_hot_N, "force"),
    eyes.of(row.level_N, "force"),
    eyes.of(row.ruling_N, "force"),
  ]);
  return (
    picture((sheet) => effortFigure(told, effort, { low: low ?? undefined, wet_N }, sheet)) +
    figures(
      "Pull against speed",
      ["Speed", "pull, motor cold", "motor hot", "the level takes", "the steepest here takes"],
      rows,
    )
  );
}

export function loadHtml(told: Told): string {
  const { load, other, eyes, plan } = told;
  const slope = (percent: number) => (percent <= 0 ? "none" : formatGradient(percent / 100));
  const rows = load.rows.map((row) => {
    const beside = other.rows.find(({ passengers }) => passengers === row.passengers);
    return [
      `${row.passengers}${row.passengers === plan.passengers ? " (this plan)" : ""}`,
      eyes.of(row.train_mass_kg, "mass"),
      slope(row.restart_gradient_percent),
      row.restarts_here ? "yes" : "NO",
      beside ? slope(beside.restart_gradient_percent) : "–",
      beside ? (beside.restarts_here ? "yes" : "NO") : "–",
    ];
  });
  const head = ["Aboard", "train", `restarts on, ${load.rail}`, "here", `restarts on, ${other.rail}`, "here"];
  return (
    picture((sheet) => loadFigure(told, load, other, sheet)) +
    table(
      "Load table: the steepest straight gradient it starts again on, and whether it does at the worst place here",
      head,
      rows,
    )
  );
}

/** Rows enough to choose from. */
const MOST_GEARS = 6;

export function gearsHtml({ gears, eyes }: Told): string {
  if (!gears || gears.rows.length === 0) return "";
  const rows = gears.rows
    .slice(0, MOST_GEARS)
    .map((row) => [
      row.teeth.map(([a, b]) => `${a}:${b}`).join(" × "),
      round(row.ratio),
      eyes.speed(row.speed_mps),
      row.restart_gradient_percent <= 0 ? "none" : formatGradient(row.restart_gradient_percent / 100),
      `${round(row.rms_motor_current_A)} A`,
      eyes.of(row.peak_winding_temperature_C, "temperature"),
      row.faults.length === 0 ? "none found" : row.faults.map(({ message }) => message).join("; "),
    ]);
  return table(
    "Sprockets that would do, best first",
    ["Teeth", "ratio", "speed", "restarts on", "motor, rms", "winding", "faults"],
    rows,
  );
}

export function energyHtml({ run }: Told): string {
  const laps = Math.max(1, run.laps);
  return (
    picture((sheet) => energyFigure(run.energy_balance, laps, sheet)) +
    figures("Where the charge goes", ["Part", "energy", "share"], energyRows(run.energy_balance))
  );
}

export function dayHtml(told: Told): string {
  const { laps, eyes } = told;
  if (laps.per_lap.length === 0) return paragraph("Not one lap is done.");
  const step = Math.max(1, Math.ceil(laps.per_lap.length / 10));
  const rows = laps.per_lap
    .filter(({ lap }) => lap === 1 || lap % step === 0 || lap === laps.per_lap.length)
    .map((row) => [
      String(row.lap),
      eyes.of(row.time_s, "time"),
      formatPercent(row.state_of_charge),
      `${round(row.lowest_battery_voltage_V)} V`,
      eyes.of(row.peak_winding_temperature_C, "temperature"),
    ]);
  return (
    picture((sheet) => chargeFigure(told, laps, sheet)) +
    figures("Laps of the day", ["Lap", "time", "charge left", "volts at least", "winding at most"], rows)
  );
}
