import { figures, formatGradient, type SizeAnswer, USUAL_SUPPLY_V } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { listed } from "../../words/lists.js";
import type { OpenedSizing, Told } from "../../words/ready.js";
import { rail, trainInWords } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import type { Telling } from "../../work/asking.js";
import { supplyLines, supplyTable } from "./supply.js";
import type { SizeWorked } from "./work.js";

/** What to buy, each line under its rule; then amps at the usual voltages, and what the line takes. */
export const telling: Telling<SizeWorked, OpenedSizing> = { inWords: sizeInWords };

function sizeInWords(opened: Told<SizeAnswer, OpenedSizing>): readonly string[] {
  const { answer, quiet } = opened;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(headline(answer, opened)).map((line) => painted(line, "bold", screen)),
    ...wrapped(`${trainInWords(opened, opened.sizing.train)}; ${rail(opened.reading.plan)}.${leftOut(opened)}`),
    ...section("What the line takes, at the rail", ruled(lineLines(answer, opened), answer, inside)),
    ...section("What to buy", ruled(shoppingLines(answer, opened), answer, inside)),
    ...section("At the usual voltages", [
      ...supplyTable(answer.supplies, opened.eyes, inside),
      ...wrap(ruleOf(answer, "battery current"), inside),
    ]),
    "",
    ...(quiet
      ? []
      : wrapped(
          `${opened.notes.assumed.length} figures are assumed because the files leave them out; --json lists them.`,
        )),
    ...wrapped(CAUTION),
  ];
}

function headline(answer: SizeAnswer, { eyes }: OpenedSizing): string {
  const { motor_continuous_power_W, motor_peak_power_W, motor_speed_rpm, ratio } = answer;
  const hours = eyes.of(answer.duration_h * 3600, "time");
  const motor = `a motor of ${eyes.of(motor_continuous_power_W, "power")} at ${figures(motor_speed_rpm)} rpm, which gives ${eyes.of(motor_peak_power_W, "power")} to start away`;
  return `To run ${eyes.of(answer.train_mass_kg, "mass")} at ${eyes.speed(answer.speed_mps)} for ${hours} here takes ${motor}, geared ${figures(ratio)} to 1.`;
}

/** What the loco file has already and is not looked at. */
function leftOut({ reading: { loco } }: OpenedSizing): string {
  const there = (["motor", "controller", "battery"] as const).filter((key) => loco[key] !== undefined);
  const kept = loco.gears === undefined ? "" : " Its gears are kept.";
  if (there.length === 0) return kept.replace("Its gears", " The loco file's gears");
  return ` What the loco file says of ${listed(there)} is not looked at here: rideon run looks at it.${kept}`;
}

/** What, how much, and the beginnings of the rules behind it. */
type Line = readonly [what: string, figures: string, ...rules: string[]];

function lineLines(answer: SizeAnswer, { eyes, sizing }: OpenedSizing): Line[] {
  const newtons = (value_N: number) => eyes.of(value_N, "force");
  const ruling = formatGradient(answer.ruling_gradient_compensated_percent / 100);
  const steepest =
    ruling === "level"
      ? "on the level"
      : `on ${ruling}, curves counted in, at ${eyes.place(answer.ruling_gradient_at_m)}`;
  return [
    ["level", newtons(answer.rail_force_level_N)],
    [
      "steepest",
      `${newtons(answer.rail_force_ruling_N)} and ${eyes.of(answer.rail_power_ruling_W, "power")} ${steepest}`,
    ],
    [
      "all round",
      `${newtons(answer.rail_force_rms_N)} rms and ${newtons(answer.rail_force_mean_N)} in the mean; ${figures(answer.rail_energy_per_lap_Wh)} Wh a lap`,
      "rail force",
    ],
    [
      "starting",
      `${newtons(answer.restart_force_N)} to move at all there, ${newtons(answer.starting_force_N)} to start away at ${eyes.of(sizing.acceleration_mps2, "acceleration")}`,
      "starting force",
    ],
  ];
}

