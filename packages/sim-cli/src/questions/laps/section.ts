import { formatPercent, type LimitsAnswer } from "@rideon/sim-core";
import { figures, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { ENDED_BY } from "../../words/endings.js";
import { dayFigure } from "./charge.svg.js";

/** The day that `limits` plans for, to the reserve. */
export function dayHtml(told: Seen & { limits: LimitsAnswer }): string {
  const { limits, eyes, plan } = told;
  const { day } = limits;
  const last = day.at(-1);
  const ended =
    limits.day_ended_by === null
      ? ""
      : ` Something else ends this day: it ${ENDED_BY[limits.day_ended_by].it}${limits.day_ended_at_m === null ? "" : ` at ${eyes.place(limits.day_ended_at_m)}`}.`;
  if (!last) return paragraph(`Not one lap is done.${ended}`);
  const rows = day.map((row) => [
    String(row.lap),
    eyes.of(row.time_s, "time"),
    formatPercent(row.state_of_charge),
    eyes.of(row.lowest_battery_voltage_V, "voltage"),
    eyes.of(row.peak_winding_temperature_C, "temperature"),
  ]);
  const see = `Counted on the safe side, with bearings as stiff as they may be: ${limits.laps_to_plan_for} laps with no less than ${formatPercent(plan.train.battery.reserve)} of the charge left. The lowest volts of a lap fall from ${eyes.of(day[0]?.lowest_battery_voltage_V ?? 0, "voltage")} to ${eyes.of(last.lowest_battery_voltage_V, "voltage")}: on a voltmeter that is the charge.${ended}`;
  return (
    picture((sheet) => dayFigure(told, day, see, sheet)) +
    figures("Some laps of the day", ["Lap", "time", "charge left", "volts at least", "winding at most"], rows)
  );
}
