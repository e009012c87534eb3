import { expect, test } from "vitest";
import { doubtOf } from "../../packages/sim-core/src/doubt/doubts.js";
import { draw } from "../../packages/sim-core/src/doubt/draw.js";
import { compare, type LogColumns } from "../../packages/sim-core/src/index.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { INSTRUMENT } from "../../packages/sim-core/src/studies/trial/instruments.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";
import { draws } from "../support/draws.js";
import { logOf, rowsOf } from "../support/logs.js";

const { lever: _, ...held } = PLAN;
const FILES: PlanFiles = {
  plan: { ...held, speed_mps: 1.5 },
  loco: LOCO,
  track: CIRCUIT,
  doubts: { "loco.resistance.rolling": { spread: "normal", half: 0.004 } },
};

/** A lap of a loco of which every figure is off as it may be, read by meters that are off as they may be. */
function madeUp(seed: number): { log: LogColumns; rolling: number } {
  const { normal } = draws(1000 + seed);
  const doubts = doubtOf(FILES);
  const truth = draw(
    FILES,
    doubts,
    Float64Array.from(doubts, () => normal()),
    seed,
  );
  const log = logOf(rowsOf(truth, 1), { speed_mps: 0.03, current_A: 0.3, voltage_V: 0.03, seed });
  const read = (column: ArrayLike<number>, { gain, besides }: { gain: number; besides: number }) => {
    const [scale, zero] = [1 + gain * normal(), besides * normal()];
    return Float64Array.from(column, (each) => scale * each + zero);
  };
  return {
    rolling: truth.loco.resistance!.rolling!,
    log: {
      ...log,
      battery_current: read(log.battery_current!, INSTRUMENT.ammeter),
      motor_current: read(log.motor_current!, INSTRUMENT.ammeter),
      battery_voltage: read(log.battery_voltage!, INSTRUMENT.voltmeter),
    },
  };
}

/** Of 95 that were looked at once, 89 intervals held; here as many as do not take all day. */
const SETS = 16;

test("the interval of a fitted figure holds the truth, whatever else is off", () => {
  let [within, agreeing, quantities] = [0, 0, 0];
  for (let seed = 41; seed < 41 + SETS; seed++) {
    const { log, rolling } = madeUp(seed);
    const answer = compare(FILES, log, { fit: ["loco.resistance.rolling"] });
    const [fit] = answer.fitted!;
    if (rolling >= fit!.low && rolling <= fit!.high) within++;
    for (const { within_doubt } of answer.quantities) {
      quantities++;
      if (within_doubt) agreeing++;
    }
  }
  // Nineteen in twenty, as near as so few tell: fewer than 13 of 16 would come once in a hundred.
  expect(within).toBeGreaterThanOrEqual(13);
  expect(agreeing / quantities).toBeGreaterThan(0.88);
});
