import { emfLoaded_V, formatPercent, type LimitsAnswer, stopToCountOn } from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { dayInWords } from "../../words/day.js";
import { placeBefore, shortLength, shortSpeed } from "../../words/eyes.js";
import { isCounted, logInWords } from "../../words/logged.js";
import { several } from "../../words/setting.js";
import { judgement } from "../limits/judgement.js";
import { slowly, WHO } from "../limits/tables.js";
import { stopTold } from "./stopping.js";
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
  return `<div class="card"><h3>${safe(files.loco.name)}</h3><p class="where">${safe(plan.name)} · driver's card</p><div class="columns"><table><caption class="unseen">What the driver must know</caption><tbody>${rows.join("")}</tbody></table>${volts(told)}</div><p class="caution">By a simulation with assumed figures: prove it with nobody aboard. The club's rules decide.</p></div>`;
}

/** Of `limits`, but for amps and where to shut off. */
function linesOf(told: Told): Line[] {
  const { limits, eyes, level, plan } = told;
  const log = logInWords(limits.logged);
  const most: Line[] = [["Most aboard", mostAboard(told)], ...(log ? [["Log", log.short] as const] : [])];
  if (!toDriveBy(limits)) return [...most, ...BLANKED.map((what): Line => [what, "NOT TO BE COUNTED ON"])];
  return [
    ...most,
    ["Speed", speeds(told)],
    ["Longest stop", longestStop(told)],
    ...shutOff(told),
    ["Starts again", startsAgain(limits)],
    ["Left standing", chocks(limits, eyes)],
    ["A charge", dayInWords(limits, plan, eyes).short],
    [
      "Amps, level",
      level
        ? `${Math.round(level.battery_current_A)} from the battery; over ${Math.ceil(DRAGS * level.battery_current_A)} something drags`
        : "it does not get away",
    ],
  ];
}

/** Figures of sums that are of another train, or of a line that nobody has surveyed well, are none to drive by. */
const toDriveBy = ({ logged, aboard }: LimitsAnswer): boolean =>
  isCounted(logged) && !aboard.some(({ limit }) => limit === "survey");

const BLANKED = ["Speed", "Longest stop", "Starts again", "Left standing", "A charge", "Amps, level"];

function mostAboard({ limits, eyes }: Told): string {
  const { said } = judgement(limits, eyes);
  return limits.may_carry ? several(limits.most_aboard, "passenger") : `NO PASSENGERS: ${said.replace(/^[^:]*: /, "")}`;
}

/** `4 mph; 3 mph from Heron Bank to Coppice`: the greatest, and every stretch that is slower. */
function speeds({ limits, eyes, plan }: Told): string {
  const most_mps = Math.max(...limits.speeds.map(({ speed_mps }) => speed_mps));
  if (!Number.isFinite(most_mps)) return "does not run";
  if (limits.speeds.every(({ by }) => by === "no_brake")) return "NONE: it has no brake to stop it";
  if (most_mps === 0) return "NONE: it stops in time from no speed anywhere";
  const slow = limits.speeds.filter(({ speed_mps }) => speed_mps < most_mps);
  const runs: { speed_mps: number; from_m: number; to_m: number; back: boolean }[] = [];
  for (const { speed_mps, from_m, to_m, direction } of slow) {
    const last = runs.at(-1);
    const back = direction === "back";
    if (last && last.to_m === from_m && last.back === back && slowly(last.speed_mps, eyes) === slowly(speed_mps, eyes))
      last.to_m = to_m;
    else runs.push({ speed_mps, from_m, to_m, back });
  }
  const top = most_mps === plan.speed_mps ? shortSpeed(most_mps, eyes) : slowly(most_mps, eyes);
  if (runs.length > MOST_RANGES) {
    const moving = limits.speeds.filter(({ speed_mps }) => speed_mps > 0);
    const least = slowly(Math.min(...moving.map(({ speed_mps }) => speed_mps)), eyes);
    return `${least} unless the page has more${moving.length < limits.speeds.length ? "; IN PLACES NOT AT ALL, see the page" : ""}`;
  }
  const name = (at_m: number) => named(at_m, { plan, eyes });
  return [
    top,
    ...runs.map(
      ({ speed_mps, from_m, to_m, back }) =>
        `${speed_mps === 0 ? "NOT AT ALL" : slowly(speed_mps, eyes)} ${name(from_m)} to ${name(to_m)}${back ? ", coming back" : ""}`,
    ),
  ].join("; ");
}

/** A name, or the place in figures. */
const named = (at_m: number, { plan, eyes }: Pick<Told, "plan" | "eyes">): string =>
  placeBefore(plan.track, at_m).replace(/^past /, "") || eyes.place(at_m);

/** More stretches than this no card holds. */
const MOST_RANGES = 4;

