import { formatPercent, type LimitsAnswer, type Sureness } from "@rideon/sim-core";
import { figures, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { countedHow, dayInWords } from "../../words/day.js";
import { dayFigure } from "./charge.svg.js";

/** The day that `limits` plans for, to the reserve. */
export function dayHtml(told: Seen & { limits: LimitsAnswer; sureness?: Sureness }): string {
  const { limits, eyes, plan } = told;
  const { day } = limits;
  const last = day.at(-1);
  // A band is of the sums alone.
  const band = limits.logged ? undefined : told.sureness?.bands.laps_to_reserve;
  const { said } = dayInWords(limits, plan, eyes);
  if (!last) return paragraph(said);
  const rows = day.map((row) => [
    String(row.lap),
    eyes.of(row.time_s, "time"),
    formatPercent(row.state_of_charge),
    eyes.of(row.lowest_battery_voltage_V, "voltage"),
    eyes.of(row.peak_winding_temperature_C, "temperature"),
  ]);
  const see = `${said} ${countedHow(limits)} The lowest volts of a lap fall from ${eyes.of(day[0]?.lowest_battery_voltage_V ?? 0, "voltage")} to ${eyes.of(last.lowest_battery_voltage_V, "voltage")}: on a voltmeter that is the charge.`;
  return (
    picture((sheet) => dayFigure(told, day, see, sheet, band)) +
    figures("Some laps of the day", ["Lap", "time", "charge left", "volts at least", "winding at most"], rows)
  );
}
