import { type CoastdownAnswer, figures, formatGradient } from "@rideon/sim-core";
import type { Put } from "../../read/index.js";
import { section, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type PutIn, pasted, withDoubt } from "../../work/into.js";

/** Rolling resistance first, what the runs can tell and what they cannot, and the lines to paste. */
export function coastInWords(answer: CoastdownAnswer, puts: readonly Put[], put: PutIn | undefined): string[] {
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
  return `Rolling resistance ${withDoubt(rolling)}, from ${from}.`;
}

function notes({ fitted, gradient_percent, pairs, air_told, air_pm, retardation_mps2 }: CoastdownAnswer): string[] {
  if (fitted.length === 0 || gradient_percent === null) return [];
  const slope =
    Math.abs(gradient_percent) < 0.005
      ? "The line is level there"
      : `The line lies at ${formatGradient(Math.abs(gradient_percent) / 100)} there, ${gradient_percent > 0 ? "up" : "down"} in the first direction`;
  const spread =
    pairs > 1
      ? `Nineteen in twenty lie within, by how unlike the ${pairs} pairs of runs are: readings of one run follow one another, and would flatter.`
      : "One pair tells nothing of how unlike the next would be, so a fifth is taken (common practice, no source). Three pairs more would tell.";
  const air = air_told
    ? `It rises with speed, to ${figures(retardation_mps2 + 4 * air_pm)} m/s every second at 2 m/s: that is air, and the figure is what is left without it.`
    : "The runs cannot tell a rise with speed from none: the air is in the figure. Begin faster to tell.";
  return [`${slope}, wind counted in.`, spread, air];
}
