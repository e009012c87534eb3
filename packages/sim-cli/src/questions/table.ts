import { QUESTIONS } from "./index.js";

/** Every command and what it answers: the README's table. */
export const questionTable = (): string =>
  [
    "| command | answers |",
    "|---|---|",
    ...QUESTIONS.map(({ name, argument, inFull }) => `| \`rideon ${name} [${argument.name}]\` | ${inFull} |`),
  ].join("\n");
