import { type ClimbAnswer, emfLoaded_V, figures, formatGradient, formatPercent, steeperThan } from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { placeBefore } from "../../words/eyes.js";
import { metres } from "../brakes/rows.js";
import type { Told } from "./told.js";

/** A line of the card: what, and how much. */
type Line = readonly [what: string, value: string];

/** More than the level takes by so much means something drags: common practice, no source. */
const DRAGS = 1.25;

/** One A6 side to cut out and fix to the loco: what its driver must know, and what a voltmeter says of the charge. */
export function cardHtml(told: Told): string {
  const rows = linesOf(told).map(
    ([what, value]) => `<tr><th scope="row">${safe(what)}</th><td>${safe(value)}</td></tr>`,
  );
  const { plan, files } = told;
  return `<div class="card"><h3>${safe(files.loco.name)}</h3><p class="where">${safe(plan.name)} · driver's card</p><div class="columns"><table><caption class="unseen">What the driver must know</caption><tbody>${rows.join("")}</tbody></table>${volts(told)}</div><p class="caution">A simulation with assumed figures: prove it with nobody aboard first. The club's rules decide.</p></div>`;
}

function linesOf(told: Told): Line[] {
  const { climb: load, plan, eyes, brakes, level, bank } = told;
  const other = load.other_rail;
  const most = ({ passengers_it_can_restart: count }: ClimbAnswer) => (count === null ? "none" : String(count));
  const best = brakes.worst
    .filter(
      ({ rail, brakes: set }) =>
        rail === brakes.rails.at(-1)?.rail && (set === "loco" || set === "all" || set === "none"),
    )
    .at(-1);
  const amps = (steady: typeof level) =>
    steady
      ? `${figures(Math.round(steady.battery_current_A))} A from the battery, ${figures(Math.round(steady.motor_current_A))} A in the motor`
      : "it does not get away";
  return [
    ["Most aboard", `${most(load)} on ${load.rail} rail, ${most(other)} on ${other.rail}`],
    ["Line speed", Number.isNaN(plan.speed_mps) ? `lever at ${figures(plan.lever)}` : eyes.speed(plan.speed_mps)],
    ...shutOff(told),
    ["Will not restart", notRestarting(told)],
    ["Will not stay parked", notParked(told)],
    [
      "Longest stop",
      best
        ? `${metres(best.distance_m)} from ${eyes.place(best.chainage_m)}, ${best.rail} rail${best.brakes === "none" ? ", NO BRAKE" : ""}`
        : "does not run",
    ],
    [
      "Amps, level",
      `${amps(level)}${level ? `; more than ${Math.ceil(DRAGS * level.battery_current_A)} A from the battery here: something drags` : ""}`,
    ],
    ...(load.ruling_gradient_compensated_percent > 0.01
      ? [[`Amps, ${formatGradient(load.ruling_gradient_compensated_percent / 100)}`, amps(bank)] as const]
      : []),
  ];
}

/** Where the driver shut off in the simulated lap for each of its stops. */
function shutOff({ run, eyes, plan }: Told): Line[] {
  if (plan.stops.length === 0) return [["Shut off", "no stops are planned"]];
  const marks = run.events.filter(({ kind, lap }) => kind === "shuts_off" && lap === 1);
  return marks.length === 0
    ? [["Shut off", "he never came to a stop in the lap"]]
    : marks.map(({ chainage_m }) => ["Shut off", `at ${eyes.place(chainage_m)}`] as const);
}

/** Where its front stands on what this load does not start on, as the whole train feels it; on either rail. */
function notRestarting({ climb, plan, eyes }: Told): string {
  const name = (at_m: number) => placeBefore(plan.track, at_m) || eyes.place(at_m);
  const told = [climb, climb.other_rail].map(({ rail, rows, ruling_gradient_at_m: worst_m }) => {
    // More aboard than the table goes to start on no more than its last row.
    const row = rows.find(({ passengers }) => passengers === plan.passengers) ?? rows.at(-1);
    const steep = steeperThan(plan, (row?.restart_gradient_percent ?? 0) / 100).map(({ direction, from_m, to_m }) => {
      const ends = [...new Set([name(from_m), name(to_m)])].join(" to ");
      return direction === "back" ? `${ends}, coming back` : ends;
    });
    if (steep.length > 0) return `${rail}: with its front ${steep.join(", and ")}`;
    // So little to spare that, run from there, it did not get away.
    return `${rail}: ${row && !row.restarts_here ? `at the steepest bit, ${name(worst_m)}` : "starts again everywhere"}`;
  });
  return told.join("; ");
}

function notParked({ brakes: { parking }, eyes, plan }: Told): string {
  const best = parking.at(-1);
  if (!best || best.places_it_will_not_hold.length === 0) return "stays everywhere";
  const named = best.places_it_will_not_hold.map(
    ({ chainage_m }) => placeBefore(plan.track, chainage_m) || eyes.place(chainage_m),
  );
  const places = [...new Set(named)];
  return `${best.brakes === "none" ? "no parking brake: chocks at " : "chocks at "}${places.slice(0, 6).join(", ")}${places.length > 6 ? " …" : ""}`;
}

/** Volts to laps left: rested, and running on the level. A voltmeter is the only gauge most locos have. */
function volts({ laps, plan: { train, charge }, level }: Told): string {
  const { battery } = train;
  if (laps.per_lap.length === 0) return "";
  const done = [{ lap: 0, state_of_charge: charge }, ...laps.per_lap];
  const rows = [0, 0.25, 0.5, 0.75, 0.9].map((share) => {
    const lap = Math.round(share * laps.laps_to_end);
    const left = done.find((row) => row.lap === lap)?.state_of_charge ?? 0;
    const rested_V = restedVolts(battery.rested, left);
    const running = level ? (emfLoaded_V(battery, left) - level.battery_current_A * train.source_ohm).toFixed(1) : "–";
    return `<tr><td>${rested_V.toFixed(1)} V</td><td>${running}${level ? " V" : ""}</td><td>${laps.laps_to_end - lap}${lap > laps.laps_to_reserve ? " *" : ""}</td></tr>`;
  });
  return `<table class="volts"><caption>Volts to laps left (* in the reserve of ${formatPercent(battery.reserve)})</caption><thead><tr><th scope="col">rested</th><th scope="col">on the level</th><th scope="col">laps left</th></tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

function restedVolts({ x, y }: { x: ArrayLike<number>; y: ArrayLike<number> }, share: number): number {
  let i = 0;
  while (i + 2 < x.length && (x[i + 1] ?? 0) < share) i++;
  const [from, to] = [x[i] ?? 0, x[i + 1] ?? 1];
  return (y[i] ?? 0) + (((y[i + 1] ?? 0) - (y[i] ?? 0)) * (share - from)) / (to - from);
}
