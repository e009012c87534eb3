import { formatPercent, type LapsAnswer, figures as round } from "@rideon/sim-core";
import { figures, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { chargeFigure } from "./charge.svg.js";

export function dayHtml(told: Seen & { laps: LapsAnswer }): string {
  const { laps, eyes } = told;
  if (laps.per_lap.length === 0) return paragraph("Not one lap is done.");
  const step = Math.max(1, Math.ceil(laps.per_lap.length / 10));
  const rows = laps.per_lap
    .filter(({ lap }) => lap === 1 || lap % step === 0 || lap === laps.per_lap.length)
    .map((row) => [
      String(row.lap),
      eyes.of(row.time_s, "time"),
      formatPercent(row.state_of_charge),
      `${round(row.lowest_battery_voltage_V)} V`,
      eyes.of(row.peak_winding_temperature_C, "temperature"),
    ]);
  return (
    picture((sheet) => chargeFigure(told, laps, sheet)) +
    figures("Laps of the day", ["Lap", "time", "charge left", "volts at least", "winding at most"], rows)
  );
}
