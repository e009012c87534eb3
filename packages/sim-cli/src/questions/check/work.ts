import { type CheckAnswer, check } from "@rideon/sim-core";
import { type Files, planOf } from "../../work/files.js";

export const work = (files: Files): { answer: CheckAnswer } => ({ answer: check(planOf(files)) });
