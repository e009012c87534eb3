import { figures, type Notes } from "@rideon/sim-core";
import type { Opened } from "./ready.js";

/** What a note is made of: an answer, and the same at half the step where it was asked for. */
interface Noted extends Pick<Opened, "plan"> {
  answer: object;
  half: object | undefined;
  step_s: number;
  quiet: boolean;
}

/** How far the answer can be trusted: its step, what half of it would change, and how much was assumed. */
export function notes(told: Noted): string[] {
  const { plan, step_s, quiet } = told;
  const step = told.half === undefined ? [] : [`Step ${figures(step_s)} s: ${halved(told.answer, told.half)}`];
  if (quiet) return step;
  return [
    ...(step.length > 0 ? step : [`Step ${figures(step_s)} s; --check-step tells what half of it would change.`]),
    assumedNote(plan.notes),
  ];
}

/** How much was assumed. */
export const assumedNote = ({ assumed }: Notes): string =>
  `${assumed.length} figures are assumed because the files leave them out; rideon check --all lists them with their sources.`;

/** Of its own size, less than this is not worth telling. */
const SMALL = 1e-5;

function halved(whole: object, half: object): string {
  const other = half as Record<string, unknown>;
  const moved = Object.entries(whole).flatMap(([key, value]) => {
    const at = other[key];
    if (typeof value === "string" && value !== at) return [`${key} is ${value}, and ${String(at)} at half of it`];
    if (typeof value !== "number" || typeof at !== "number" || Math.abs(value - at) <= SMALL * Math.abs(at)) return [];
    return [`${key} is ${figures(Math.abs(value - at))} ${value > at ? "more" : "less"} than at half of it`];
  });
  return `${[...moved, `${moved.length > 0 ? "what is left" : "the answer"} moves by less than a hundred-thousandth of itself`].join("; ")}.`;
}
