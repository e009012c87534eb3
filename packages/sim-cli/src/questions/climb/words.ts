import { type ClimbAnswer, type ClimbRow, formatGradient, locoKeys } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { placeBefore } from "../../words/eyes.js";
import { LIMITS } from "../../words/limits.js";
import { assumedNote } from "../../words/notes.js";
import { doubtfulProfile } from "../../words/profile.js";
import type { Opened, Told } from "../../words/ready.js";
import { rail, setting, several } from "../../words/setting.js";
import { section, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { differsHot, effortChart } from "./chart.js";
import { besideTable, loadTable } from "./table.js";
import type { ClimbTold } from "./work.js";

/** The sentence that a committee quotes, the load table, other rail and a hot motor beside it, and the pull behind it. */
export function climbInWords(opened: Told<ClimbTold>): readonly string[] {
  const { answer, quiet } = opened;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const own = rail(opened.reading.plan);
  return [
    ...wrapped(restarts(answer, own, steepestHere(answer, opened), opened)).map((line) =>
      painted(line, "bold", screen),
    ),
    ...wrapped(restarts(answer.other_rail, `${answer.other_rail.rail} rail`, "there", opened)),
    ...hotRestart(answer, opened).flatMap(wrapped),
    ...doubtfulProfile(opened.notes).flatMap(wrapped),
    ...wrapped(`${setting(opened)}.${tooMany(answer, opened)}`),
    ...section(`Load table: ${own}, motor cold`, [
      ...loadTable(answer, opened, inside),
      ...tableNotes(answer, opened).flatMap((note) => wrap(note, inside)),
    ]),
    ...section("Steepest restart, other rail and a hot motor beside it", besideTable(answer, opened, inside)),
    ...effortChart(answer.tractive_effort, opened, screen),
    ...whatToSee(answer, opened).flatMap(wrapped),
    "",
    ...(quiet ? [] : wrapped(assumedNote(opened.notes))),
    ...wrapped(CAUTION),
  ];
}

/** `On dry rail it restarts with 8 passengers on the steepest bit here, 1 in 71; with 9 it does not: …`. */
function restarts(answer: ClimbAnswer, on: string, where: string, opened: Opened): string {
  const { rows, passengers_it_can_restart: most } = answer;
  const it = `On ${on} it`;
  const why = (row: ClimbRow | undefined) => (row ? LIMITS[row.limited_by].because(opened) : "");
  const [alone] = rows;
  if (opened.plan.train.vehicles.length === 1) {
    return most === null
      ? `${it} does not restart ${where}, with no car behind it: ${why(alone)}.`
      : `${it} restarts ${where}; there is no car behind it to carry passengers.`;
  }
  if (most === null) return `${it} does not restart ${where} even with the cars empty: ${why(alone)}.`;
  const load = most === 0 ? "with the cars empty" : `with ${several(most, "passenger")}`;
  const beyond = rows.find(({ passengers }) => passengers === most + 1);
  if (!beyond) return `${it} restarts ${load} ${where}, and more were not looked at.`;
  return `${it} restarts ${load} ${where}; with ${most + 1} it does not: ${why(beyond)}.`;
}

/** What is left of it when the motor is as hot as its class allows; by sums, since only the cold restart is run. */
function hotRestart(
  { rows, ruling_gradient_compensated_percent: ruling, ...answer }: ClimbAnswer,
  opened: Opened,
): string[] {
  const most = answer.passengers_it_can_restart;
  const fails = rows.find(({ restart_gradient_hot_percent }) => restart_gradient_hot_percent < ruling);
  if (most === null || !fails || fails.passengers > most) return [];
  const limit = opened.eyes.of(opened.plan.train.heat.limit_degC, "temperature");
  const left =
    fails.passengers === 0
      ? "it does not restart there at all"
      : `the sums leave ${fails.passengers - 1} in place of ${most}`;
  return [`With its motor at the ${limit} of its class ${left}.`];
}

/** `on the steepest bit here, 1 in 71 past Heron Bank`. */
function steepestHere(answer: ClimbAnswer, { eyes, plan }: Opened): string {
  const { ruling_gradient_percent: bare, ruling_gradient_compensated_percent: felt } = answer;
  const slope = formatGradient(felt / 100);
  if (felt <= 0 || slope === "level") return "on this line, which is level";
  const curves = formatGradient(bare / 100) === slope ? "" : ` with its curves (${formatGradient(bare / 100)} without)`;
  const at_m = answer.ruling_gradient_at_m;
  const name = placeBefore(plan.track, at_m);
  const place = name === "" ? `at ${eyes.place(at_m)}` : name.startsWith("past ") ? name : `at ${name}`;
  return `on the steepest bit here, ${slope} ${place}${curves}`;
}

/** Of the plan's own load. */
function tooMany({ passengers_it_can_restart: most }: ClimbAnswer, { plan: { passengers } }: Opened): string {
  if (passengers === 0 || passengers <= (most ?? 0)) return "";
  return ` That is ${passengers - (most ?? 0)} more than it restarts with.`;
}

function tableNotes(answer: ClimbTold, { plan }: Opened): string[] {
  const { rows, seats, passengers_it_can_restart: most } = answer;
  const marks = [
    ...(rows.some(({ passengers }) => passengers === plan.passengers) ? ["→ is this plan's load."] : []),
    ...(seats > 0 ? [`The cars have ${several(seats, "seat")}.`] : []),
  ].join(" ");
  const near = rows.find(({ passengers }) => passengers === (most ?? -1) + 1);
  const spare =
    near && near.restart_gradient_percent > answer.ruling_gradient_compensated_percent
      ? [
          `With ${near.passengers} aboard the sums give ${formatGradient(near.restart_gradient_percent / 100)}, which is so close that the train does not get away${near.limited_by === "adhesion" ? " under a driver who keeps the wheels from slipping" : ""}.`,
        ]
      : [];
  const atSpeed = Number.isNaN(plan.speed_mps) ? "" : "; at the plan's speed, the steepest it keeps that up on";
  return [
    `Counted on the safe side, with bearings as stiff as they may be. Straight gradients, the lever full open: restart; crawling, the steepest it keeps moving on${atSpeed}; here: run from rest at the worst place.${marks && ` ${marks}`}`,
    ...spare,
  ];
}

/** What the picture shows, in words. */
function whatToSee(answer: ClimbTold, opened: Opened): string[] {
  const { eyes, reading } = opened;
  const { tractive_effort: effort, ballast_wanted_kg, ruling_gradient_compensated_percent } = answer;
  const ruling = formatGradient(ruling_gradient_compensated_percent / 100);
  const speed = (speed_mps: number) => eyes.speed(speed_mps);
  const hot =
    differsHot(effort) && effort.ruling_speed_hot_mps > 0
      ? ` (${speed(effort.ruling_speed_hot_mps)} with a hot motor)`
      : "";
  const up =
    effort.ruling_speed_mps > 0 ? `${speed(effort.ruling_speed_mps)} on ${ruling}${hot}` : `not at all on ${ruling}`;
  const level =
    effort.level_speed_mps > 0 ? `${speed(effort.level_speed_mps)} on the level` : "not at all on the level";
  const standing_N = effort.rows[0]?.pull_cold_N ?? 0;
  const pull = `Standing, the drive pulls ${eyes.of(standing_N, "force")} and the driven wheels pass on ${eyes.of(effort.grip_N, "force")}`;
  const meet = `With this plan's load and the lever full open it runs at ${[level, ...(ruling === "level" ? [] : [up])].join(" and ")}.`;
  if (ballast_wanted_kg <= 0) return [meet, `${pull}: they do not slip.`];
  const { axles = locoKeys.wheels.keys.axles.default.value, driven_axles } = reading.loco.wheels;
  const undriven = driven_axles < axles ? ", or another driven axle" : "";
  const ballast = eyes.of(ballast_wanted_kg, "mass");
  return [
    meet,
    `${pull}; pulled harder they only slip. ${ballast} of ballast, spread as the loco's weight is, would let them pass on all of it${undriven}.`,
  ];
}
