import {
  createPlan,
  type LocoDefinition,
  type MotorTables,
  type PlanDefinition,
  runOnce,
  type TraceRow,
} from "@rideon/sim-core";

/** Running steadily at the plan's speed on one gradient. */
export interface Steady {
  speed_mps: number;
  motor_current_A: number;
  battery_current_A: number;
  battery_voltage_V: number;
}

interface Train {
  plan: PlanDefinition;
  loco: LocoDefinition;
  tables: MotorTables;
}

/** Long enough to come up to speed and settle, m. */
const RUN_m = 150;
/** Where it is read: settled, and before it slows for the end. */
const READ_AT = 0.6;
/** To come up to speed, and as long as anything takes with its lever held. */
const SETTLES_s = 60;
const SLOWLY_s = 600;

/**
 * What the instruments read on a long straight gradient, by running it there from rest; null where it does not get away.
 * @param sine of the gradient, uphill +
 */
export function steadyOn({ plan, loco, tables }: Train, sine: number): Steady | null {
  const { stops: _, laps: __, duration_s: ___, ...kept } = plan;
  const track = { ...plan.track, kind: "end-to-end" as const, at_ends: "turn" as const };
  const first = createPlan({ ...kept, track }, loco, straight(1000, sine), tables);
  const end_m = first.train.length_m + RUN_m;
  // Over once it is read, or should be: it runs at no less than a walk.
  const duration_s = Number.isNaN(first.speed_mps) ? SLOWLY_s : SETTLES_s + (RUN_m * READ_AT) / first.speed_mps;
  const ready = createPlan({ ...kept, track, duration_s }, loco, straight(end_m, sine), tables);
  const read_m = first.train.length_m + READ_AT * RUN_m;
  let read: TraceRow | undefined;
  runOnce(ready, {
    every_s: 0.5,
    onRow(row) {
      if (row.distance_m <= READ_AT * RUN_m && row.chainage_m <= read_m) read = row;
    },
  });
  if (!read || read.distance_m < 0.8 * READ_AT * RUN_m) return null;
  const { speed_mps, motor_current_A, battery_current_A, battery_voltage_V } = read;
  return { speed_mps, motor_current_A, battery_current_A, battery_voltage_V };
}

const straight = (length_m: number, sine: number) => ({
  distance_m: [0, length_m],
  height_m: [0, sine * length_m],
  curvature_radpm: [0, 0],
  limit_mps: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  place: ["", ""],
});
