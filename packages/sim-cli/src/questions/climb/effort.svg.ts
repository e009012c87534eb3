import { type EffortAnswer, formatGradient } from "@rideon/sim-core";
import type { Figure, Sheet } from "../../svg/draw.js";
import { INKS } from "../../svg/ink.js";
import { type Line, type Panel, panel, panelHeight_px, type Shade } from "../../svg/panel.js";
import type { Seen } from "../../svg/parts.js";

/** The same train with other conditions, drawn beside its own. */
export interface Beside {
  /** With the charge fallen to the reserve; absent where the plan starts no fuller. */
  low?: EffortAnswer | undefined;
  /** What the driven wheels grip on wet rail. */
  wet_N: number;
}

/** Pull far above what grips and what is wanted is cut off, or these would be lost at the foot of the picture. */
const MOST_ABOVE = 2;
const LEVEL_percent = 0.01;
const ALIKE = 0.01;

/** Pull against speed over what the line takes of it and under what the rail passes on. */
export function effortFigure(seen: Seen, effort: EffortAnswer, { low, wet_N }: Beside, sheet: Sheet): Figure {
  const { rows, grip_N } = effort;
  const speed = rows.map(({ speed_mps }) => speed_mps);
  const last = rows.at(-1) ?? rows[0];
  const wanted = demands(seen, effort);
  const top_N = Math.min(
    Math.max(...rows.map(({ pull_cold_N }) => pull_cold_N), grip_N) * 1.05,
    MOST_ABOVE * Math.max(grip_N, ...wanted.map(({ y }) => y[1])),
  );
  const hot = rows.some((row) => Math.abs(row.pull_hot_N - row.pull_cold_N) > ALIKE * (rows[0]?.pull_cold_N ?? 0));
  const pull = (name: string, ink: Line["ink"], values: readonly number[], x = speed): Line => ({
    name,
    ink,
    x,
    y: values.map((each) => (each > top_N ? Number.NaN : each)),
  });
  const lines = [
    pull(
      hot ? "motor cold" : "pull",
      INKS[0],
      rows.map(({ pull_cold_N }) => pull_cold_N),
    ),
    ...(hot
      ? [
          pull(
            "motor hot",
            INKS[1],
            rows.map(({ pull_hot_N }) => pull_hot_N),
          ),
        ]
      : []),
    ...(low
      ? [
          pull(
            "battery low",
            INKS[2],
            low.rows.map(({ pull_cold_N }) => pull_cold_N),
            low.rows.map(({ speed_mps }) => speed_mps),
          ),
        ]
      : []),
  ];
  const grips: Shade[] = [
    {
      name: "grip",
      y: [grip_N, top_N],
      edge: "foot",
      label: `slips over ${seen.eyes.of(grip_N, "force")}, ${seen.plan.rail} rail`,
    },
    ...(wet_N < 0.95 * grip_N
      ? [
          {
            name: "grip-wet",
            y: [wet_N, grip_N] as const,
            edge: "foot" as const,
            label: `slips over ${seen.eyes.of(wet_N, "force")}, wet rail`,
            fill: "#ddd",
          },
        ]
      : []),
  ];
  const spec: Panel = {
    name: "effort",
    height_px: 250,
    x: { quantity: "speed", units: seen.units.speed, range: [0, last?.speed_mps ?? 1] },
    y: { quantity: "Pull", units: seen.units.force, range: [0, top_N] },
    lines,
    shades: [...grips, ...wanted],
    foot: true,
  };
  return {
    name: "effort",
    title: "Pull against speed",
    see: whatToSee(seen, effort, wanted),
    height_px: panelHeight_px(spec),
    body: panel(spec, sheet, 0),
  };
}

/** What each gradient takes, as steps from the foot up: nearly the same at every speed, so shown at walking pace. */
function demands({ eyes }: Seen, { rows, ruling_gradient_compensated_percent: ruling }: EffortAnswer): Shade[] {
  const middle = rows[Math.floor(rows.length / 2)];
  if (!middle) return [];
  const steps = [
    { percent: 0, force_N: middle.level_N },
    ...(ruling > LEVEL_percent ? [{ percent: ruling, force_N: middle.ruling_N }] : []),
  ];
  return steps.map(({ percent, force_N }, i): Shade => {
    const slope = formatGradient(percent / 100);
    return {
      name: `takes-${slope}`,
      y: [i === 0 ? 0 : (steps[i - 1]?.force_N ?? 0), force_N],
      edge: "head",
      label: `${slope === "level" ? "the level" : slope} takes ${eyes.of(force_N, "force")}`,
      fill: i === 0 ? "#56B4E9" : "#cfe6f5",
    };
  });
}

function whatToSee({ eyes }: Seen, effort: EffortAnswer, wanted: readonly Shade[]): string {
  const runs = (speed_mps: number, where: string) =>
    speed_mps > 0 ? `${eyes.speed(speed_mps)} on ${where}` : `it does not run on ${where}`;
  const ruling = formatGradient(effort.ruling_gradient_compensated_percent / 100);
  const standing_N = effort.rows[0]?.pull_cold_N ?? 0;
  const slips =
    standing_N > effort.grip_N
      ? `Standing, the drive could pull ${eyes.of(standing_N, "force")}; the rail passes on ${eyes.of(effort.grip_N, "force")}, so the wheels slip first.`
      : `Standing, the drive pulls ${eyes.of(standing_N, "force")} and the wheels hold it.`;
  const meets = [
    runs(effort.level_speed_mps, "the level"),
    ...(wanted.length > 1 ? [runs(effort.ruling_speed_mps, ruling)] : []),
  ].join(", ");
  return `With the lever full open, where a line of pull comes down to a shaded step is the speed it settles at: ${meets}. ${slips}`;
}
