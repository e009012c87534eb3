import { figures, type Train } from "@rideon/sim-core";

/** Nobody fits a smaller sprocket by mistake. */
const FEWEST = 7;
/** A tooth count is told where it comes to the ratio as nearly as this. */
const NEAR = 0.02;
const ORDINAL = ["first", "second", "third", "fourth"];

interface Fit {
  words: string;
  off: number;
}

/**
 * The one sprocket whose teeth would change the ratio by this much: `13 teeth in place of 12 on the second driving
 * sprocket`; nothing where none comes near.
 * @param by turns of the motor for one of the wheels, over those of the files
 */
export function teethFor(by: number, { gears: { stages } }: Pick<Train, "gears">): string | undefined {
  const fits = stages.flatMap(({ teeth }, i): Fit[] => {
    if (!teeth) return [];
    const place = stages.length > 1 ? `${ORDINAL[i] ?? `${i + 1}th`} ` : "";
    return [fit(teeth[0], 1 / by, `${place}driving sprocket`), fit(teeth[1], by, `${place}driven sprocket`)].flatMap(
      (each) => each ?? [],
    );
  });
  return fits.sort((a, b) => a.off - b.off)[0]?.words;
}

function fit(teeth: number, times: number, place: string): Fit | undefined {
  const other = Math.round(teeth * times);
  const off = Math.abs(other / (teeth * times) - 1);
  if (other === teeth || other < FEWEST || off > NEAR) return undefined;
  return { words: `${other} teeth in place of ${teeth} on the ${place}`, off };
}

/** `16.2 to 1 in place of 12.7 to 1`. */
export const ratioWords = (by: number, { gears: { ratio } }: Pick<Train, "gears">): string =>
  `${figures(Number((by * ratio).toPrecision(3)))} to 1 in place of ${figures(ratio)} to 1`;
