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

/** `1 to 3, 5`; where there are too many runs, how many cases more. */
export function casesTold({ count, runs }: Cases): string {
  const told = runs.map(([from, to]) =>
    from === to ? `${from}` : from === to - 1 ? `${from}, ${to}` : `${from} to ${to}`,
  );
  const left = count - runs.reduce((sum, [from, to]) => sum + to - from + 1, 0);
  return `${told.join(", ")}${left > 0 ? ` and ${left} more` : ""}`;
}
