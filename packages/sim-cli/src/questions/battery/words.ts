import { type BatteryReadingsAnswer, type Fitted, figures, formatPercent } from "@rideon/sim-core";
import type { Put } from "../../read/index.js";
import { capital, listed } from "../../words/lists.js";
import type { Opened } from "../../words/ready.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type PutIn, pasted } from "../../work/into.js";

interface BatteryTold extends Opened {
  answer: BatteryReadingsAnswer;
  puts: { loco: readonly Put[]; plan: readonly Put[] };
  put: PutIn | undefined;
}

/** What the readings tell, first in a sentence; what each hangs on; and the lines to paste. */
export function batteryInWords(told: BatteryTold): string[] {
  const { answer, puts, put } = told;
  const screen = terminal();
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...(answer.fitted.length > 0
      ? section(
          "Nineteen in twenty lie within",
          table(answer.fitted.map(rowOf), {
            width: screen.columns - 2,
            head: ["", "measured", "from", "to"],
            right: [1, 2, 3],
          }),
        )
      : []),
    ...section(
      "What they hang on",
      notes(told).flatMap((text) => wrap(text, screen.columns - 2)),
    ),
    ...(puts.loco.length > 0 && !put ? section("To paste into the loco file", pasted(puts.loco)) : []),
    ...(puts.plan.length > 0 && !put
      ? section("To paste into the plan file, for the day it was read", pasted(puts.plan))
      : []),
    ...(put ? section(`Changed in ${put.path}`, put.shown) : []),
  ];
}

/** The health that a file may have at most. */
const BEST = 1.2;

const CALLED: Record<string, string> = {
  "plan.charge": "state of charge",
  "loco.battery.each.resistance": "resistance of one battery",
  "loco.battery.health": "health",
};

const valueTold = ({ unit }: Fitted, value: number): string =>
  unit === "ohm" ? `${Number((1000 * value).toPrecision(2))} mohm` : formatPercent(Math.round(100 * value) / 100);

const rowOf = (each: Fitted): string[] => [
  CALLED[each.path] ?? each.path,
  // Its ends are what the volts leave open, and its middle is no figure to go by.
  each.path === "plan.charge" && !isTold(each) ? "not told" : valueTold(each, each.value),
  valueTold(each, each.low),
  valueTold(each, each.high),
];

function headline({ fitted, below_empty, above_full }: BatteryReadingsAnswer): string {
  const of = (path: string) => fitted.find((each) => each.path === path);
  const [charge, resistance, health] = Object.keys(CALLED).map(of);
  const told = [
    charge
      ? isTold(charge)
        ? `the battery is ${valueTold(charge, charge.value)} full`
        : "the volts do not tell how full the battery is"
      : "",
    health
      ? health.value > BEST
        ? `the ampere-hours would be ${valueTold(health, health.value)} of its label's charge, which no battery has`
        : `it has ${valueTold(health, health.value)} of its label's charge left`
      : "",
    resistance ? `each battery has ${valueTold(resistance, resistance.value)}` : "",
  ].filter((text) => text !== "");
  if (told.length === 0 && below_empty)
    return "The rested volts are below those of an empty battery, and tell no charge.";
  if (told.length === 0 && above_full) return "The rested volts are above those of a full battery, and tell no charge.";
  if (told.length === 0) return "These readings tell nothing of the battery yet.";
  return `${capital(listed(told))}.`;
}

/** A charge that is told no better than this by volts is told by nothing much. */
const WIDE = 0.4;
export const isTold = ({ low, high }: Fitted): boolean => high - low <= WIDE;

