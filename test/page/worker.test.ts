import { readPlan } from "@rideon/sim-cli/read";
import { describe, expect, test } from "vitest";
import { answering, type Done } from "../../packages/sim-cli/src/questions/report/worker.js";
import { DRAWS } from "../../packages/sim-core/src/index.js";
import { SITE } from "../cli/command.js";

const { plan, loco, tables } = readPlan(`${SITE}plan.yaml`);
// Short, level, and little charge: soon worked out.
const track = {
  distance_m: [0, 60],
  height_m: [0, 0],
  curvature_radpm: [0, 0],
  limit_mps: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  place: ["", ""],
};
const filesWith = (passengers: number) => ({
  plan: { ...plan, passengers, charge: 0.03, stops: [], track: { ...plan.track, kind: "end-to-end" as const } },
  loco,
  track,
  tables,
});

describe("the page's worker", () => {
  test("gives up turns that the next overtakes, and answers the last with its own figures", async () => {
    const told: Done[] = [];
    const ask = answering((done) => "day" in done && told.push(done));
    await Promise.all([1, 2, 3].map((turn) => ask({ turn, files: filesWith(turn) })));
    expect(told.map(({ turn }) => turn)).toEqual([3]);
    const alone: Done[] = [];
    await answering((done) => "day" in done && alone.push(done))({ turn: 1, files: filesWith(3) });
    expect(told[0]?.day).toEqual(alone[0]?.day);
  });
  test("answers every turn that is let come to its end", async () => {
    const told: number[] = [];
    const ask = answering((done) => "day" in done && told.push(done.turn));
    await ask({ turn: 1, files: filesWith(0) });
    await ask({ turn: 2, files: filesWith(0) });
    expect(told).toEqual([1, 2]);
  });
  test("tells how sure that is once it knows", async () => {
    const told: string[] = [];
    await answering((done) => told.push("day" in done ? "day" : `bands of ${done.sureness.draws} draws`))({
      turn: 1,
      files: filesWith(2),
    });
    expect(told).toEqual(["day", `bands of ${DRAWS.limits} draws`]);
  });
});
