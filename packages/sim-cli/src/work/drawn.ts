import { type Plan, RAIL, tractiveEffort } from "@rideon/sim-core";
import { stoppingFigure } from "../questions/brakes/stopping.svg.js";
import { effortFigure } from "../questions/climb/effort.svg.js";
import { loadFigure } from "../questions/climb/load.svg.js";
import { gearsFigure } from "../questions/gears/gears.svg.js";
import { chargeFigure } from "../questions/laps/charge.svg.js";
import { energyFigure } from "../questions/run/energy.svg.js";
import { lapFigure } from "../questions/run/lap.svg.js";
import { UsageError } from "../read/diagnostics.js";
import { type Figure, WIDE } from "../svg/draw.js";
import type { Seen } from "../svg/parts.js";
import { unitsFor } from "../svg/units.js";
import type { ClimbTold } from "./files.js";
import type { Opened } from "./opened.js";
import { type Simulated, type Study, simulate } from "./simulate.js";

/** Where `--svg` wants the picture, and what else goes to standard output. */
export interface SvgFlags {
  svg?: string;
  json?: true;
}

/** @throws UsageError where two answers would go to standard output */
export function mindStdout({ svg, json }: SvgFlags): void {
  if (svg === "-" && json) throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
}

const seenOf = ({ plan, eyes }: Opened): Seen => ({ plan, eyes, units: unitsFor(eyes) });

type Draw<S extends Study> = (
  opened: Opened,
  simulated: Simulated<S>,
) => readonly Figure[] | Promise<readonly Figure[]>;

const DRAWINGS: { [S in Study]: Draw<S> } = {
  run: (opened, { answer, picture }) => [
    lapFigure(seenOf(opened), picture, answer, WIDE),
    energyFigure(answer.energy_balance, Math.max(1, answer.laps), WIDE),
  ],
  laps: (opened, { answer }) => [chargeFigure(seenOf(opened), answer, WIDE)],
  gears: (opened, { answer }) => [gearsFigure(seenOf(opened), answer, WIDE)],
  async brakes(opened, { answer }) {
    const { plan, loco, track, tables } = opened.reading;
    // The line is drawn as a lap meets it, there and back where it has ends.
    const { picture } = await simulate({ study: "run", plan, loco, track, tables, every_s: 0.5 }, () => {});
    return answer.rails.map(({ rail }) => {
      const rows = answer.rows.filter((row) => row.rail === rail);
      const figure = stoppingFigure(seenOf(opened), picture, rows, answer.sight_m, WIDE);
      return { ...figure, title: `${figure.title}: ${rail} rail` };
    });
  },
};

/** The pictures of a simulated answer. */
export const figuresOf = async <S extends Study>(
  study: S,
  opened: Opened,
  simulated: Simulated<S>,
): Promise<readonly Figure[]> => DRAWINGS[study](opened, simulated);

/** Of the load table and the pull behind it. */
export function climbFigures(opened: Opened, answer: ClimbTold): readonly Figure[] {
  const seen = seenOf(opened);
  const beside = { low: atReserve(opened.plan, answer), wet_N: wetGrip_N(opened.plan, answer) };
  return [effortFigure(seen, answer.tractive_effort, beside, WIDE), loadFigure(seen, answer, answer.other_rail, WIDE)];
}

const wetGrip_N = ({ train }: Plan, { tractive_effort }: ClimbTold): number =>
  Math.min(1, RAIL.wet / train.adhesion.static) * tractive_effort.grip_N;

function atReserve(plan: Plan, { ruling_gradient_compensated_percent: ruling }: ClimbTold) {
  const { reserve } = plan.train.battery;
  return plan.charge > reserve && reserve > 0 ? tractiveEffort({ ...plan, charge: reserve }, ruling / 100) : undefined;
}
