import { argumentsOf, type Question } from "../work/question.js";
import { QUESTIONS } from "./index.js";

/** Every command and what it answers: the README's table. */
export const questionTable = (): string =>
  [
    "| command | answers |",
    "|---|---|",
    ...QUESTIONS.map((question) => `| \`rideon ${question.name} ${bracketed(question)}\` | ${question.inFull} |`),
  ].join("\n");

const bracketed = (question: Question): string =>
  argumentsOf(question)
    .map(({ name }) => `[${name}]`)
    .join(" ");
