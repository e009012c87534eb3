import { brakesStep_s, usualStep_s } from "@rideon/sim-core";
import { csvText, EVENT_COLUMNS } from "../files/csv.js";
import { jsonDocument } from "../files/json.js";
import { outputsOf } from "../files/outputs.js";
import { difference } from "../ground/step-error.js";
import { progressLine } from "../words/progress.js";
import { print, tell, writeOut } from "../words/terminal.js";
import { figuresOf, mindStdout, type SvgFlags } from "./drawn.js";
import { endWith, type Opened, openPlan } from "./opened.js";
import type { BrakesFlags, GearsFlags, RunFlags } from "./options.js";
import { type Answers, type Job, type Simulated, type Study, simulate } from "./simulate.js";

/** What a simulating command has in hand when it puts its answer into words. */
export interface Told<S extends Study> extends Opened, Simulated<S> {
  step_s: number;
  /** The answer at half the step, where `--check-step` asked for it. */
  half: Answers[S] | undefined;
  quiet: boolean;
}

/** One that draws needs rows close together; one that only shows progress does not. */
const TRACE_s = 0.5;
const NO_TRACE_s = { run: TRACE_s, laps: 60 } as const;
/** Questions that many workings answer have no trace; what is shown while they run. */
const MANY = { gears: "trying sprockets", brakes: "stopping it from everywhere on the line" } as const;

/** What is written into the folder of `--out`. */
const FILES: Readonly<Record<Study, readonly string[]>> = {
  run: ["trace.csv", "events.csv", "answer.json"],
  laps: ["trace.csv", "answer.json"],
  gears: ["answer.json"],
  brakes: ["answer.json"],
};

const isMany = (study: Study): study is keyof typeof MANY => study in MANY;

/** Reads, runs, writes the files asked for, and prints: what every simulating command has in common. */
export async function simulated<S extends Study>(
  study: S,
  path: string,
  flags: RunFlags & GearsFlags & BrakesFlags & SvgFlags,
  inWords: (told: Told<S>) => readonly string[],
): Promise<number> {
  mindStdout(flags);
  const opened = await openPlan(path, flags);
  const outputs = outputsOf(flags, opened.reading.files, FILES[study]);
  const { plan, loco, track, tables } = opened.reading;
  const asked = { teeth: flags.teeth, sight_m: flags.sight, step_s: flags.step };
  const job: Job<S> = { study, plan, loco, track, tables, ...asked, every_s: everySeconds(study, flags) };
  const trace = outputs.begun("trace.csv");
  const step_s = flags.step ?? (study === "brakes" ? brakesStep_s : usualStep_s)(opened.plan);
  const progress = progressLine(flags.quiet === true);
  if (isMany(study)) progress.say(MANY[study]);
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
  if ("events" in answer) outputs.write("events.csv", csvText([EVENT_COLUMNS, ...answer.events.map(eventRow)]));
  outputs.write("answer.json", document);
  if (flags.svg !== undefined) outputs.draw(await figuresOf(study, opened, whole));
  const written = outputs.finish();
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-")
    print(inWords({ ...opened, ...whole, step_s, half: half?.answer, quiet: flags.quiet === true }));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(opened, flags);
}

function everySeconds(study: Study, { out, every }: RunFlags): number {
  if (isMany(study)) return Number.POSITIVE_INFINITY;
  return out !== undefined || study === "run" ? (every ?? TRACE_s) : NO_TRACE_s[study];
}

const eventRow = (event: Record<(typeof EVENT_COLUMNS)[number], unknown>): unknown[] =>
  EVENT_COLUMNS.map((column) => event[column]);
