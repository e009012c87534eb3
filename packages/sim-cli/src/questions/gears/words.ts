import { figures, formatGradient, type GearsAnswer, type GearsRow } from "@rideon/sim-core";
import { MPS_PER } from "../../charts/frame.js";
import { CAUTION } from "../../ground/caution.js";
import { capital } from "../../words/lists.js";
import { notes } from "../../words/notes.js";
import type { Told } from "../../words/ready.js";
import { setting, several } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { chainLines } from "./chains.js";
import { faultInWords, remarkInWords } from "./faults.js";

/** The best choice first, then the ranking, what is wrong with each, and the chains of the best. */
export function gearsInWords(told: Told<GearsAnswer>): readonly string[] {
  const { answer, half } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const [best] = answer.rows;
  const alike = half?.rows.find(({ teeth }) => String(teeth) === String(best?.teeth));
  return [
    ...wrapped(headline(told)).map((line) => painted(line, "bold", screen)),
    ...wrapped(`${setting(told)}.`),
    ...wrapped(fittedNow(told)),
    ...section(best && best.faults.length > 0 ? "Choices, the least bad first" : "Choices, best first", [
      ...choiceTable(told, inside),
      ...wrap(legend(told), inside),
    ]),
    ...section("What is wrong with them", faultLines(told, inside)),
    ...(best ? section(`Chains of the best, ${pairs(best)}`, chainLines(best.chains, told.eyes, inside)) : []),
    ...section(
      "To be known",
      answer.remarks.flatMap((remark) =>
        remark.code === "no_gearing_cures_grip" ? [] : wrap(sentence(remarkInWords(remark)), inside),
      ),
    ),
    "",
    ...notes({ ...told, answer: best ?? {}, half: half && (alike ?? {}) }).flatMap(wrapped),
    ...wrapped(CAUTION),
  ];
}

function headline({ answer, eyes }: Told<GearsAnswer>): string {
  const { rows, choices, simulated, remarks } = answer;
  const [best] = rows;
  if (!best) return "No way to gear down was found with these teeth.";
  const ways = `of ${several(choices, "way")} to gear down with these teeth, ${simulated} of them simulated`;
  const what = `${pairs(best)}, ${figures(best.ratio)} to 1: ${eyes.speed(best.speed_mps)} on the level, lever full open`;
  if (best.faults.length === 0) return `Best ${ways}: ${what}.`;
  const grip = remarks.find(({ code }) => code === "no_gearing_cures_grip");
  const least = `${ways}: ${what}, ${several(best.faults.length, "fault")}.`;
  return grip ? `${sentence(remarkInWords(grip))} The least bad ${least}` : `None will do; the least bad ${least}`;
}

/** `11/44 and 12/38`, driving and driven. */
const pairs = ({ teeth }: Pick<GearsRow, "teeth">): string => teeth.map((pair) => pair.join("/")).join(" and ");

function fittedNow({ plan, answer, eyes }: Told<GearsAnswer>): string {
  const { ratio, stages } = plan.train.gears;
  const faults = answer.own.faults.length;
  const now = stages.map((stage) => stage.teeth?.join("/") ?? `a gearbox of ${figures(stage.ratio)}`).join(" and ");
  const ruling = formatGradient(answer.ruling_gradient_compensated_percent / 100);
  return `Wanted: ${eyes.speed(answer.wanted_speed_mps)}, and a restart ${ruling === "level" ? "on the level" : `on ${ruling}, the worst here with its curves`}. The loco file has ${now}, ${figures(ratio)} to 1: ${eyes.speed(answer.own.speed_mps)} on the level, ${faults === 0 ? "with no fault" : several(faults, "fault")}.`;
}

function choiceTable({ answer, eyes }: Told<GearsAnswer>, width: number): string[] {
  const unit = eyes.style === "imperial" ? "mph" : "km/h";
  const rows = answer.rows.map((row, i) => [
    String(i + 1),
    row.teeth.map((pair) => pair.join("/")).join(" "),
    figures(row.ratio),
    figures(row.speed_mps / MPS_PER[unit]),
    row.restart_gradient_percent < 0 ? "down only" : formatGradient(row.restart_gradient_percent / 100),
    figures(row.motor_current_A),
    figures(row.rms_motor_current_A),
    figures(row.peak_winding_temperature_C),
    row.chain_margin === null ? "–" : figures(row.chain_margin),
    row.faults.length === 0 ? "none" : String(row.faults.length),
  ]);
  const head = ["", "teeth", "ratio", unit, "restart", "A", "A rms", "°C", "chain", "faults"];
  return table(rows, { width, head, right: [0, 2, 3, 4, 5, 6, 7, 8, 9] });
}

function legend({ answer, eyes }: Told<GearsAnswer>): string {
  return `Speed: on the level, lever full open. A: in the motor, on the level at the wanted speed; A rms: over the working, where ${eyes.of(answer.continuous_current_A, "current")} may last. °C: the winding at most. Chain: breaking load over the highest pull, at least 6.`;
}

/** A kind of fault is told once, by the best choice that has it; the gears of the loco file come last. */
function faultLines({ answer: { rows, own }, eyes }: Told<GearsAnswer>, width: number): string[] {
  const found = new Map<string, { numbers: number[]; messages: Set<string> }>();
  for (const [i, { faults }] of [...rows, own].entries())
    for (const fault of faults) {
      const { numbers, messages } = found.get(fault.code) ?? { numbers: [], messages: new Set() };
      const message = faultInWords(fault, eyes.exact);
      found.set(fault.code, { numbers: [...numbers, i + 1], messages: messages.add(message) });
    }
  const lines = [...found.values()].map(({ numbers, messages: [first = "", ...others] }) => {
    const choices = spans(numbers.filter((number) => number <= rows.length));
    const who = [choices, ...(numbers.includes(rows.length + 1) ? ["now"] : [])].filter((each) => each !== "");
    return [who.join(", "), others.length === 0 ? first : `${first}; likewise of the others`];
  });
  return table(lines, { width });
}

/** `1 to 3, 5` of 1, 2, 3, 5; each number once. */
function spans(numbers: readonly number[]): string {
  const runs: [from: number, to: number][] = [];
  for (const number of new Set(numbers)) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`)).join(", ");
}

const sentence = (text: string): string => `${capital(text)}.`;
