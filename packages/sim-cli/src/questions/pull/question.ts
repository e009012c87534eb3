import { quantity, UnitError } from "@rideon/sim-core";
import { type CommandOption, INTO_OPTION, MESH_OPTIONS, OptionError, SHEET_OPTIONS } from "../../work/options.js";
import type { Question } from "../../work/question.js";

function massIn(text: string): number {
  try {
    return quantity(text, "mass", "800 kg");
  } catch (error) {
    throw error instanceof UnitError ? new OptionError(error.message) : error;
  }
}

const OPTIONS: readonly CommandOption[] = [
  {
    flags: "--mass <MASS>",
    about: 'of what was pulled, with all that sat on it: "800 kg" (default: as --plan has it)',
    parse: massIn,
  },
  {
    flags: "--of <WHAT>",
    about:
      "what of the plan's train was pulled: train, as the plan has it aboard (default), or loco, with nobody on it",
    choices: ["train", "loco"],
  },
  ...MESH_OPTIONS,
  INTO_OPTION,
  ...SHEET_OPTIONS,
];

/** Rolling resistance by spring balance. */
export const pull: Question = {
  name: "pull",
  about: "rolling resistance and the pull to start, with their doubt, from pulls by spring balance both ways",
  inFull:
    'rolling resistance and the pull to start, with their doubt, from pulls by spring balance both ways over one place (`--mass "800 kg"`), and the gradient there; `--into loco.yaml` puts them into the file',
  example: 'rideon pull pulls.csv --mass "381 kg"',
  argument: { name: "pulls", about: "the readings, a CSV, or - for standard input", usual: "pulls.csv" },
  sheet: {
    columns: [
      ["direction", "out or back, over the same place"],
      ["steady_N", "what the balance reads while it rolls steadily; _kgf, _lbf"],
      ["starting_N", "what it reads as it begins to move; _kgf, _lbf"],
      ["note", "anything"],
    ],
    example: ["direction,steady_kgf,starting_kgf", "out,1.5,3.4", "back,4.6,6.4"],
  },
  options: OPTIONS,
  answer: async (path, flags) => (await import("./answer.js")).pulled(path, flags),
};
