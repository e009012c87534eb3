import { join } from "node:path";
import { stringify } from "csv-stringify/sync";
import { jsonDocument } from "../../files/json.js";
import { CAUTION } from "../../ground/caution.js";
import { STATUS } from "../../ground/status.js";
import { version } from "../../ground/version.js";
import { UsageError } from "../../read/diagnostics.js";
import { sayWhenInterrupted } from "../../signals.js";
import { nextLines } from "../../words/next.js";
import { progressLine } from "../../words/progress.js";
import { print, tell, terminal, writeOut } from "../../words/terminal.js";
import { outputsOf } from "../../work/outputs.js";
import { partOf, type SweepFlags, sweepOf } from "./asked.js";
import { type Beside, besides } from "./beside.js";
import { documentOf, warningsOf } from "./document.js";
import { filesRead, fingerprintOf } from "./fingerprint.js";
import { find, MOST_KEPT, nothingFound, type SweepTold } from "./found.js";
import { gathered } from "./gather.js";
import { cellsOf, columnsOf, countOf, type Sweep } from "./grid.js";
import { sweepFigure } from "./map.svg.js";
import { mended } from "./mended.js";
import { sweepPage } from "./page.js";
import { mustHavePlaces, PAGE } from "./places.js";
import { eachCase } from "./pool.js";
import { headOf } from "./row.js";
import { columnsIn } from "./rows.js";
import { CHECK, sealed } from "./seal.js";
import { wantedOf } from "./wanted.js";
import { sweepInWords } from "./words.js";
import { type Head, openWritten, sweepFile, type Written } from "./written.js";

/** @returns the exit status @throws ReadError, UsageError, DiskError, RunError */
export async function swept(plan: string, flags: SweepFlags): Promise<number> {
  if (flags.svg === "-" && flags.json)
    throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  if (flags.svg !== undefined && flags.share)
    throw new UsageError("--svg: a share is no whole to be drawn; --gather draws it, with all shares");
  if (flags.gather) {
    // Told again what is varied, it knows the designs: the files of shares have the names of their files alone.
    const again = flags.beside || flags.cases || flags.vary ? await sweepOf(plan, flags) : undefined;
    const told = gathered(flags, again && fingerprintOf(again));
    drawn(told, flags, again ? await besides(again, flags.units) : []);
    if (!again && !flags.quiet && told.found.columns.varied.includes("loco")) tell([ASK_AGAIN]);
    return toldOf(told, flags, plan);
  }
  const sweep = await sweepOf(plan, flags);
  const count = countOf(sweep);
  const { from, to } = partOf(count, flags.share);
  if (flags.list) return listed(sweep, from, to);
  const columns = stringify([[...headOf(sweep), CHECK]]).trimEnd();
  const found = nothingFound(columnsIn(columns), wantedOf(columnsIn(columns), flags.best, flags.need ?? []));
  if (flags.share && flags.out === undefined)
    throw new UsageError("--share: a share goes into a file of its own; --out tells the folder");
  if (to - from > MOST_KEPT && flags.out === undefined)
    throw new UsageError(
      `these are ${to - from} cases: --out results writes them as they are done, and goes on where it was interrupted`,
    );
  const fingerprint = fingerprintOf(sweep);
  const head: Head = [remarkOf(fingerprint, count, flags.share), columns];
  const path = flags.out === undefined ? undefined : sweepFile(flags.out, flags.share);
  const reads = [...filesRead(sweep), ...(flags.cases === undefined ? [] : [flags.cases])];
  mustHavePlaces(flags, path, reads);
  const visit = (line: string) => find(found, line);
  const progress = progressLine(flags.quiet === true);
  const work = (range: { from: number; to: number }, take: (line: string) => void) =>
    eachCase(sweep, { ...range, workers: flags.workers }, (line) => take(sealed(line, fingerprint)), progress.show);
  let written: Written | undefined;
  try {
    if (path !== undefined) {
      await mended(path, head, { first: from, fingerprint }, work);
      written = openWritten(path, head, from, visit);
      if (!flags.quiet)
        sayWhenInterrupted(
          () =>
            `interrupted: ${found.rows} of ${to - from} cases stand in ${path}; the same command goes on from there`,
        );
    }
    await work({ from: from + (written?.done ?? 0), to }, (line) => {
      written?.add(line);
      visit(line.trimEnd());
    });
  } finally {
    sayWhenInterrupted(() => undefined);
    progress.clear();
    written?.close();
  }
  const told = { found, count: to - from, path, reads };
  if (flags.share) return toldOf(told, flags, plan);
  drawn(told, flags, flags.out === undefined ? [] : await besides(sweep, flags.units));
  return toldOf(told, flags, plan);
}

/** The picture, and the page beside the CSV. @throws UsageError where there is nothing to draw */
function drawn({ found, count, path, reads }: SweepTold, { svg, out }: SweepFlags, designs: readonly Beside[]): void {
  const wanted = { ...(out !== undefined && { out }), ...(svg !== undefined && { svg }) };
  const outputs = outputsOf(wanted, [...reads, ...(path === undefined ? [] : [path])], [PAGE]);
  outputs.write(PAGE, sweepPage(found, count, designs));
  const figure = svg === undefined ? undefined : sweepFigure(found);
  if (svg !== undefined && !figure)
    throw new UsageError(
      "--svg: a picture is of one or two keys that are varied, up to 1600 cases, of which some have the figure",
    );
  // It stands alone, with no page around it that says so.
  if (figure) outputs.draw([{ ...figure, see: `${figure.see} ${CAUTION}` }]);
  outputs.finish();
}

const ASK_AGAIN =
  "What each loco would take from the shop is not on the page: --gather with the plan and all options of the shares, --beside among them, has it.";

/** What a file of a sweep begins with, by which it is known again. */
export const remarkOf = (fingerprint: string, count: number, share: { k: number; of: number } | undefined): string =>
  `# rideon ${version()} sweep ${fingerprint}: ${count} cases${share ? `, share ${share.k} of ${share.of}` : ""}`;

/** The cases, a line each. */
function listed(sweep: Sweep, from: number, to: number): number {
  writeOut(stringify([["case", ...columnsOf(sweep)]]));
  for (let at = from; at < to; at += 1000)
    writeOut(
      stringify(
        Array.from({ length: Math.min(1000, to - at) }, (_, i) => [String(at + i + 1), ...cellsOf(sweep, at + i)]),
      ),
    );
  return STATUS.answered;
}

function toldOf({ found, count, path }: SweepTold, flags: SweepFlags, plan: string): number {
  if (flags.json)
    writeOut(
      jsonDocument(
        { command: "sweep", warnings: warningsOf(found), assumed: [], step_s: null, step_error: null },
        documentOf(found, count),
      ),
    );
  else if (flags.svg !== "-")
    print([
      ...sweepInWords(found, count, path),
      ...(flags.quiet || flags.gather ? [] : ["", ...nextLines("sweep", plan, {}, terminal().columns)]),
    ]);
  if (path !== undefined && !flags.quiet)
    tell([`written: ${path}${flags.share ? "" : `, ${join(flags.out ?? "", PAGE)}`}`]);
  return STATUS.answered;
}