function notes({ answer, plan, eyes }: BatteryTold): string[] {
  const { fitted, above_full, below_empty, from_rest, loads, rms, taken_C, sound_C } = answer;
  const charge = fitted.find(({ path }) => path === "plan.charge");
  const health = fitted.find(({ path }) => path === "loco.battery.health");
  const { battery } = plan.train;
  const volts = (value: number) => eyes.of(value, "voltage");
  return [
    above_full && !charge
      ? `Charge: ${volts(answer.rested_V ?? 0)} is above what any charge rests at: it was charged not long ago, or the table is another battery's. Read it again after some hours with everything off.`
      : below_empty && !charge
        ? `Charge: ${volts(answer.rested_V ?? 0)} is below what an empty one rests at: it was drained beyond its cut-out, a cell of it is bad, or the table is another battery's.`
        : charge
          ? `Charge: ${volts(answer.rested_V ?? 0)} rested, by the table of rested volts. It holds after some hours with everything off; soon after charging or a run it does not.`
          : "Charge: read the whole battery's volts after some hours with everything off, as a row rested.",
    above_full && charge
      ? "The rested volts are above those of a full battery: it was charged not long ago, or the table is another battery's."
      : "",
    charge && !isTold(charge)
      ? battery.chemistry === "lifepo4"
        ? "Between a third and nine tenths the volts of lithium iron phosphate hardly move: they do not tell its charge. Count ampere-hours from full instead."
        : "The volts tell its charge poorly here. Count ampere-hours from full instead."
      : "",
    loads === 1 && above_full
      ? "Resistance: these rested volts are those of a battery off its charger, and make a load look harder than it is. Read it under two loads, or rested for some hours."
      : loads === 0
        ? "Resistance: read volts and amps at two loads, one at least twice the other, as rows load."
        : loads === 1 && !from_rest
          ? "Resistance: one load alone tells none. Read volts and amps at a second, of at least twice or half its amps, or the volts rested before."
          : from_rest
            ? "Resistance: from one load and the rested volts, so that what sags slowly is in it. A second load would part them."
            : `Resistance: from ${loads} loads${loads > 2 ? `, ${figures(1000 * rms)} mV off a straight line (rms)` : ""}, taken to 25 °C from ${airTold(plan, eyes)}. Read within some seconds of each other: what sags over minutes would be counted in.`,
    taken_C === null
      ? "Health: count the ampere-hours of a run from full to the cut-out, as a row emptied with the amps in the mean."
      : `Health: ${figures(taken_C / 3600)} Ah were taken, and one that is as its label says would have given ${figures((sound_C ?? 0) / 3600)} Ah from full to there. It must have been charged full before.`,
    health && health.value > BEST
      ? "Health: no battery gives so much more than its label. Is the label that of the plan, and were the ampere-hours counted from one full charge? It is not put into a file."
      : "",
    ...surer(answer, plan),
  ].filter((text) => text !== "");
}

const airTold = ({ air_degC, notes: { assumed } }: Opened["plan"], eyes: Opened["eyes"]): string =>
  `${eyes.of(air_degC, "temperature")}, ${assumed.some(({ key }) => key === "plan.air_temperature") ? "which is assumed: the plan tells no air_temperature" : "the plan's air"}`;

/** What the files leave out, and these readings hang on. */
function surer(
  { fitted, taken_C, resistance_ohm, end_told }: BatteryReadingsAnswer,
  { notes: { assumed } }: Opened["plan"],
): string[] {
  const assumes = (path: string) => assumed.some(({ key }) => key === path);
  const missing = [
    fitted.some(({ path }) => path === "plan.charge") && assumes("loco.battery.each.rested_voltage")
      ? "its maker's own table of rested volts (rested_voltage)"
      : "",
    (taken_C !== null || resistance_ohm !== null) && assumes("plan.air_temperature")
      ? "how warm it was (the plan's air_temperature)"
      : "",
    taken_C !== null && !end_told && assumes("loco.controller.undervoltage_cutout")
      ? "the volts at the end of the run, beside emptied, or the controller's undervoltage_cutout"
      : "",
  ].filter((text) => text !== "");
  if (missing.length === 0) return [];
  return [`Surer with what the files do not give: ${missing.join("; ")}.`];
}
