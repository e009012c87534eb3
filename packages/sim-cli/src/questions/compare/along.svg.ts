import { type CompareAnswer, type Compared, formatPercent } from "@rideon/sim-core";
import { extent } from "../../ground/extent.js";
import { type Figure, type Sheet, WIDE } from "../../svg/draw.js";
import { GHOST, INKS } from "../../svg/ink.js";
import { about, type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import { stacked } from "../../svg/parts.js";
import type { AllUnits, Units } from "../../svg/units.js";
import type { Eyes } from "../../words/eyes.js";
import { capital } from "../../words/lists.js";
import { CALLED, moreTold } from "./told.js";

/** Room that a quantity takes at least, so that small differences do not look large. */
const LEAST: Readonly<Record<Compared, number>> = {
  speed: 1,
  motor_current: 10,
  battery_current: 10,
  battery_voltage: 2,
  temperature: 20,
  duty: 0.5,
};

/** Logged and by the sums along the line, in the mean over the laps, and what both leave open. */
export function alongFigure(answer: CompareAnswer, eyes: Eyes, units: AllUnits, sheet: Sheet = WIDE): Figure {
  const { places, quantities } = answer;
  const last = quantities.length - 1;
  const panels = quantities.map(({ name }, i): Panel => {
    const told = places.flatMap(({ from_m, to_m, quantities: at }) => {
      const found = at.find((each) => each.name === name);
      return found ? [{ x: (from_m + to_m) / 2, from_m, ...found }] : [];
    });
    // A piece that tells nothing parts the lines.
    const points = told.flatMap((each, k) =>
      k > 0 && each.from_m - (told[k - 1]?.from_m ?? 0) > 1.5 * ((places[0]?.to_m ?? 1) - (places[0]?.from_m ?? 0))
        ? [{ ...each, logged: Number.NaN, predicted: Number.NaN, doubt: Number.NaN }, each]
        : [each],
    );
    const x = points.map((each) => each.x);
    const line = (of: (each: (typeof points)[number]) => number) => ({ x, y: points.map(of) });
    const spread = told.flatMap(({ logged, predicted, doubt }) => [logged, predicted - doubt, predicted + doubt]);
    return {
      name,
      height_px: 110,
      x: {
        quantity: "along the line",
        units: units.length,
        range: extent(places.flatMap(({ from_m, to_m }) => [from_m, to_m])),
      },
      y: { quantity: capital(CALLED[name]), units: unitsOf(name, units), range: about(spread, LEAST[name]) },
      lines: [
        { name: "left open, lower end", bare: true, ink: GHOST, ...line(({ predicted, doubt }) => predicted - doubt) },
        { name: "left open, upper end", bare: true, ink: GHOST, ...line(({ predicted, doubt }) => predicted + doubt) },
        { name: "by the sums", ink: INKS[1], ...line(({ predicted }) => predicted) },
        { name: "logged", ink: INKS[0], ...line(({ logged }) => logged) },
      ],
      foot: i === last,
    };
  });
  const { body, height_px } = stacked(panels, panelHeight_px, (each, top) => panel(each, sheet, top));
  return { name: "compare", title: "The sums against the railway", see: seeIn(answer, eyes), height_px, body };
}

const unitsOf = (name: Compared, units: AllUnits): Units =>
  name === "speed"
    ? units.speed
    : name === "temperature"
      ? units.temperature
      : name === "battery_voltage"
        ? units.voltage
        : name === "duty"
          ? units.share
          : units.current;

function seeIn({ quantities, outcome, came_m, distance_m }: CompareAnswer, eyes: Eyes): string {
  const short =
    outcome === "completed" ? "" : `By the sums it comes ${formatPercent(came_m / distance_m)} of the way only. `;
  const told = quantities
    .filter(({ name }) => name !== "speed" || quantities.length === 1)
    .map(
      ({ name, bias, within_doubt, mean_within_doubt }) =>
        `${capital(CALLED[name])}: ${moreTold(name, bias, eyes)} than by the sums in the mean, ${mean_within_doubt ? "within" : "beyond"} what both leave open${mean_within_doubt && !within_doubt ? ", but beyond it in places" : ""}.`,
    );
  return `${short}${told.join(" ")} The mean of all laps; dotted, what both leave open.`;
}
