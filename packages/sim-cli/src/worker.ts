import { workerData } from "node:worker_threads";
import { QUESTIONS } from "./questions/index.js";
import type { Share } from "./work/sureness.js";
import { answerWith, type ThreadData, tellProgress } from "./work/thread.js";

/** The program of every thread: the work of one question. */
await answerWith(async () => {
  const { question, job } = workerData as ThreadData;
  if (question === "sureness") return (await import("./work/sureness.work.js")).work(job as Share, tellProgress);
  const part = await QUESTIONS.find(({ name }) => name === question)?.work?.();
  if (!part) throw new Error(`${question} has no work for a thread`);
  return part.work(job as never, tellProgress);
});
