import type { TraceRow } from "@rideon/sim-core";
import { csvWriter, TRACE_COLUMNS } from "../files/csv.js";
import { diskError } from "../files/files.js";
import type { Files } from "./files.js";
import type { OnProgress } from "./question.js";

/** What a question's work is told: the files, and how they are to be worked on. */
export interface Job<O = unknown> extends Files {
  /** What is asked besides. */
  own: O;
  /** Chosen by the program where absent. */
  step_s?: number | undefined;
  /** Interval of the trace, s. */
  every_s: number;
  /** An open file for the trace. */
  trace?: { file: number; path: string } | undefined;
  /** Is a picture wanted? */
  drawn: boolean;
}

/** The step as an option of a study: absent where it was not told. */
export const stepOf = ({ step_s }: Job): { step_s?: number } => (step_s === undefined ? {} : { step_s });

/** Often enough to be seen moving. */
const TELL_ms = 100;

/** Takes rows of a working for the trace and tells of progress. @throws DiskError */
export function rowTaker({ trace }: Job, onProgress: OnProgress): { row(row: TraceRow): void; end(): void } {
  const writer = trace && traceWriter(trace);
  let told_ms = Date.now();
  return {
    row(row) {
      writer?.row(row);
      const now_ms = Date.now();
      if (now_ms - told_ms < TELL_ms) return;
      told_ms = now_ms;
      onProgress({ lap: row.lap, time_s: row.time_s });
    },
    end: () => writer?.end(),
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
