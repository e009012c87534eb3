import { format } from "@rideon/sim-core";

/** How far a working has come. */
export interface Progress {
  lap: number;
  time_s: number;
}

export interface ProgressLine {
  show(progress: Progress): void;
  clear(): void;
}

const SILENT: ProgressLine = { show: () => {}, clear: () => {} };

/** One line on the terminal that is written over; nothing where there is no terminal to watch or under `--quiet`. */
export function progressLine(quiet: boolean, stream: NodeJS.WriteStream = process.stderr): ProgressLine {
  if (quiet || stream.isTTY !== true) return SILENT;
  let shown = false;
  return {
    show({ lap, time_s }) {
      shown = true;
      stream.write(`\rlap ${lap}, ${format(time_s, "time", "metric")} of running …\x1b[K`);
    },
    clear() {
      if (shown) stream.write("\r\x1b[K");
      shown = false;
    },
  };
}
