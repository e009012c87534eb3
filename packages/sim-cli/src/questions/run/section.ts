import { type RunAnswer, figures as round } from "@rideon/sim-core";
import type { Picture } from "../../charts/picture.js";
import { figures, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { endInWords } from "../../words/events.js";
import { placesOnPage } from "../../words/places.js";
import { energyRows } from "./energy.js";
import { energyFigure } from "./energy.svg.js";
import { lapFigure } from "./lap.svg.js";

/** One working, and its first lap. */
interface Shown extends Seen {
  run: RunAnswer;
  picture: Picture;
  /** The lap before a control was moved. */
  ghost?: Picture;
}

export function lapHtml(told: Shown): string {
  const { picture: lap, run, eyes } = told;
  if (lap.run_m.length < 2 || (lap.run_m.at(-1) ?? 0) < 1)
    return paragraph(`It does not move: ${endInWords(run.events, eyes.exact)}.`);
  const at = (chainage_m: number) =>
    lap.chainage_m.reduce(
      (best, each, i) => (Math.abs(each - chainage_m) < Math.abs((lap.chainage_m[best] ?? 0) - chainage_m) ? i : best),
      1,
    );
  const { places, which } = placesOnPage(told.plan.track);
  const rows = places.map(({ chainage_m, name }) => {
    const i = at(chainage_m);
    return [
      name,
      eyes.speed(lap.speed_mps[i]!),
      `${round(lap.motor_current_A[i]!)} A`,
      `${round(lap.battery_current_A[i]!)} A`,
      `${round(lap.battery_voltage_V[i]!)} V`,
      eyes.of(lap.winding_temperature_C[i]!, "temperature"),
    ];
  });
  return (
    picture((sheet) => lapFigure(told, lap, run, sheet, told.ghost)) +
    figures(`The lap at its places${which}`, ["Place", "speed", "motor", "battery", "volts", "winding"], rows)
  );
}

export function energyHtml({ run }: Pick<Shown, "run">): string {
  const laps = Math.max(1, run.laps);
  return (
    picture((sheet) => energyFigure(run.energy_balance, laps, sheet)) +
    figures("Where the charge goes", ["Part", "energy", "share"], energyRows(run.energy_balance))
  );
}
