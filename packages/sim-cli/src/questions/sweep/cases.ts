/** Numbers of cases, as many as there may be: runs of neighbours, the first of them. */
export interface Cases {
  count: number;
  runs: [from: number, to: number][];
}

/** Nobody reads more of them in a line. */
const MOST_RUNS = 8;

export const noCases = (): Cases => ({ count: 0, runs: [] });

/** Adds a case; they come in order. */
export function counted(cases: Cases, number: number): void {
  cases.count++;
  const last = cases.runs.at(-1);
  const kept = cases.runs.reduce((sum, [from, to]) => sum + to - from + 1, 0);
  // After one that was left out, none is the neighbour of the last.
  if (kept < cases.count - 1) return;
  if (last && number === last[1] + 1) last[1] = number;
  else if (cases.runs.length < MOST_RUNS) cases.runs.push([number, number]);
}

/** `1 to 3, 5`; where there are too many runs, or more than have room in so many characters, how many cases more. */
export function casesTold({ count, runs }: Cases, room = Number.POSITIVE_INFINITY): string {
  for (let kept = runs.length; kept > 1; kept--) {
    const told = runsTold(count, runs.slice(0, kept));
    if (told.length <= room) return told;
  }
  // The first is told whatever the room.
  return runsTold(count, runs.slice(0, 1));
}

function runsTold(count: number, runs: Cases["runs"]): string {
  const told = runs.map(([from, to]) =>
    from === to ? `${from}` : from === to - 1 ? `${from}, ${to}` : `${from} to ${to}`,
  );
  const left = count - runs.reduce((sum, [from, to]) => sum + to - from + 1, 0);
  return `${told.join(", ")}${left > 0 ? ` and ${left} more` : ""}`;
}

/** Beside a list of cases on a terminal stand a number and a sentence: so much of its width is the list's. */
export const roomForCases = (columns: number): number => Math.floor(0.4 * columns);
