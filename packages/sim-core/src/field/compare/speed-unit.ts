import type { Plan } from "../../train/plan.js";
import { STANDS_mps } from "./journey.js";
import type { LogColumns } from "./log.js";
import { mistakenFor } from "./mistaken.js";

/** The plan's speed over what the log usually runs at, where that looks like two units taken for each other; null where not. */
export function speedUnit({ speed }: LogColumns, { speed_mps }: Plan): number | null {
  const moving = Array.from(speed ?? [], Math.abs).filter((each) => each >= STANDS_mps);
  const usual_mps = moving.sort((a, b) => a - b)[moving.length >> 1];
  const scale = usual_mps === undefined ? Number.NaN : speed_mps / usual_mps;
  return mistakenFor(scale) === "" ? null : scale;
}
