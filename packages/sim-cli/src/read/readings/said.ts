import type { Tell } from "../csv/csv.js";
import { addProblem, type Diagnostic } from "../diagnostics.js";
import { filledIn, type Known, knownOf, type ReadSheet } from "./rows.js";
import type { UnitWords } from "./units.js";

/**
 * Reads rows said on the command line, `rest_volts=25.0 V`, or what was seen from the seat, `does not move`; several in one
 * are parted by semicolons.
 * @returns as `readReadings` does
 */
export function saidReadings(
  said: readonly string[],
  sheet: readonly { readonly readings: readonly Known[] }[],
  problems: Diagnostic[],
  units?: UnitWords,
): ReadSheet | undefined {
  const before = problems.length;
  const known = knownOf(sheet);
  const rows = said
    .flatMap((each) => each.split(";"))
    .map((text) => text.trim())
    .filter((text) => text !== "");
  const tell: Tell = (row, message) => addProblem(problems, { file: `--saw ${rows[row - 1]}`, message });
  const filled = filledIn(
    rows.map((text, i) => ({ line: i + 1, cells: seen(text) ?? parted(text), between: "," as const })),
    { reading: 0, value: 1 },
    known,
    tell,
    units,
  );
  if (rows.length === 0) addProblem(problems, { file: "--saw", message: `nothing is said; ${SAY}` });
  return problems.length > before ? undefined : filled;
}

const SAY = `say what was seen, such as "does not move", or a row of the sheet, such as "rest_volts=25.0 V"`;

/** What is seen from the seat, as people say it, and the row that it fills. */
const SEEN: readonly (readonly [said: RegExp, reading: string, value: string])[] = [
  [
    /^(it )?(does not|did not|doesn't|didn't|will not|won't) (move|go)( at all)?$|^nothing( happens| happened)?$/,
    "moves",
    "no",
  ],
  [/^(the )?(wheels )?(do not|does not|did not|don't|doesn't|didn't) turn( at all)?$/, "stands_turn", "no"],
  [/^(it )?(goes|went|runs|ran|moves|moved) backwards$/, "run_forwards", "no"],
  [/^(it )?(moves|moved|goes|went|runs|ran)( forwards)?$/, "moves", "yes"],
  [/^(it )?(does not|did not|doesn't|didn't|will not|won't) (restart|start again)$/, "restarts", "no"],
  [/^(the )?(wheels )?(spin|spun)$/, "restart_spins", "yes"],
  [/^(the )?motor turns( and)?( the)? wheels (stand|do not)$/, "run_slips", "yes"],
  [/^(it |the controller )?(cuts|cut|shuts|shut)( itself)? (out|off)$/, "restart_cuts_out", "yes"],
];

function seen(text: string): string[] | undefined {
  const plain = text.toLowerCase().replace(/[.!]$/, "");
  const found = SEEN.find(([said]) => said.test(plain));
  return found && [found[1], found[2]];
}

/** `rest_volts=25.0 V`, or with a comma, a colon or a blank between. */
function parted(text: string): string[] {
  const [, name, value] = /^([\w.]+)\s*[=,:\s]\s*(.+)$/.exec(text) ?? [];
  return name && value ? [name, value] : [text, ""];
}
