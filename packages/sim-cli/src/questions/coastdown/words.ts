import { type CoastdownAnswer, figures, formatGradient } from "@rideon/sim-core";
import type { Put } from "../../read/index.js";
import { several } from "../../words/setting.js";
import { section, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type PutIn, pasted, withDoubt } from "../../work/into.js";

/** The plan's train that was let coast. */
export interface Aboard {
  mass_kg: number;
  passengers: number;
}

interface CoastTold extends CoastdownAnswer {
  mesh: "in" | "out";
  profiled: boolean;
  /** Null where no plan was told. */
  aboard: Aboard | null;
  /** Was it told what turns, or is that assumed? */
  turning: boolean;
}

/** Rolling resistance first, what the runs can tell and what they cannot, and the lines to paste. */
export function coastInWords(answer: CoastTold, puts: readonly Put[], put: PutIn | undefined): string[] {
  const screen = terminal();
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...notes(answer).flatMap(wrapped),
    ...(puts.length > 0 && !put ? section("To paste into the loco file", pasted(puts)) : []),
    ...(put ? section(`Changed in ${put.path}`, put.shown) : []),
  ];
}

function headline({ fitted: [rolling], retardation_mps2, runs }: CoastdownAnswer): string {
  const from = `${runs} run${runs === 1 ? "" : "s"}`;
  if (!rolling)
    return `It loses ${figures(retardation_mps2)} m/s every second, from ${from} one way alone: that is rolling and the gradient together, and neither by itself. Let it coast back over the same line.`;
  if (rolling.value <= 0)
    return "It was slowed by less than the plan's drive alone would: the motor was out of mesh, or it drags less than the plan has it. That tells no rolling resistance.";
  return `Rolling resistance ${withDoubt(rolling)}, from ${from}.`;
}

function notes(answer: CoastTold): string[] {
  const { fitted, gradient_percent, pairs, air_told, air_pm, retardation_mps2, mesh, profiled } = answer;
  if (fitted.length === 0 || gradient_percent === null) return [];
  const slope =
    Math.abs(gradient_percent) < 0.005
      ? "The line is level there"
      : `The line ${gradient_percent > 0 ? "rises" : "falls"} ${formatGradient(Math.abs(gradient_percent) / 100)} there in the first direction`;
  const spread =
    pairs > 1
      ? `Nineteen in twenty lie within, by how unlike the ${pairs} pairs of runs are: readings of one run follow one another, and would flatter.`
      : "One pair tells nothing of how unlike the next would be, so a fifth is taken (common practice, no source). Three pairs more would tell.";
  const air = air_told
    ? `It rises with speed, to ${figures(retardation_mps2 + 4 * air_pm)} m/s every second at 2 m/s: that is air, and the figure is what is left without it.`
    : "The runs cannot tell a rise with speed from none: the air is in the figure. Begin faster to tell.";
  const line = profiled
    ? `With the profile counted, wind and survey leave ${Math.abs(gradient_percent) < 0.005 ? "nothing" : `${formatGradient(Math.abs(gradient_percent) / 100)}, ${gradient_percent > 0 ? "against" : "with"} the first direction`}.`
    : `${slope}, with the wind counted in.`;
  const meshed =
    mesh === "in"
      ? [
          "The motor was in mesh: its drag and the chains', as the plan has them, are taken off, and are in doubt by a quarter.",
        ]
      : [];
  return [line, spread, air, ...meshed, counted(answer)];
}

/** What it was counted with, which whoever let it coast knows better. */
function counted({ aboard, rotating, turning }: CoastTold): string {
  const turns = `It is taken to be as hard to slow as ${figures(rotating)} times its mass, for what turns with its wheels`;
  if (!aboard) return `${turns} (${turning ? "as told" : "which is assumed: --rotating or --plan tells it"}).`;
  const { mass_kg, passengers } = aboard;
  return `${turns}, as the plan's train of ${figures(mass_kg)} kg with ${passengers === 0 ? "nobody but the driver" : several(passengers, "passenger")} aboard is. If it coasted with other people or cars, use a plan that has them.`;
}
