import { usualStep_s } from "@rideon/sim-core";
import type { GearsFlags, RunFlags } from "../options.js";
import { type Answers, type Job, type Simulated, type Study, simulate } from "../simulate.js";
import { difference } from "../step-error.js";
import { csvText, EVENT_COLUMNS } from "../write/csv.js";
import { wholeFiles } from "../write/files.js";
import { jsonDocument } from "../write/json.js";
import { progressLine } from "../write/progress.js";
import { print, tell } from "../write/terminal.js";
import { endWith, type Opened, openPlan } from "./opened.js";

/** What a simulating command has in hand when it puts its answer into words. */
export interface Told<S extends Study> extends Opened, Simulated<S> {
  step_s: number;
  /** The answer at half the step, where `--check-step` asked for it. */
  half: Answers[S] | undefined;
  quiet: boolean;
}

/** One that draws needs rows close together; one that only shows progress does not; one that tries many keeps none. */
const TRACE_s = 0.5;
const NO_TRACE_s = { run: TRACE_s, laps: 60, gears: Number.POSITIVE_INFINITY } as const;

/** Reads, runs, writes the files asked for, and prints: what `run`, `laps` and `gears` have in common. */
export async function simulated<S extends Study>(
  study: S,
  path: string,
  flags: RunFlags & GearsFlags,
  inWords: (told: Told<S>) => readonly string[],
): Promise<number> {
  const opened = openPlan(path, flags);
  const files = flags.out === undefined ? undefined : wholeFiles(flags.out);
  const { plan, loco, track, tables } = opened.reading;
  const one = study !== "gears";
  const every_s = one && (files || study === "run") ? (flags.every ?? TRACE_s) : NO_TRACE_s[study];
  const job: Job<S> = { study, plan, loco, track, tables, teeth: flags.teeth, step_s: flags.step, every_s };
  const trace = one && files ? { file: files.open("trace.csv"), path: `${flags.out}/trace.csv` } : undefined;
  const step_s = flags.step ?? usualStep_s(opened.plan);
  const progress = progressLine(flags.quiet === true);
  if (!one) progress.say("trying sprockets");
  const [whole, half] = await Promise.all([
    simulate({ ...job, trace }, progress.show),
    flags.checkStep ? simulate({ ...job, step_s: step_s / 2 }, () => {}) : undefined,
  ]).finally(progress.clear);
  const { answer } = whole;
  const document = jsonDocument(
    {
      command: study,
      warnings: opened.warnings,
      assumed: opened.plan.notes.assumed,
      step_s,
      step_error: half ? difference(answer, half.answer) : null,
    },
    answer,
  );
  if (files) {
    if ("events" in answer) files.write("events.csv", csvText([EVENT_COLUMNS, ...answer.events.map(eventRow)]));
    files.write("answer.json", document);
  }
  const written = files?.finish() ?? [];
  if (flags.json) process.stdout.write(document);
  else print(inWords({ ...opened, ...whole, step_s, half: half?.answer, quiet: flags.quiet === true }));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(opened, flags);
}

const eventRow = (event: Record<(typeof EVENT_COLUMNS)[number], unknown>): unknown[] =>
  EVENT_COLUMNS.map((column) => event[column]);