/** By the judgement, or by its band where that is worse; what it does not count is said. */
function longestStop({ limits, eyes, sureness }: Told): string {
  const stop = stopToCountOn(limits, sureness);
  if (!stop) return "NO BRAKE";
  const { row, distance_m } = stop;
  const { told: goes, byBand } = stopTold(stop);
  const from = row.from_m === null ? "" : ` from ${eyes.place(row.from_m)}`;
  if (row.distance_m === null) return `DOES NOT STOP${from}`;
  if (distance_m === null) return `DOES NOT STOP in nineteen of twenty${from}`;
  const beyond = distance_m > limits.sight_m ? ": BEYOND SIGHT" : "";
  const sure = byBand ? ", nineteen in twenty" : sureness ? "" : ", brakes as filed";
  return `${goes}${from}, ${row.rail} rail, ${WHO[row.who]}${sure}${beyond}${untold(limits.counted)}`;
}

/** What a log should say and does not. */
const untold = ({ rolling_told }: LimitsAnswer["counted"]): string => (rolling_told ? "" : "; NOT TOLD by the log");

/** How far before each of its stops the driver shut off in the simulated lap. */
function shutOff({ run, eyes, plan }: Told): Line[] {
  if (plan.stops.length === 0) return [];
  const lap = run.events.filter((event) => event.lap === 1);
  const lines = lap.flatMap((event, i): Line[] => {
    if (event.kind !== "shuts_off") return [];
    const stop = lap.slice(i).find((each) => each.kind === "stop" || each.kind === "draws_up");
    if (!stop) return [["Shut off", `at ${eyes.place(event.chainage_m)}`]];
    const before_m = Math.abs(stop.chainage_m - event.chainage_m);
    const far_m = plan.track.kind === "circuit" ? Math.min(before_m, plan.track.length_m - before_m) : before_m;
    return stop.kind === "stop"
      ? [["Shut off", `${shortLength(far_m, eyes)} before ${named(stop.chainage_m, { plan, eyes })}`]]
      : [];
  });
  return lines.slice(0, MOST_RANGES);
}

/** With no more than there are seats for: a card that tells a larger number would be read as leave to carry it. */
function startsAgain({ aboard, seats }: LimitsAnswer): string {
  const rows = aboard.filter(({ limit }) => limit === "restart");
  return `on the steepest bit ${rows.map(({ rail, most }) => (most === null ? `NOT on ${rail} rail` : `with ${Math.min(most, seats)} on ${rail} rail`)).join(", ")}`;
}

/** Where its parking brake does not hold it. */
function chocks({ standing, counted }: LimitsAnswer, eyes: Told["eyes"]): string {
  const { chocks: ranges, brakes } = standing;
  if (ranges.length === 0) return `its parking brake holds it everywhere${untold(counted)}`;
  const why = brakes === "none" ? "no parking brake: " : "";
  if (ranges.length > MOST_RANGES || brakes === "none") return `${why}CHOCKS wherever it stands`;
  return `CHOCKS with its front ${ranges.map(({ from_m, to_m }) => `from ${eyes.place(from_m)} to ${eyes.place(to_m)}`).join("; ")}`;
}

/** Volts to laps left until the reserve: rested, and running on the level. A voltmeter is the only gauge most locos have. */
function volts({ limits, plan: { train, charge }, level }: Told): string {
  const { battery } = train;
  const { day, laps_to_plan_for: all, logged } = limits;
  if (day.length === 0 || all === 0 || !toDriveBy(limits)) return "";
  // What the log drew more goes with the charge that it leaves.
  const level_A = level && Math.max(1, logged?.draws ?? 1) * level.battery_current_A;
  const done = [{ lap: 0, state_of_charge: charge }, ...day];
  const rows = [0, 0.25, 0.5, 0.75, 1].map((share) => {
    const lap = Math.round(share * all);
    const left = chargeAfter(done, lap);
    const rested_V = restedVolts(battery.rested, left);
    const running =
      level_A === null ? "–" : `${(emfLoaded_V(battery, left) - level_A * train.source_ohm).toFixed(1)} V`;
    return `<tr><td>${rested_V.toFixed(1)} V</td><td>${running}</td><td>${all - lap}</td></tr>`;
  });
  return `<table class="volts"><caption>Volts to laps left, ${formatPercent(battery.reserve)} kept in reserve</caption><thead><tr><th scope="col">rested</th><th scope="col">on the level</th><th scope="col">laps left</th></tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

/** Between laps that were run, straight. */
function chargeAfter(rows: readonly { lap: number; state_of_charge: number }[], lap: number): number {
  const next = rows.find((row) => row.lap >= lap) ?? rows.at(-1);
  const last = rows.findLast((row) => row.lap <= lap) ?? next;
  if (!next || !last) return 0;
  const share = next.lap === last.lap ? 0 : (lap - last.lap) / (next.lap - last.lap);
  return last.state_of_charge + share * (next.state_of_charge - last.state_of_charge);
}

function restedVolts({ x, y }: { x: ArrayLike<number>; y: ArrayLike<number> }, share: number): number {
  let i = 0;
  while (i + 2 < x.length && (x[i + 1] ?? 0) < share) i++;
  const [from, to] = [x[i] ?? 0, x[i + 1] ?? 1];
  return (y[i] ?? 0) + (((y[i + 1] ?? 0) - (y[i] ?? 0)) * (share - from)) / (to - from);
}
