import { InputError } from "../../errors.js";
import { mistakenFor, NEAR, SCALES } from "./mistaken.js";

/**
 * What a lap is by the log: the middle one of the spans that may be one lap or several, or of all where none may. A mark
 * that was forgotten, or is in a gap, makes two laps of one.
 */
function usualLap_m(spans: readonly number[], lap_m: number): number {
  const may = spans.flatMap((span) => {
    const laps = Math.max(1, Math.round(span / lap_m));
    const scale = (laps * lap_m) / span;
    const like = laps === 1 ? scale >= SCALES[0] && scale <= SCALES[1] : Math.abs(scale - 1) < NEAR;
    return like ? [span / laps] : [];
  });
  const rising = [...(may.length > 0 ? may : spans)].sort((a, b) => a - b);
  return rising[(rising.length - 1) >> 1];
}

/** Every lap made as long as the line is; before the first press and after the last, as the laps are in the median. */
export function stretched(raw_m: Float64Array, marks: readonly number[], lap_m: number, from_m: number, told: boolean) {
  const spans = marks.slice(1).map((mark, i) => raw_m[mark] - raw_m[marks[i]]);
  const usual_m = usualLap_m(spans, told ? lap_m : Number.NaN);
  const still = spans.findIndex((span) => !(span > 0.3 * usual_m));
  if (!(usual_m > 0) || still >= 0)
    throw new InputError([
      {
        path: `log.${marks[Math.max(0, still) + 1] + 1}`,
        message: "the lap button was pressed again before the train had gone round; take one of the presses out",
      },
    ]);
  // A press that was forgotten makes two laps of one.
  const rounds = spans.map((span) => Math.max(1, Math.round(span / usual_m)));
  const laps = rounds.reduce((a, b) => a + b, 0);
  const scale = lap_m / usual_m;
  if (told && (scale < SCALES[0] || scale > SCALES[1]))
    throw new InputError([
      {
        path: "log.1",
        message: `from one lap mark to the next it runs ${Math.round(usual_m)} m, and the line has ${Math.round(lap_m)} m${mistakenFor(scale)}. Look at the unit in the heading, and whether a mark stands for each lap`,
      },
    ]);
  const run_m = new Float64Array(raw_m.length);
  const at: number[] = [raw_m[marks[0]] * scale];
  for (const [i, each] of rounds.entries()) at.push(at[i] + each * lap_m);
  for (let i = 0, k = 0; i < raw_m.length; i++) {
    while (k < marks.length && marks[k] <= i) k++;
    if (k === 0) run_m[i] = raw_m[i] * scale;
    else if (k === marks.length) run_m[i] = at[k - 1] + (raw_m[i] - raw_m[marks[k - 1]]) * scale;
    else run_m[i] = at[k - 1] + ((raw_m[i] - raw_m[marks[k - 1]]) * rounds[k - 1] * lap_m) / spans[k - 1];
  }
  return { run_m, begins_m: from_m - at[0], scale, laps };
}
