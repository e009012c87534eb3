import { type BrakeSet, type BrakesAnswer, figures } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { notes } from "../../words/notes.js";
import { doubtfulProfile } from "../../words/profile.js";
import { setting } from "../../words/setting.js";
import { section, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { brakesChart, whatToSee } from "./chart.js";
import { headline, why } from "./headline.js";
import { parkingLines } from "./parking.js";
import type { BrakesTold } from "./sets.js";
import { near, toldSets, WITH } from "./sets.js";
import { peopleLines, sightLines, worstTable } from "./tables.js";
import { wantedLines } from "./wanted.js";

/** The sentences that a committee quotes, why brakes are needed, the picture, then the figures behind them. */
export function brakesInWords(told: BrakesTold): readonly string[] {
  const { answer, half, eyes } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const within = (lines: readonly string[]) => lines.flatMap((line) => wrap(line, inside));
  const shown = { ...told, answer: worstDistances(answer), half: half && worstDistances(half) };
  return [
    ...wrapped(headline(told)).map((line) => painted(line, "bold", screen)),
    ...doubtfulProfile(told.plan.notes).flatMap(wrapped),
    ...wrapped(`${setting(told)}.`),
    ...why(told).flatMap(wrapped),
    ...brakesChart(told, screen),
    ...whatToSee(told).flatMap(wrapped),
    ...section("The worst of each", [...worstTable(told, inside), ...within(legend(told))]),
    ...section(`Stopping within sight, ${eyes.length(answer.sight_m)}`, sightLines(told, inside)),
    ...section("What people aboard bear", peopleLines(told, inside)),
    ...section("The brake it wants", wantedLines(told, inside)),
    ...section("Left standing", parkingLines(told, inside)),
    ...section("To be known", within(toBeKnown(told))),
    "",
    ...notes(shown).flatMap(wrapped),
    ...wrapped(CAUTION),
  ];
}

function legend(told: BrakesTold): string[] {
  const { answer, plan } = told;
  if (answer.worst.length === 0) return [];
  const locks = answer.worst.some(({ wheels_locked }) => wheels_locked);
  const from = "Distance and time count from the moment the driver should act; m/s² is the hardest slowing.";
  const none =
    "On the safe side: bearings are as free as they may be, and the motor's drag does not count unless it was measured.";
  const grips = answer.rails.map(({ rail, grip }) => `${rail} ${figures(grip)}`).join(", ");
  return [
    `${from} ${none}`,
    ...(plan.train.brakes.length > 0 || locks ? [`Grip in stopping: ${grips}.`] : []),
    ...(locks
      ? [
          "slide: braked wheels lock or slide there, brake less well than rolling ones, and wear flat: brake more gently.",
        ]
      : []),
    ...dragLines(told),
  ];
}

/** What a set that has a brake owes to the motor's drag, where it owes it more than a hundredth. */
function dragLines(told: BrakesTold): string[] {
  const { answer, eyes } = told;
  return toldSets(answer, told).flatMap((set) => {
    const own = answer.worst.filter(({ brakes }) => brakes === set);
    const owes = own.filter(
      ({ distance_m, distance_without_drag_m: bare_m }) => bare_m !== undefined && !near(distance_m, bare_m),
    );
    if (owes.length === 0) return [];
    const far_m = Math.max(...owes.map(({ distance_without_drag_m: bare_m }) => bare_m ?? Number.POSITIVE_INFINITY));
    const bare =
      far_m < Number.POSITIVE_INFINITY ? `the worst is ${eyes.length(far_m)}` : "it is never stopped from there";
    return `${WITH[set]} this counts the motor's own drag, which was measured; without that ${bare}.`;
  });
}

const FITTED: Partial<Record<BrakeSet, string>> = { electric: "an electric brake", loco: "a brake on the loco" };

function toBeKnown({ answer, plan }: BrakesTold): string[] {
  const { not_fitted, remarks } = answer;
  const onCars = plan.train.vehicles.length === 1 || plan.train.brakes.some(({ vehicle }) => vehicle > 0);
  const missing = [...not_fitted.flatMap((set) => FITTED[set] ?? []), ...(onCars ? [] : ["brakes on the cars"])];
  return [
    ...(missing.length > 0 ? [`Not fitted: ${missing.join(", ")}.`] : []),
    ...(not_fitted.includes("electric") ? [] : [ELECTRIC]),
    ...remarks.map((remark) => REMARKS[remark]),
  ];
}

const ELECTRIC =
  "The electric brake is the motor working as a generator: it is not there when the breaker is open or the battery off, it fades as the train slows, and it holds nothing that stands: not a parking brake.";

const REMARKS: Record<BrakesAnswer["remarks"][number], string> = {
  battery_full:
    "The battery is as full as a charger leaves it and takes nothing back: the electric brake gives no more than the motor's drag until some of the charge is used.",
  guard_acts_later: "The guard's brake is taken to go on 3 s after the driver acts (common practice, no source).",
  ends_of_the_line_left_out:
    "Places within sight of an end of the line are not judged: a driver comes in there slowly. Their figures are in --json.",
};

/** What half a step may change, by name. */
const worstDistances = ({ worst }: BrakesAnswer): Record<string, number | string> =>
  Object.fromEntries(
    worst.map(({ brakes, rail, distance_m }) => [
      `the worst distance with ${brakes} on ${rail} rail in metres`,
      distance_m ?? "without end",
    ]),
  );
