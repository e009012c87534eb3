import { endedBy } from "../../event.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { sound } from "../../record/sound.js";
import { createPlan, type Plan } from "../../train/plan.js";
import { ballast } from "../ballast/ballast.js";
import { couplings } from "../couplings/couplings.js";
import type { PlanFiles } from "../limits/limits.js";
import { runOnce } from "../once.js";
import { shafts } from "../shafts/shafts.js";
import type { PartLine, PartsAnswer } from "./answer.js";
import { brakeLines, brakesJudged } from "./brake.js";
import { changesTo } from "./changes.js";
import { chainLines, shaftLines } from "./drive.js";
import { batteryLines, wiringLines } from "./electric.js";
import { controllerLine, motorLine, resistorLines } from "./motor.js";

/**
 * The list to take to the shop: what is in the files is had, and told with what is asked of it; what is not is needed, with
 * the figures to order it by. Each has the rule behind it and how near the design is to it.
 * @param beside the same working with another loco: what its list has otherwise is told
 * @throws InputError, RunError
 */
export function parts(files: PlanFiles, beside?: PlanFiles): PartsAnswer {
  const { plan, ran, round, lines, ...loads } = listOf(files);
  return sound({
    outcome: ran.outcome,
    ended_by: round ? null : endedBy(ran.events),
    lines,
    ...loads,
    ballast: ballast(files, { passengers: plan.passengers, rail: "wet" }),
    changes: beside ? changesTo(lines, brakesJudged(listOf(beside))) : null,
    needed: lines.filter(({ have }) => !have).length,
    wanting: lines.filter(({ enough }) => enough === false).length,
  });
}

/** The list by itself, and what it was made of. */
function listOf(files: PlanFiles) {
  const plan = createPlan(files.plan, files.loco, files.track, files.tables);
  const ran = runOnce(plan);
  const round = ran.outcome === "completed";
  const carried = shafts(plan);
  const coupled = couplings(plan);
  const regenerates = plan.train.controller.electricBrake === "regenerative";
  const lines: PartLine[] = [
    motorLine(plan, ran),
    controllerLine(plan, ran),
    ...resistorLines(plan),
    ...chainLines(plan, carried),
    ...shaftLines(carried),
    wheelsLine(files.loco),
    ...batteryLines(plan, files.loco, asNew(files) ?? plan),
    ...wiringLines(ran.protection, { loco: files.loco, regenerates, round }),
    ...brakeLines(plan),
    ...coupled.rows.map(
      ({ coupling, with_jerks_N }): PartLine => ({
        part: "coupling",
        place: String(coupling),
        count: 1,
        have: false,
        figures: { force_N: with_jerks_N },
        wanted: { force_N: with_jerks_N },
        margin: null,
        enough: null,
        rule: "jerk_factor",
      }),
    ),
  ];
  return { plan, ran, round, lines, shafts: carried, couplings: coupled };
}

const wheelsLine = ({ wheels }: LocoDefinition): PartLine => ({
  part: "wheels",
  place: null,
  count: 2 * (wheels.axles ?? 2),
  have: true,
  figures: { diameter_m: wheels.diameter_m },
  wanted: {},
  margin: null,
  enough: null,
  rule: "as_chosen",
});

/** With a battery as it was bought; nothing where it is so. */
const asNew = ({ plan, loco, track, tables }: PlanFiles): Plan | undefined =>
  loco.battery.health === undefined
    ? undefined
    : createPlan(plan, { ...loco, battery: { ...loco.battery, health: 1 } }, track, tables);
