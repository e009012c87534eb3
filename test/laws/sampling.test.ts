import fc from "fast-check";
import { expect, it } from "vitest";
import type { WholeColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { summariser } from "../../packages/sim-core/src/record/summary.js";
import { tracer } from "../../packages/sim-core/src/record/trace.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { createPlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { anyParts } from "../support/arbitrary.js";
import { CIRCUIT, clubPlan } from "../support/club.js";

// Laws: who looks on, and how a surveyor cuts the same line into stretches, changes nothing.

const answers = (w: Working) => ({ y: [...w.y], time_s: w.time_s, outcome: w.outcome, events: w.events });

it.each([0.5, 0.1, 0.013])("a trace every %d s leaves every bit of the answer as it is", (every_s) => {
  for (const plan of [clubPlan(CIRCUIT, { lever: 0.8 }), clubPlan(CIRCUIT, { speed_mps: 1.6, charge: 0.4 })]) {
    const observers = [tracer(every_s, () => undefined), summariser().observer];
    expect(answers(run(plan, { observers }))).toEqual(answers(run(plan)));
  }
});

it("the trace is the working's own: its rows lie on the steps they fall on", () => {
  const steps = new Map<string, number>();
  const rows: { time_s: number; speed_mps: number }[] = [];
  const step = (w: Working) => void steps.set(w.time_s.toFixed(6), w.y[at.SPEED]);
  run(clubPlan(CIRCUIT, { lever: 0.8 }), {
    step_s: 0.05,
    observers: [{ step, event: () => undefined }, tracer(0.5, (row) => void rows.push(row))],
  });
  const common = rows.filter((row) => row.time_s > 0 && steps.has(row.time_s.toFixed(6)));
  expect(common.length).toBeGreaterThan(100);
  for (const row of common) expect(row.speed_mps).toBeCloseTo(steps.get(row.time_s.toFixed(6))!, 12);
});

/** The same line with one more post on the straight between two. */
function split(columns: WholeColumns, stretch: number, share: number): WholeColumns {
  const insert = <T>(values: readonly T[], value: T) => [
    ...values.slice(0, stretch + 1),
    value,
    ...values.slice(stretch + 1),
  ];
  const part = (values: readonly number[]) => values[stretch] + share * (values[stretch + 1] - values[stretch]);
  return {
    distance_m: insert(columns.distance_m, part(columns.distance_m)),
    height_m: insert(columns.height_m!, part(columns.height_m!)),
    curvature_radpm: insert(columns.curvature_radpm, columns.curvature_radpm[stretch]),
    limit_mps: insert(columns.limit_mps, columns.limit_mps[stretch]),
    place: insert(columns.place, columns.place[stretch]),
  };
}

function expectSame(one: Working, other: Working) {
  expect(other.outcome).toBe(one.outcome);
  expect(other.events.map((event) => event.kind)).toEqual(one.events.map((event) => event.kind));
  for (const i of [at.POSITION, at.RUN, at.DRAWN_CHARGE, at.DRAWN, at.WINDING]) {
    expect(Math.abs(other.y[i] - one.y[i])).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(one.y[i])));
  }
}

it("posts split in two leave the answer as it is, to rounding", () => {
  const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
  fc.assert(
    fc.property(anyParts, share, fc.nat({ max: 5 }), ({ columns, plan, loco }, where, stretch) => {
      const cut = split(columns, stretch % (columns.distance_m.length - 1), where);
      const made = (line: WholeColumns): Plan => createPlan({ ...plan, duration_s: 60 }, loco, line);
      expectSame(run(made(columns)), run(made(cut)));
    }),
    { seed: 11, numRuns: 40 },
  );
});
