import { discardUnfinished } from "./files/files.js";
import { STATUS } from "./ground/status.js";

/** An interrupted command leaves old files or none; so does one whose terminal is closed. Minded first of all, while the rest of the program is still loading. */
export function mindSignals(): void {
  for (const [signal, status] of [
    ["SIGINT", STATUS.interrupted],
    ["SIGTERM", 143],
    ["SIGHUP", 129],
    ["SIGQUIT", 131],
  ] as const) {
    process.once(signal, () => {
      discardUnfinished();
      process.exit(status);
    });
  }
}
