import { figures, formatGradient, type PullAnswer } from "@rideon/sim-core";
import { capital } from "../../words/lists.js";
import { several } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { withDoubt } from "../../work/into.js";
import { type ToPaste, toPaste } from "../../work/paste.js";

const CALLED: Record<string, string> = {
  "loco.resistance.rolling": "rolling resistance",
  "loco.resistance.breakaway": "to start",
};

/** The answer, and what it was asked with. */
interface PullTold extends PullAnswer {
  mass_kg: number;
  mesh: "in" | "out";
  /** Was the drive's drag taken off, as a plan has it? */
  counted: boolean;
  /** Aboard in the plan whose train was pulled; null where its mass was told, or it was the loco alone. */
  passengers: number | null;
}

/** May it go into a file: is there rolling to tell, and nothing in it that the sums count besides? */
export const tells = ({ fitted, mesh, counted }: PullTold): boolean =>
  fitted.every(({ value }) => value > 0) && (mesh === "out" || counted);

/** What it takes to roll first, how it was read, and the lines to paste. */
export function pullInWords(answer: PullTold, lines: ToPaste): string[] {
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const rows = answer.ways.map(({ direction, steady_N, starting_N, pulls }) => [
    direction,
    String(pulls),
    steady_N === null ? "" : `${figures(steady_N)} N`,
    starting_N === null ? "" : `${figures(starting_N)} N`,
  ]);
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...wrapped(notes(answer)),
    ...section(
      "As read, in the mean",
      table(rows, { width: inside, head: ["way", "pulls", "steady", "to start"], right: [1, 2, 3] }),
    ),
    ...toPaste(lines, screen.columns),
  ];
}

function headline({ fitted, rolling_N, mass_kg }: PullTold): string {
  const told = fitted.map((each) => `${CALLED[each.path] ?? each.path} ${withDoubt(each)}`);
  if (told.length === 0)
    return "Pulled one way alone: that tells rolling and the gradient together, and neither by itself. Pull it back over the same place.";
  if (fitted.some(({ value }) => value <= 0))
    return "Less was pulled than the plan's drive alone would take: the motor was out of mesh, or it drags less than the plan has it. That tells no rolling resistance.";
  const force = rolling_N === null ? "" : `: ${figures(rolling_N)} N for ${figures(mass_kg)} kg`;
  const text = `${told.join(", ")}${force}.`;
  return capital(text);
}

function notes({ gradient_percent, mesh, fitted, ways, counted, drag_N, passengers, mass_kg }: PullTold): string {
  const [first] = ways;
  const slope =
    gradient_percent === null
      ? ""
      : Math.abs(gradient_percent) < 0.005
        ? "The place is level. "
        : `The place ${gradient_percent > 0 ? "rises" : "falls"} ${formatGradient(Math.abs(gradient_percent) / 100)} going ${first?.direction ?? ""}. `;
  const doubt =
    fitted.length === 0
      ? ""
      : ways.every(({ pulls }) => pulls === 1)
        ? "Nineteen in twenty lie within: one pull each way tells nothing of how unlike the next would be, so that a tenth of a pull is taken, and a balance that is good to 3 % (common practice, no source). Three pulls each way would tell. "
        : "Nineteen in twenty lie within: by the spread of the pulls, and a balance that is good to 3 %. ";
  const meshed =
    mesh === "in" && counted
      ? `The motor was in mesh: ${figures(drag_N)} N for its drag and the chains', as the plan has them, are taken off, and are in doubt by a quarter.`
      : mesh === "in"
        ? "The motor was in mesh: its drag and the chains' are in these figures, and the sums count them once more. Take the chain off, tell --plan, or take these for an upper end."
        : "The motor was out of mesh: bearings and wheels alone.";
  const aboard =
    passengers === null
      ? ""
      : ` The mass is that of the plan's train, ${figures(mass_kg)} kg with ${passengers === 0 ? "nobody but the driver" : several(passengers, "passenger")} aboard: if it was pulled otherwise, tell --mass, or --of loco.`;
  return `${slope}${doubt}${meshed}${aboard}`;
}
