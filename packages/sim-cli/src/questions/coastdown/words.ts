import { type CoastDoubts, type CoastdownAnswer, figures, formatGradient } from "@rideon/sim-core";
import { several } from "../../words/setting.js";
import { wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { withDoubt } from "../../work/into.js";
import { type ToPaste, toPaste } from "../../work/paste.js";

/** The plan's train that was let coast. */
export interface Aboard {
  mass_kg: number;
  passengers: number;
}

interface CoastTold extends CoastdownAnswer {
  mesh: "in" | "out";
  /** Null where no plan was told. */
  aboard: Aboard | null;
  /** Was it told what turns, or is that assumed? */
  turning: boolean;
}

/** Rolling resistance first, what the runs can tell and what they cannot, and the lines to paste. */
export function coastInWords(answer: CoastTold, lines: ToPaste): string[] {
  const screen = terminal();
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...notes(answer).flatMap(wrapped),
    ...toPaste(lines, screen.columns),
  ];
}

function headline({
  fitted: [rolling],
  unfit,
  retardation_mps2,
  runs,
  both_ways,
  profiled,
  aboard,
  mesh,
}: CoastTold): string {
  const from = `${runs} run${runs === 1 ? "" : "s"}`;
  if (!both_ways)
    return `It loses ${figures(retardation_mps2)} m/s every second, from ${from} one way alone: that is rolling and the gradient together, and neither by itself. Let it coast back over the same line.`;
  if (!rolling) return `These ${from} do not fit together, and tell no rolling resistance. ${UNFIT[unfit ?? "ways"]}`;
  if (rolling.value > 0) return `Rolling resistance ${withDoubt(rolling)}, from ${from}.`;
  return aboard !== null && mesh === "in"
    ? "It was slowed by less than the plan's drive alone would: the motor was out of mesh, or it drags less than the plan has it. That tells no rolling resistance."
    : profiled
      ? "Both ways together, with the profile counted, it was not slowed at all: the runs began elsewhere, chainages grow the other way than the first row's direction, or it was driven or pushed. That tells no rolling resistance."
      : "Both ways together it was not slowed at all: it was driven or pushed, or ran downhill both ways over two places. That tells no rolling resistance.";
}

const UNFIT = {
  air: "What grows with speed is not the air of the plan, by more than both leave open: the line is not as the profile has it or the runs began elsewhere, it was windy, or the plan's drag area is wrong.",
  ways: "The two ways differ by more than a slope can: what slows one grows with speed, and the other's does not. It was windy, the line bends under the runs, or out and back ran over two places. Let it coast over one even stretch both ways on a calm day, or tell --plan and from_m.",
} as const;

function notes(answer: CoastTold): string[] {
  const { both_ways, air_told, air_pm, retardation_mps2, mesh, fitted } = answer;
  if (!both_ways || (fitted[0] && fitted[0].value <= 0)) return [];
  const air = air_told
    ? `It rises with speed, to ${figures(retardation_mps2 + 4 * air_pm)} m/s every second at 2 m/s: that is taken for air, and the figure is what is left without it.`
    : "The runs cannot tell a rise with speed from none: the air is in the figure. Begin faster to tell.";
  const meshed =
    mesh === "in"
      ? [
          "The motor was in mesh: its drag and the chains', as the plan has them, are taken off, and are in doubt by a quarter.",
        ]
      : [];
  return [lineInWords(answer), ...(fitted.length > 0 ? [spreadInWords(answer), air] : []), ...meshed, counted(answer)];
}

function lineInWords({ gradient_percent, profiled, aboard }: CoastTold): string {
  const percent = gradient_percent ?? 0;
  const level = Math.abs(percent) < 0.005;
  const steep = formatGradient(Math.abs(percent) / 100);
  if (profiled)
    return `With the profile counted, the first direction as chainages grow, wind and survey leave ${level ? "nothing" : `${steep}, ${percent > 0 ? "against" : "with"} the first direction`}.`;
  const slope = level
    ? "The line is level there"
    : `The line ${percent > 0 ? "rises" : "falls"} ${steep} there in the first direction`;
  const even =
    aboard === null
      ? "It is taken for granted that its slope is even and that both ways ran over the same stretch: what both ways rise is in the figure, and nothing here would show it. --plan with a column from_m counts the line."
      : "By the plan it is even.";
  return `${slope}, with the wind counted in. ${even}`;
}

/** What is counted, and where what is counted comes from. */
const PARTS: Record<keyof CoastDoubts, string> = {
  pairs: "for how unlike pairs of runs are",
  turning: "for what turns",
  instrument: "for speedometer, or tape and watch",
  slope: "for the slope",
  air: "for air and a light wind",
  drag: "for the drive's drag",
};

function spreadInWords({ doubts, pairs }: CoastTold): string {
  if (doubts === null) return "";
  const parts = Object.entries(doubts) as [keyof CoastDoubts, number][];
  const told = parts.flatMap(([name, value]) =>
    name === "pairs" || value >= 5e-5 ? [`${Number(value.toPrecision(1))} ${PARTS[name]}`] : [],
  );
  const one =
    pairs === 1
      ? " One pair tells nothing of how unlike the next would be, so a fifth is taken. Three pairs more would tell."
      : "";
  return `Nineteen in twenty lie within: ${told.join(", ")}, together as their root sum of squares. The first is read off these runs; the others are common practice, no source.${one}`;
}

/** What it was counted with, which whoever let it coast knows better. */
function counted({ aboard, rotating, turning }: CoastTold): string {
  const turns = `It is taken to be as hard to slow as ${figures(rotating)} times its mass, for what turns with its wheels`;
  if (!aboard) return `${turns} (${turning ? "as told" : "which is assumed: --rotating or --plan tells it"}).`;
  const { mass_kg, passengers } = aboard;
  return `${turns}, as the plan's train of ${figures(mass_kg)} kg with ${passengers === 0 ? "nobody but the driver" : several(passengers, "passenger")} aboard is. If it coasted with other people or cars, use a plan that has them.`;
}
