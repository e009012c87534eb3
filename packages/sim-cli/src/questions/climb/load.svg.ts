import { type Band, type ClimbAnswer, formatGradient } from "@rideon/sim-core";
import type { Figure, Sheet } from "../../svg/draw.js";
import { BAND, INKS } from "../../svg/ink.js";
import { type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import type { Seen } from "../../svg/parts.js";

/** Nothing on a passenger line is steeper, %: an empty train's restart would press the rest flat. */
const STEEPEST_percent = 6;

/**
 * The steepest gradient each load restarts on, on two rails, over what the line asks.
 * @param band of the number of passengers it restarts with here, on its own rail
 */
export function loadFigure(seen: Seen, own: ClimbAnswer, other: ClimbAnswer, sheet: Sheet, band?: Band): Figure {
  const ruling = own.ruling_gradient_compensated_percent;
  const most = Math.max(
    ...own.rows.map(({ passengers }) => passengers),
    ...other.rows.map(({ passengers }) => passengers),
    1,
  );
  const restart = ({ rows }: ClimbAnswer) => rows.map(({ restart_gradient_percent }) => restart_gradient_percent);
  const top = Math.max(1.5 * ruling, Math.min(STEEPEST_percent, 1.05 * Math.max(...restart(own), ...restart(other))));
  const clipped = [...restart(own), ...restart(other)].some((each) => each > top);
  const line = (answer: ClimbAnswer, ink: (typeof INKS)[number]) => ({
    name: `${answer.rail} rail`,
    ink,
    dots: true,
    x: answer.rows.map(({ passengers }) => passengers),
    y: restart(answer).map((each) => Math.max(0, Math.min(each, top))),
  });
  const spec: Panel = {
    name: "load",
    height_px: 200,
    x: { quantity: "passengers aboard", units: { unit: "passengers aboard", size: 1 }, range: [0, most] },
    y: { quantity: "Steepest restart", units: seen.units.percent, range: [0, top] },
    lines: [
      line(own, INKS[0]),
      line(other, INKS[1]),
      // On the line's own gradient: with so many it may just start again.
      ...(band && ruling > 0
        ? [
            {
              name: `nine in ten, ${own.rail} rail`,
              ink: BAND,
              x: [band.p05, band.p95].map((each) => Math.min(most, Math.max(0, each))),
              y: [ruling, ruling],
            },
          ]
        : []),
    ],
    shades:
      ruling > 0
        ? [
            {
              name: "ruling",
              y: [0, ruling],
              label: `not enough for ${formatGradient(ruling / 100)}, the steepest here`,
            },
          ]
        : [],
    foot: true,
    whole: true,
  };
  return {
    name: "load",
    title: "What it restarts with",
    see: `${whatToSee(own, other)}${clipped ? ` Steeper than ${top} % is drawn at ${top} %.` : ""}`,
    height_px: panelHeight_px(spec),
    body: panel(spec, sheet, 0),
  };
}

function whatToSee(own: ClimbAnswer, other: ClimbAnswer): string {
  const on = ({ rail, passengers_it_can_restart: most }: ClimbAnswer) =>
    most === null ? `none on ${rail} rail, not even empty` : `${most} on ${rail} rail`;
  return `The more aboard, the less steep a gradient the train starts again on. Where a line dips into the shaded part, that load does not restart on the steepest gradient here. Most that does, shown by running it: ${on(own)}, ${on(other)}.`;
}
