import type { Question } from "../../work/question.js";

/** Starts a folder with files that run as they are. */
export const newFolder: Question = {
  name: "new",
  about: "start a folder with a loco, a plan and a track that run as they are",
  inFull: "a loco, a plan and a track to start from",
  example: "rideon new my-line",
  argument: { name: "folder", about: "where the files go; made if need be", usual: "." },
  options: [],
  answer: async (folder) => (await import("./answer.js")).startFolder(folder),
};
