import { expect, test } from "vitest";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { badEnd, bandInWords } from "../../packages/sim-cli/src/words/sureness.js";

const eyes = eyesFor("metric", undefined, { distance_m: [], place: [] } as never);
const band = (p05: number, p95: number) => ({ p05, p25: p05, p50: (p05 + p95) / 2, p75: p95, p95 });

test("the end to be counted on is never rounded to the better side", () => {
  expect(badEnd("stop_m", band(9.1, 17.2), eyes)).toBe("longest stop, braked no more than 18 m");
  expect(badEnd("stop_m", band(9.1, 18), eyes)).toBe("longest stop, braked no more than 18 m");
  expect(badEnd("run_on_m", band(82, 143), eyes)).toBe("runs on with no brake no more than 150 m");
  expect(badEnd("laps_to_reserve", band(29, 61), eyes)).toBe("laps to the reserve at least 29");
  expect(badEnd("laps_to_reserve", band(128, 390), eyes)).toBe("laps to the reserve at least 120");
  expect(badEnd("passengers_it_can_restart", band(0, 7), eyes)).toBe("passengers it restarts with at least 0");
  expect(badEnd("passengers_it_can_restart", band(-1, 7), eyes)).toBe("passengers it restarts with: not even empty");
});

test("no gradient is negative: none that it starts on is told as none", () => {
  expect(bandInWords("restart_gradient_percent", band(-1.6, -0.2), eyes)).toBe("none");
  expect(bandInWords("restart_gradient_percent", band(-1, 2), eyes)).toBe("none to 1 in 50");
});
