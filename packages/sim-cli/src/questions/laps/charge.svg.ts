import { type Band, formatPercent, type LapRow, type LapsAnswer } from "@rideon/sim-core";
import { extent } from "../../ground/extent.js";
import type { Figure, Sheet } from "../../svg/draw.js";
import { GHOST, INKS } from "../../svg/ink.js";
import { about, type Line, type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import { type Seen, stacked } from "../../svg/parts.js";

/** Charge, volts and winding at the end of each lap of the day. */
export const chargeFigure = (seen: Seen, answer: LapsAnswer, sheet: Sheet, band?: Band): Figure =>
  dayFigure(seen, answer.per_lap, whatToSee(seen, answer), sheet, band);

/** @param rows laps of a day, not necessarily all; @param see what to see in it; @param band of laps to the reserve */
export function dayFigure(seen: Seen, rows: readonly LapRow[], see: string, sheet: Sheet, band?: Band): Figure {
  const { plan, units } = seen;
  const { reserve } = plan.train.battery;
  const laps = rows.map(({ lap }) => lap);
  const x: Panel["x"] = {
    quantity: "laps",
    units: { unit: "laps done", size: 1 },
    range: [0, Math.max(1, rows.at(-1)?.lap ?? 1, band?.p95 ?? 0)],
  };
  const volts = rows.map((row) => row.lowest_battery_voltage_V);
  const cutout_V = plan.train.controller.cutout_V;
  const [, most_V] = about(volts, 2);
  const least_V = Math.min(cutout_V - 0.5, extent(volts)[0]);
  const panels: Panel[] = [
    {
      name: "charge",
      height_px: 110,
      x,
      y: { quantity: "Charge left", units: units.share, range: [0, 1] },
      lines: [
        {
          name: "charge left",
          ink: INKS[0],
          x: [0, ...laps],
          y: [plan.charge, ...rows.map((row) => row.state_of_charge)],
        },
        ...bandLines(band, plan.charge, reserve),
      ],
      shades: [{ name: "reserve", y: [0, reserve], label: `the reserve, ${formatPercent(reserve)}` }],
    },
    {
      name: "lap-voltage",
      height_px: 90,
      x,
      y: { quantity: "Lowest volts of the lap", units: units.voltage, range: [least_V, most_V] },
      lines: [{ name: "lowest volts", ink: INKS[0], x: laps, y: volts }],
      shades: [{ name: "cutout", y: [least_V, cutout_V], label: "cut-out" }],
    },
    {
      name: "lap-winding",
      height_px: 70,
      x,
      y: {
        quantity: "Hottest winding of the lap",
        units: units.temperature,
        range: about(
          rows.map((row) => row.peak_winding_temperature_C),
          20,
        ),
      },
      lines: [{ name: "hottest winding", ink: INKS[0], x: laps, y: rows.map((row) => row.peak_winding_temperature_C) }],
      foot: true,
      whole: true,
    },
  ];
  const { body, height_px } = stacked(panels, panelHeight_px, (each, top) => panel(each, sheet, top));
  return { name: "charge", title: "Laps as the charge falls", see, height_px, body };
}

/** How soon and how late the reserve may be reached, nine in ten between: straight, as charge falls about evenly. */
function bandLines(band: Band | undefined, charge: number, reserve: number): Line[] {
  if (!band || charge <= reserve) return [];
  const ends = [
    ["5 of 100 sooner", band.p05],
    ["5 of 100 later", band.p95],
  ] as const;
  return ends.map(([name, laps]) => ({ name, ink: GHOST, x: [0, laps], y: [charge, reserve] }));
}

function whatToSee({ eyes, plan }: Seen, { laps_to_reserve, laps_to_end, per_lap, time_s }: LapsAnswer): string {
  const first = per_lap[0]?.lowest_battery_voltage_V;
  const last = per_lap.at(-1)?.lowest_battery_voltage_V;
  if (first === undefined || last === undefined) return "Not one lap is done, so there is nothing to draw.";
  return `${laps_to_reserve} laps until the charge falls to the reserve of ${formatPercent(plan.train.battery.reserve)}, ${laps_to_end} until the day ends after ${eyes.of(time_s, "time")}. The lowest volts of a lap fall from ${eyes.of(first, "voltage")} to ${eyes.of(last, "voltage")}: on a voltmeter that is the charge.`;
}
