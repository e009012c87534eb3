import {
  type CheckAnswer,
  figures,
  formatGradient,
  formatPercent,
  type GradientAnswer,
  type Unfit,
} from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { measureRows } from "../../words/measure.js";
import { assumedNote } from "../../words/notes.js";
import { protectionSection } from "../../words/protection.js";
import type { Opened, Told } from "../../words/ready.js";
import { setting, several } from "../../words/setting.js";
import { measureSection } from "../../words/sureness.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import type { Telling } from "../../work/asking.js";
import { brakeRows } from "./brake.js";

/** What the files come to, what to measure first, and every figure that was assumed. Warnings follow on the other stream. */
export const telling: Telling<{ answer: CheckAnswer }> = { inWords: checkInWords };

/** Rows that are told where not everything is asked for. */
const SHORT = {
  train: ["ratio", "speed", "mass", "driven wheels", "pull", "resistance"],
  track: ["length", "ruling gradient", "survey", "steepest descent"],
  motor: ["efficiency", "heat"],
  battery: ["capacity", "reserve"],
} as const;

function checkInWords(opened: Told<CheckAnswer>): readonly string[] {
  const { answer, all, plan } = opened;
  const screen = terminal();
  const width = screen.columns - 2;
  const assumed = plan.notes.assumed.map(({ key, value, source }) => [key, value, source]);
  const part = (heading: string, rows: readonly string[][], short?: readonly string[]) =>
    section(heading, table(all || !short ? rows : rows.filter(([name = ""]) => short.includes(name)), { width }));
  return [
    ...wrap(headline(opened), screen.columns).map((line) => painted(line, "bold", screen)),
    ...wrap(`${setting(opened)}.`, screen.columns),
    ...(opened.sureness
      ? measureSection(opened.sureness, opened)
      : section("Measure first, of what is assumed", table(measureRows(answer.measure_first, opened), { width }))),
    ...part("Train and gears", trainRows(answer, opened), SHORT.train),
    ...part("Track", trackRows(answer, opened), SHORT.track),
    ...part("Motor", motorRows(answer, opened), SHORT.motor),
    ...part("Battery", batteryRows(answer, opened), SHORT.battery),
    ...part("Brakes", brakeRows(answer.brakes, answer.electric_brake, opened)),
    ...protectionSection(answer.protection, opened, width),
    ...(all
      ? section(`Assumed: ${several(assumed.length, "figure")} that the files leave out`, assumedLines(assumed, width))
      : []),
    "",
    ...(all ? [] : wrap(`${assumedNote(plan.notes)} It tells all the rest too.`, screen.columns)),
    ...wrap(CAUTION, screen.columns),
  ];
}

/** `The files can be used: geared 12.7 to 1, 4 mph at the motor's rated speed; …`. */
function headline({ answer, warnings, eyes }: Told<CheckAnswer>): string {
  const { speed_at_rated_motor_speed_mps: rated_mps, ruling_gradient: ruling } = answer;
  const rated = rated_mps === null ? "" : `, ${eyes.speed(rated_mps)} at the motor's rated speed`;
  const slope = formatGradient(ruling.gradient_percent / 100);
  const { survey } = answer;
  const open =
    survey && !survey.steepest_is_told && !survey.good_enough
      ? `, by heights that leave gradients open by ${formatGradient(survey.doubt_percent / 100)}`
      : "";
  const line = slope === "level" ? "the line is level" : `the steepest bit is ${slope}`;
  const counted = warnings.length === 0 ? "Nothing stands out." : `${several(warnings.length, "warning")}, told below.`;
  return `The files can be used: geared ${figures(answer.ratio)} to 1${rated}; ${line}${open}. ${counted}`;
}

function trainRows(answer: CheckAnswer, { eyes }: Opened): string[][] {
  const newtons = (value_N: number) => eyes.of(value_N, "force");
  const { speed_at_rated_motor_speed_mps: rated_mps, speed_at_no_load_mps: free_mps } = answer;
  return [
    [
      "ratio",
      `${figures(answer.ratio)} turns of the motor to one of the wheels, ${formatPercent(answer.gear_efficiency)} of the power comes through`,
    ],
    [
      "speed",
      [
        ...(rated_mps === null ? [] : [`${eyes.speed(rated_mps)} at the motor's rated speed`]),
        ...(free_mps === null ? [] : [`${eyes.speed(free_mps)} with no load`]),
      ].join(", "),
    ],
    [
      "mass",
      `${eyes.of(answer.train_mass_kg, "mass")}; accelerates like ${eyes.of(answer.effective_mass_kg, "mass")} because wheels and motor turn as well`,
    ],
    ["length", eyes.length(answer.train_length_m)],
    ["driven wheels", `carry ${newtons(answer.adhesive_weight_N)} and grip up to ${newtons(answer.grip_N)}`],
    ["pull", `${newtons(answer.pull_at_current_limit_N)} at the controller's current limit, standing`],
    [
      "resistance",
      `${newtons(answer.rolling_resistance_N)} rolling on the level, ${newtons(answer.starting_resistance_N)} to start`,
    ],
  ];
}

