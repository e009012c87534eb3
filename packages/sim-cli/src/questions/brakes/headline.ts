import { type BrakeSet, type BrakesRow, formatGradient } from "@rideon/sim-core";
import type { BrakesTold } from "./sets.js";
import { near, toldSets, WITH } from "./sets.js";

/** How it stops without a brake, then with each that it has. */
export function headline(told: BrakesTold): string {
  const { answer, eyes } = told;
  if (answer.rows.length === 0) return "As the plan has it the train does not move: there is nothing to stop.";
  const worst = (set: BrakeSet) => answer.worst.filter(({ brakes }) => brakes === set);
  const [bare] = worst("none").slice(-1);
  if (!bare)
    return `The end of this line is everywhere within sight, ${eyes.length(answer.sight_m)}: nothing to judge.`;
  const braked = toldSets(answer, told).filter((set) => set !== "none" && set !== "drag");
  const fitted = braked.map((set) => withBrake(set, worst(set), told));
  return [withNone(bare, told), ...fitted, ...wanting(told)].join(" ");
}

/** Where nothing but the motor brakes it. */
function wanting({ answer, plan: { train }, eyes }: BrakesTold): string[] {
  if (train.brakes.some(({ service }) => service)) return [];
  const without = answer.not_fitted.includes("electric") ? "It has no brake" : "It has no other brake";
  const { brake_wanted: wanted } = answer;
  if (!wanted) return [`${without}.`];
  return [
    `${without}; one of ${eyes.of(wanted.rail_force_N, "force")} at the rail would stop it within the ${eyes.length(answer.sight_m)} that the driver sees.`,
  ];
}

/** `from 4 mph (1.79 m/s) at 225 m, past Top Signal`. */
const from = ({ speed_mps, chainage_m, direction }: BrakesRow, { eyes }: BrakesTold): string =>
  `from ${eyes.speed(speed_mps)} at ${eyes.place(chainage_m)}${direction === "back" ? ", on the way back" : ""}`;

function withNone(bare: BrakesRow, told: BrakesTold): string {
  const { eyes, answer } = told;
  if (bare.distance_m === null || bare.time_s === null) return `With no brake ${neverStops(bare, told)}.`;
  const gets = bare.top_speed_mps > GATHERS * bare.speed_mps ? `, and reaches ${eyes.speed(bare.top_speed_mps)}` : "";
  const runs = `With no brake it runs ${eyes.length(bare.distance_m)} ${from(bare, told)}${gets}, before it comes to a stand after ${eyes.of(Math.round(bare.time_s), "time")}.`;
  const back = answer.rows.find(
    ({ brakes, rail, outcome }) => brakes === "none" && rail === bare.rail && outcome === "rolls_back",
  );
  return back ? `${runs} On a rise, as at ${eyes.place(back.chainage_m)}, it comes to a stand and rolls back.` : runs;
}

/** `it cannot be stopped from 4 mph at 225 m, past Top Signal: the falling line takes it to 9 mph`. */
function neverStops(row: BrakesRow, told: BrakesTold): string {
  const gathers = row.top_speed_mps > GATHERS * row.speed_mps;
  const circuit = told.plan.track.kind === "circuit";
  const how =
    row.outcome === "rolls_back"
      ? "it comes to a stand on a rise and rolls back past where it was"
      : gathers
        ? `the falling line takes it to ${told.eyes.speed(row.top_speed_mps)}`
        : circuit
          ? "it runs on"
          : "it runs off the end";
  return `it cannot be stopped ${from(row, told)}: ${how}`;
}

const GATHERS = 1.1;

function withBrake(set: BrakeSet, worst: readonly BrakesRow[], told: BrakesTold): string {
  const { answer, eyes } = told;
  const never = worst.find(({ stops }) => !stops);
  if (never) return `${WITH[set]}, on ${never.rail} rail, ${neverStops(never, told)}.`;
  const beyond = worst.some(({ distance_m }) => (distance_m ?? 0) > answer.sight_m);
  const seen = beyond ? `; the driver sees ${eyes.length(answer.sight_m)}` : "";
  const [one, other] = worst;
  const within = (row: BrakesRow | undefined) => `within ${eyes.length(row?.distance_m ?? 0)}`;
  if (!other) return `${WITH[set]} it stops ${within(one)} everywhere, on ${one?.rail} rail${seen}.`;
  return near(one?.distance_m ?? null, other.distance_m)
    ? `${WITH[set]} it stops ${within(other)} everywhere, on ${one?.rail} rail and on ${other.rail}${seen}.`
    : `${WITH[set]} it stops ${within(one)} everywhere on ${one?.rail} rail, ${within(other)} on ${other.rail}${seen}.`;
}

/** For whoever has no physics: what pulls it on, what holds it back, and what goes by before anything acts. */
export function why({ answer, plan: { train, speed_mps }, eyes }: BrakesTold): string[] {
  const steepest = answer.rows.reduce((least, { gradient_percent }) => Math.min(least, gradient_percent), 0);
  const fall = -steepest / 100;
  const pulled_kg = train.mass_kg * fall;
  const held_kg = train.vehicles.reduce((sum, { mass_kg, resistance }) => sum + mass_kg * resistance.rolling, 0);
  const kg = (mass_kg: number) => eyes.of(mass_kg, "mass");
  const off = "Why it matters: shutting the lever only takes the power off.";
  const moves = Math.max(...answer.rows.map((row) => row.speed_mps));
  if (!Number.isFinite(moves)) return [];
  const seconds = eyes.of(answer.reaction_time_s, "time");
  const reacts = `The driver needs ${seconds} to see and to act; ${Number.isNaN(speed_mps) ? "at its fastest" : `at ${eyes.speed(moves)}`} the train runs ${eyes.length(moves * answer.reaction_time_s)} meanwhile.`;
  if (formatGradient(fall) === "level") {
    return [`${off} Then only bearings and wheels hold it back, as ${kg(held_kg)} on a rope would. ${reacts}`];
  }
  const slope = `On the steepest fall here, ${formatGradient(fall)}, its own weight pulls it on as ${kg(pulled_kg)} hung on a rope would, and bearings and wheels hold back ${kg(held_kg)} of that`;
  return [
    `${off} ${slope}: ${pulled_kg > held_kg ? "there it gathers speed" : "it slows, over a long way"}. ${reacts}`,
  ];
}
