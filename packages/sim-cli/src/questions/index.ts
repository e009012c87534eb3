import type { Question } from "../work/question.js";
import { batteryQuestion } from "./battery/question.js";
import { brakes } from "./brakes/question.js";
import { check } from "./check/question.js";
import { climb } from "./climb/question.js";
import { coastdown } from "./coastdown/question.js";
import { compareQuestion } from "./compare/question.js";
import { gears } from "./gears/question.js";
import { laps } from "./laps/question.js";
import { levels } from "./levels/question.js";
import { limits } from "./limits/question.js";
import { newFolder } from "./new/question.js";
import { partsQuestion } from "./parts/question.js";
import { pull } from "./pull/question.js";
import { report } from "./report/question.js";
import { run } from "./run/question.js";
import { size } from "./size/question.js";
import { sweepQuestion } from "./sweep/question.js";
import { trial } from "./trial/question.js";
import { wiringQuestion } from "./wiring/question.js";

/** Every question, in the order of the help. */
export const QUESTIONS: readonly Question[] = [
  newFolder,
  levels,
  pull,
  coastdown,
  batteryQuestion,
  check,
  run,
  laps,
  size,
  climb,
  gears,
  brakes,
  limits,
  partsQuestion,
  wiringQuestion,
  trial,
  compareQuestion,
  sweepQuestion,
  report,
];
