import { type CommandOption, named, OptionError, SHEET_OPTIONS, wholeFrom } from "../../work/options.js";
import type { Question } from "../../work/question.js";

/** What a book may miss by: `24` or `24 km`, millimetres times √km; `5 n`, times the square root of the set-ups. */
function classIn(text: string): { class_mm: number; per: "km" | "setups" } {
  const [, number = "", per = "km"] = /^\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*√?\s*(km|n)?\s*$/i.exec(text) ?? [];
  const class_mm = Number(number);
  if (number !== "" && class_mm > 0 && class_mm <= 1000)
    return { class_mm, per: per.toLowerCase() === "n" ? "setups" : "km" };
  throw new OptionError('it is millimetres to the root of a kilometre or of a set-up: 24, "12 km" or "5 n"');
}

const OPTIONS: readonly CommandOption[] = [
  {
    flags: "--class <MM>",
    about: 'misclosure allowed: 24, in mm √km (default), or "5 n", in mm √set-ups',
    parse: classIn,
  },
  {
    flags: "--adjust <HOW>",
    about: "spread the misclosure by distance or by setups, or none (default: by distance where it is allowed)",
    choices: ["distance", "setups", "none"],
  },
  {
    flags: "--reading <MM>",
    about:
      "how far off a reading of the staff may be, nineteen in twenty, in mm (default: 2); of a receiver the difference of two heights (default: 3000)",
    parse: wholeFrom(1, 20_000, "2"),
  },
  { flags: "--out <FOLDER>", about: "write track.csv, which every command takes, and answer.json", parse: named },
  { flags: "--svg <FILE>", about: "write the picture alone into this file, or - for standard output", parse: named },
  ...SHEET_OPTIONS,
];

/** A survey's book made into a profile. */
export const levels: Question = {
  name: "levels",
  about: "reduce a levelling book, water tube, inclinometer or GPX track to a profile, with the checks of surveyors",
  inFull:
    "a levelling book reduced to a profile that every command takes, with its arithmetic checks, what it misses its bench mark by, and how sure each level and gradient is (`--adjust`, `--class`); readings of a water tube or an inclinometer too, and a receiver's GPX 1.1 track, told for how poor its heights are",
  example: "rideon levels book.csv --out survey",
  argument: { name: "book", about: "the book's file or GPX 1.1 track, or - for standard input", usual: "book.csv" },
  sheet: {
    columns: [
      ["distance_m", "along the rail; _ft, _yd; blank where the staff stood beside it"],
      ["backsight_m", "first reading of a set-up; readings also _mm, _cm, _ft, _in"],
      ["intermediate_m", "reading of a place from which none is sighted"],
      ["foresight_m", "last reading of a set-up; a change point has both"],
      ["known_level_m", "of bench marks: the first place, and the last to close on"],
      ["tube_back_mm", "water tube: water above the rail at the place before"],
      ["tube_ahead_mm", "and here"],
      ["slope_percent", "inclinometer: rise from here to the next place; slope_degrees"],
      ["place", "its name"],
    ],
    example: [
      "distance_m,backsight_m,intermediate_m,foresight_m,known_level_m,place",
      "0,1.412,,,0,Wharf Lane",
      "24,,1.412,,,",
    ],
  },
  options: OPTIONS,
  answer: async (path, flags) => (await import("./answer.js")).reduced(path, flags),
};