function trackRows(answer: CheckAnswer, { eyes, plan }: Opened): string[][] {
  const felt = ({ gradient_percent, chainage_m, direction }: GradientAnswer) =>
    `${eyes.gradient(gradient_percent)}, head at ${eyes.place(chainage_m)}${direction === "back" ? ", on the way back" : ""}`;
  return [
    ["length", eyes.length(answer.track_length_m)],
    ["climb", `${eyes.length(answer.climb_per_lap_m)} ${plan.track.kind === "circuit" ? "in a lap" : "out and back"}`],
    ["ruling gradient", `${felt(answer.ruling_gradient)}, as the whole train feels it`],
    ...surveyRow(answer),
    ["with curves", felt(answer.ruling_gradient_compensated)],
    ["steepest descent", felt(answer.steepest_descent)],
  ];
}

const LEVELLING: Readonly<Record<Unfit, string>> = {
  "not accepted": "levelling NOT accepted",
  "not closed": "levelling NOT checked, since it closes on nothing",
  "by receiver": "heights of a receiver",
};

/** How far the survey leaves the gradients open, where it tells that. */
function surveyRow({ survey }: CheckAnswer): string[][] {
  if (!survey) return [];
  const { doubt_percent, steepest_counted_percent, steepest_is_told, levelling } = survey;
  const within = `off by ${formatGradient(doubt_percent / 100)} either way, by the doubt in the profile`;
  const most = formatGradient(steepest_counted_percent / 100);
  const told = steepest_is_told
    ? `${most} uphill at most`
    : `this steepest bit may not be there; a bit of ${most} may be`;
  const open = doubt_percent > 0 ? [`${within}: ${told}`] : [];
  return [["survey", [...(levelling === null ? [] : [LEVELLING[levelling]]), ...open].join("; ")]];
}

function motorRows({ motor }: CheckAnswer, { eyes }: Opened): string[][] {
  const constant = eyes.of(motor.torque_constant_NmpA, "torque_constant");
  const flux = [motor.kind === "series" ? `up to ${constant} as its flux grows with current` : constant];
  const perSpeed = motor.drag_per_speed_Nms > 0 ? ` and ${figures(motor.drag_per_speed_Nms)} N m for every rad/s` : "";
  const drag = motor.kind === "series" ? [] : [`drag ${eyes.of(motor.drag_Nm, "torque")}${perSpeed}`];
  return [
    ["constants", `${eyes.of(motor.resistance_ohm, "resistance")}, ${[...flux, ...drag].join(", ")}`],
    [
      "no load",
      motor.no_load_speed_rpm === null
        ? "none: a series motor runs away unloaded"
        : `${figures(motor.no_load_speed_rpm)} rpm`,
    ],
    [
      "stalled",
      `${eyes.of(motor.stall_current_A, "current")} and ${eyes.of(motor.stall_torque_Nm, "torque")} if nothing limits it`,
    ],
    [
      "efficiency",
      motor.peak_efficiency === null || motor.peak_efficiency_current_A === null
        ? `${formatPercent(motor.rated_efficiency)} as rated`
        : `${formatPercent(motor.peak_efficiency)} at best, at ${eyes.of(motor.peak_efficiency_current_A, "current")}`,
    ],
    ["most power", eyes.of(motor.peak_power_W, "power")],
    [
      "heat",
      `winding warms in about ${eyes.of(motor.winding_time_constant_s, "time")}, case in ${eyes.of(motor.case_time_constant_s, "time")}; its class allows ${eyes.of(motor.temperature_limit_C, "temperature")}${motor.cooling_standing < 1 ? `; its fan leaves ${formatPercent(motor.cooling_standing)} of the cooling when it stands` : ""}`,
    ],
  ];
}

function batteryRows({ battery }: CheckAnswer, { eyes }: Opened): string[][] {
  const charge = (charge_Ah: number) => eyes.of(charge_Ah * 3600, "charge");
  const rows = [
    [
      "volts",
      `${eyes.of(battery.nominal_voltage_V, "voltage")} nominal, ${eyes.of(battery.rested_voltage_full_V, "voltage")} full and rested`,
    ],
    ["capacity", `${charge(battery.capacity_Ah)} by its label, in this air and at its age`],
    ["resistance", eyes.of(battery.resistance_ohm, "resistance")],
    ["reserve", `${formatPercent(battery.reserve)} is kept`],
  ];
  if (battery.available_share < 1) {
    const wells = `${charge(battery.wells_Ah)} in all, ${formatPercent(battery.available_share)} of it within reach at once; the rest comes over at ${figures(battery.exponent_rate_ph)} an hour`;
    rows.push(["fit to its rates", wells]);
  }
  if (battery.cutout_voltage_V !== null)
    rows.push(["cut-out", `${eyes.of(battery.cutout_voltage_V, "voltage")} at the controller`]);
  return rows;
}

/** Key, value and source side by side; on a narrow terminal the source goes below. */
function assumedLines(assumed: readonly (readonly string[])[], width: number): string[] {
  if (width >= WIDE) return table(assumed, { width, head: ["key", "value", "source"] });
  return assumed.flatMap(([key, value, source = ""]) => [
    ...wrap(`${key}: ${value}`, width),
    ...wrap(source, width - 2).map((line) => `  ${line}`),
  ]);
}

const WIDE = 90;