function shoppingLines(answer: SizeAnswer, opened: OpenedSizing): Line[] {
  const { eyes } = opened;
  const power = (value_W: number) => eyes.of(value_W, "power");
  const torque = (value_Nm: number) => eyes.of(value_Nm, "torque");
  const { gear_stages: stages, supplies } = answer;
  const usual = supplies.find(({ voltage_V }) => voltage_V === USUAL_SUPPLY_V) ?? supplies[0];
  return [
    [
      "motor",
      `${power(answer.motor_continuous_power_W)} and ${torque(answer.motor_continuous_torque_Nm)} for as long as it runs, ${power(answer.motor_peak_power_W)} and ${torque(answer.motor_peak_torque_Nm)} starting away, at ${figures(answer.motor_speed_rpm)} rpm`,
      "continuous power",
      "starting away",
    ],
    ["by rule of thumb", `${power(answer.rule_of_thumb_power_W)}, to compare with`, "rule of thumb"],
    [
      "gears",
      `${figures(answer.ratio)} turns of the motor to one of the wheels, in ${stages === 1 ? "one stage" : `${stages} stages`}`,
      "ratio",
      "motor speed",
    ],
    ...(usual ? supplyLines(usual, eyes) : []),
    ["brake", brakeInWords(answer, opened), "brake"],
    ["braked weight", brakedInWords(answer, opened), "braked weight"],
    ["driven wheels", adhesionInWords(answer, opened), "adhesive weight"],
  ];
}

function brakeInWords(answer: SizeAnswer, { eyes }: OpenedSizing): string {
  const { brake_force_line_N: line_N, brake_force_level_N: level_N, brake_force_descent_N: descent_N } = answer;
  const within = `within ${eyes.length(answer.sight_m)}`;
  if (line_N === null) return `none stops it ${within} from everywhere here at that speed: run slower`;
  const of = (force_N: number | null) => (force_N === null ? "none" : eyes.of(force_N, "force"));
  const fall = formatGradient(Math.abs(answer.steepest_descent_percent) / 100);
  const down = fall === "level" ? "" : `, ${of(descent_N)} down an endless ${fall}`;
  return `${of(line_N)} at the rail stops it ${within} from everywhere here; by the rule ${of(level_N)} on the level${down}`;
}

function brakedInWords({ braked_weight_wet_N: braked_N, train_weight_N }: SizeAnswer, { eyes }: OpenedSizing): string {
  if (braked_N === null) return "no weight is enough: run slower";
  const weight = eyes.of(train_weight_N, "force");
  return braked_N > train_weight_N
    ? `${eyes.of(braked_N, "force")} on braked wheels, and the whole train is ${weight}: run slower in the wet`
    : `${eyes.of(braked_N, "force")} on braked wheels, of the train's ${weight}`;
}

function adhesionInWords(answer: SizeAnswer, { eyes }: OpenedSizing): string {
  const newtons = (value_N: number) => eyes.of(value_N, "force");
  const does = (restarts: boolean) => (restarts ? "it restarts" : "it does NOT restart");
  return `carry ${newtons(answer.adhesive_weight_N)}; a restart on the steepest bit wants ${newtons(answer.adhesive_weight_restart_dry_N)} on dry rail (${does(answer.restarts_dry)}), ${newtons(answer.adhesive_weight_restart_wet_N)} on wet (${does(answer.restarts_wet)}); starting away as planned ${newtons(answer.adhesive_weight_starting_dry_N)} and ${newtons(answer.adhesive_weight_starting_wet_N)}`;
}

/** Figures, and under them the rules that begin so, where there are such. */
function ruled(lines: readonly Line[], answer: SizeAnswer, width: number): string[] {
  const rows = lines.flatMap(([what, amount, ...begin]) => [
    [what, amount],
    ...begin.flatMap((each) => (ruleOf(answer, each) === "" ? [] : [["", `Rule: ${ruleOf(answer, each)}.`]])),
  ]);
  return table(rows, { width });
}

/** The rule that begins so, without the name it begins with. */
function ruleOf({ rules }: SizeAnswer, begin: string): string {
  const named = rules.find((rule) => rule.startsWith(`${begin}: `))?.slice(begin.length + 2);
  return named ?? rules.find((rule) => rule.startsWith(`and ${begin} `))?.slice("and ".length) ?? "";
}
