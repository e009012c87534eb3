import { formatGradient, type GearsAnswer, figures as round } from "@rideon/sim-core";
import { figures } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { faultInWords } from "./faults.js";

/** Rows enough to choose from. */
const MOST_GEARS = 6;

export function gearsHtml({ gears, eyes }: Pick<Seen, "eyes"> & { gears: GearsAnswer | null }): string {
  if (!gears || gears.rows.length === 0) return "";
  const rows = gears.rows
    .slice(0, MOST_GEARS)
    .map((row) => [
      row.teeth.map(([a, b]) => `${a}:${b}`).join(" × "),
      round(row.ratio),
      eyes.speed(row.speed_mps),
      row.restart_gradient_percent <= 0 ? "none" : formatGradient(row.restart_gradient_percent / 100),
      `${round(row.rms_motor_current_A)} A`,
      eyes.of(row.peak_winding_temperature_C, "temperature"),
      row.faults.length === 0 ? "none found" : row.faults.map((fault) => faultInWords(fault, eyes.exact)).join("; "),
    ]);
  const good = gears.rows[0]?.faults.length === 0;
  return figures(
    good ? "Sprockets that would do, best first" : "Sprockets: none will do; the least bad first",
    ["Teeth", "ratio", "speed", "restarts on", "motor, rms", "winding", "faults"],
    rows,
  );
}
