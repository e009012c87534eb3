import { workerData } from "node:worker_threads";
import {
  brakes,
  createPlan,
  gears,
  laps,
  type Plan,
  runOnce,
  type StudyOptions,
  type TraceRow,
} from "@rideon/sim-core";
import { pictureTaker } from "../charts/picture.js";
import { csvWriter, TRACE_COLUMNS } from "../files/csv.js";
import { diskError } from "../files/files.js";
import { SET } from "../words/brake-sets.js";
import type { Answers, Job, Simulated, Study } from "./simulate.js";
import { tellProgress, work } from "./thread.js";

const STUDIES: { [S in Study]: (plan: Plan, options: StudyOptions, job: Job) => Answers[S] } = {
  run: runOnce,
  laps,
  gears: (plan, { step_s }, { teeth }) =>
    gears(plan, teeth, {
      ...(step_s === undefined ? {} : { step_s }),
      onTried: (tried, of) => tellProgress({ doing: `trying sprockets, ${tried} of ${of} tried` }),
    }),
  brakes: (plan, { step_s }, { sight_m }) =>
    brakes(plan, {
      ...(sight_m === undefined ? {} : { sight_m }),
      ...(step_s === undefined ? {} : { step_s }),
      onCase: (set, rail) => tellProgress({ doing: `stopping it from everywhere: ${SET[set]}, ${rail} rail` }),
    }),
};
/** Often enough to be seen moving. */
const TELL_ms = 100;

work(() => runJob(workerData as Job));

function runJob(job: Job): Simulated<Study> {
  const { study, plan, loco, track, tables, step_s, every_s, trace } = job;
  const writer = trace && traceWriter(trace);
  const picture = pictureTaker();
  const progress = teller();
  const options: StudyOptions = {
    ...(step_s === undefined ? {} : { step_s }),
    every_s,
    onRow(row) {
      writer?.row(row);
      picture.row(row);
      progress(row);
    },
  };
  const answer = STUDIES[study](createPlan(plan, loco, track, tables), options, job);
  writer?.end();
  return { answer, picture: picture.taken() };
}

function teller(): (row: TraceRow) => void {
  let told_ms = Date.now();
  return ({ lap, time_s }) => {
    const now_ms = Date.now();
    if (now_ms - told_ms < TELL_ms) return;
    told_ms = now_ms;
    tellProgress({ lap, time_s });
  };
}

/** As `csvWriter`, with the disk's faults in words. */
function traceWriter({ file, path }: { file: number; path: string }) {
  const writer = csvWriter<TraceRow>(file, TRACE_COLUMNS);
  const minding =
    <A extends unknown[]>(write: (...args: A) => void) =>
    (...args: A) => {
      try {
        write(...args);
      } catch (error) {
        throw diskError(path, error);
      }
    };
  return { row: minding(writer.row), end: minding(writer.end) };
}
