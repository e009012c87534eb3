import { parentPort, Worker } from "node:worker_threads";
import { RunError } from "@rideon/sim-core";
import { DiskError } from "../files/files.js";
import type { Progress } from "../words/progress.js";

/** What a thread is to do: the work of this question. */
export interface ThreadData {
  question: string;
  job: unknown;
}

/** What a thread tells of its work. */
type Message<T> =
  | { kind: "progress"; progress: Progress }
  | { kind: "done"; result: T }
  | { kind: "failed"; name: string; message: string; stack: string | undefined };

/**
 * Does a question's work on a thread of its own, so that an interrupt is heard at once and progress can be shown.
 * @param signal ends the thread before it is done
 * @throws RunError, DiskError
 */
export function onThread<T>(
  question: string,
  job: unknown,
  onProgress: (progress: Progress) => void = () => {},
  signal?: AbortSignal,
): Promise<T> {
  const workerData: ThreadData = { question, job };
  const worker = new Worker(new URL("../worker.js", import.meta.url), { workerData });
  signal?.addEventListener("abort", () => void worker.terminate(), { once: true });
  return new Promise((resolve, reject) => {
    worker.on("message", (message: Message<T>) => {
      if (message.kind === "progress") onProgress(message.progress);
      else if (message.kind === "done") resolve(message.result);
      else reject(revived(message));
    });
    worker.on("error", reject);
    worker.on("exit", (status) => reject(new RunError(`the work of ${question} ended by itself (${status})`)));
  });
}

/** Errors lose their class between threads. */
function revived({ name, message, stack }: Extract<Message<never>, { kind: "failed" }>): Error {
  if (name === "RunError") return new RunError(message);
  if (name === "DiskError") return new DiskError(message);
  return Object.assign(new Error(message), { name, stack });
}

const tell = (message: Message<unknown>) => parentPort?.postMessage(message);

/** In the thread: tells how far it is. */
export const tellProgress = (progress: Progress): void => tell({ kind: "progress", progress });

/** In the thread: does its work and answers with the result, or with what went wrong. */
export async function answerWith(result: () => Promise<unknown>): Promise<void> {
  try {
    tell({ kind: "done", result: await result() });
  } catch (error) {
    const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
    tell({ kind: "failed", name, message, stack });
  }
}
