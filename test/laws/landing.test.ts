import { describe, expect, it } from "vitest";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import { motion } from "../../packages/sim-core/src/motion.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";

// Law: an event is landed on within 1e-9 s, on its far side. Each is judged by what makes it one and by how fast that moves.
const LANDING_s = 1e-9;

/** Looks on: what `measure` says at the end of each step that an event of a kind ended, the driver's own moves apart. */
function atEvents(kind: string, measure: (w: Working) => number): { observer: Observer; found: number[] } {
  const found: number[] = [];
  let landed = Number.NaN;
  let told = 0;
  return {
    found,
    observer: {
      step(w) {
        landed = measure(w);
      },
      event(w) {
        const driverLooks = Math.abs(10 * w.time_s - Math.round(10 * w.time_s)) < 1e-6;
        for (; told < w.events.length; told++) if (w.events[told].kind === kind && !driverLooks) found.push(landed);
      },
    },
  };
}

function expectWithin(found: readonly number[], least: number, beyond: number) {
  expect(found.length).toBeGreaterThanOrEqual(least);
  for (const value of found) {
    expect(value).toBeGreaterThanOrEqual(0);
    expect(value).toBeLessThanOrEqual(beyond);
  }
}

describe("events are landed on", () => {
  it("laps: the head at the mark", () => {
    const { observer, found } = atEvents("lap", (w) => w.y[at.POSITION] - w.mark_m);
    const w = run(clubPlan(CIRCUIT, { lever: 0.8, laps: 3 }), { observers: [observer] });
    expectWithin(found, 3, w.y[at.SPEED] * LANDING_s * 1.01 + 1e-12 * 720);
  });

  it("stops: the speed at 0, and set to it", () => {
    const { observer, found } = atEvents("at_rest", (w) => -w.y[at.SPEED]);
    const plan = clubPlan(
      CIRCUIT,
      { lever: 0.5, track: { kind: "end-to-end" } },
      { controller: { ...LOCO.controller, ramp_s: 0.5 } },
    );
    const w = run(plan, { observers: [observer] });
    expectWithin(found, 2, 0.5 * LANDING_s);
    expect(w.y[at.SPEED]).toBe(0);
  });

  it("slips: the rail asked for just what it can give", () => {
    const { observer, found } = atEvents("slips", (w) => Math.abs(w.now.contact_N) - w.now.staticGrip_N);
    const w = run(clubPlan(CIRCUIT, { lever: 0.8, track: { rail: "greasy" } }), { observers: [observer] });
    expect(w.outcome).toBe("slipping");
    // The contact force rises by some hundreds of newtons a second at most.
    expectWithin(found, 1, 1000 * LANDING_s);
  });

  it("the breaker: its image at 1", () => {
    const { observer, found } = atEvents("tripped", (w) => w.y[at.BREAKER] - 1);
    const plan = clubPlan(
      level(1e4),
      { lever: 1, duration_s: 3600 },
      { wiring: { ...LOCO.wiring, breaker: { rating_A: 10 } } },
    );
    const w = run(plan, { observers: [observer] });
    expect(w.outcome).toBe("tripped");
    expectWithin(found, 1, LANDING_s);
  });

  it("and the step goes on to the same grid, whatever happened on the way", () => {
    const times: number[] = [];
    const step = (w: Working) => void times.push(w.time_s);
    run(clubPlan(CIRCUIT, { lever: 0.8, laps: 2 }), { step_s: 0.05, observers: [{ step, event: () => undefined }] });
    // Events, posts and limits taking over add times of their own between; of the grid's none is left out, to the bit.
    const grid = new Set(times);
    const last = Math.floor(20 * times[times.length - 1]);
    expect(last).toBeGreaterThan(2000);
    for (let n = 1; n <= last; n++) expect(grid).toContain(n / 20);
    expect(times.length).toBeGreaterThan(last);
    expect(times.length).toBeLessThan(1.2 * last);
  });
});

describe("after an event", () => {
  it("the workings are those of the state as it then stands", () => {
    const plan = clubPlan(CIRCUIT, { lever: 0.9, duration_s: 40, track: { rail: "wet" } });
    let seen = 0;
    const event = (w: Working) => {
      const told = { ...w.now };
      motion(w, new Float64Array(at.SIZE), w.y, w.time_s);
      expect(told).toEqual(w.now);
      seen++;
    };
    run(plan, { observers: [{ step: () => undefined, event }] });
    expect(seen).toBeGreaterThan(1);
  });
});
