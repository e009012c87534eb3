import { discardUnfinished } from "./files/files.js";
import { STATUS } from "./ground/status.js";

/** What is kept of what an interrupt ends, in words. */
let kept: () => string | undefined = () => undefined;

/** @param told what an interrupted command says of what it leaves behind; nothing where it leaves nothing */
export function sayWhenInterrupted(told: () => string | undefined): void {
  kept = told;
}

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
      const told = kept();
      // The line of progress is written over.
      if (told !== undefined) process.stderr.write(`${process.stderr.isTTY ? "\r\x1b[K" : ""}${told}\n`);
      process.exit(status);
    });
  }
}
