import type { Put } from "../read/index.js";
import { section, wrap } from "../words/table.js";
import { type PutIn, pasted } from "./into.js";

/** Measured figures for the loco's file. */
export interface ToPaste {
  puts: readonly Put[];
  /** Where they were put into a file already. */
  put: PutIn | undefined;
  /** What wants an answer before they go anywhere; null where nothing does. */
  question: string | null;
}

/** The lines to paste, behind the question where there is one; or what was changed. */
export function toPaste({ puts, put, question }: ToPaste, columns: number): string[] {
  if (put) return section(`Changed in ${put.path}`, put.shown);
  if (puts.length === 0) return [];
  const first = question === null ? [] : ["", ...wrap(`Before anything goes into a file: ${question}`, columns)];
  const heading = `To paste into the loco file${question === null ? "" : ", only if the heading is right"}`;
  return [...first, ...section(heading, pasted(puts))];
}
