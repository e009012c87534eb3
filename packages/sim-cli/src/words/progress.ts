import { format } from "@rideon/sim-core";

/** How far a working has come, or what is being done. */
export type Progress = { lap: number; time_s: number } | { doing: string };

export interface ProgressLine {
  show(progress: Progress): void;
  /** Where there is nothing to count. */
  say(what: string): void;
  clear(): void;
}

const SILENT: ProgressLine = { show: () => {}, say: () => {}, clear: () => {} };

/** One line on the terminal that is written over; nothing where there is no terminal to watch or under `--quiet`. */
export function progressLine(quiet: boolean, stream: NodeJS.WriteStream = process.stderr): ProgressLine {
  if (quiet || stream.isTTY !== true) return SILENT;
  let shown = false;
  const say = (what: string) => {
    shown = true;
    stream.write(`\r${what} …\x1b[K`);
  };
  return {
    show: (progress) =>
      say(
        "doing" in progress
          ? progress.doing
          : `lap ${progress.lap}, ${format(progress.time_s, "time", "metric")} of running`,
      ),
    say,
    clear() {
      if (shown) stream.write("\r\x1b[K");
      shown = false;
    },
  };
}
