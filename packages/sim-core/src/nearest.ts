/** Longer names are never near another; comparing them would only cost time. */
const LONGEST = 40;

/** The candidate that differs from `name` by the fewest slips of the finger, if few enough. */
export function nearest(name: string, candidates: readonly string[]): string | undefined {
  if (name.length > LONGEST) return undefined;
  const typed = name.toLowerCase().replaceAll(/[- ]/g, "_");
  let best: string | undefined;
  let least = Math.floor(Math.max(3, typed.length) / 3) + 1;
  for (const candidate of candidates) {
    const distance = slips(typed, candidate.toLowerCase().replaceAll("-", "_"));
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Letters put in, left out, changed or swapped with their neighbour (optimal string alignment). */
function slips(a: string, b: string): number {
  let twoBack: number[] = [];
  let back = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = back[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      row[j] = Math.min(changed, back[j] + 1, row[j - 1] + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j], twoBack[j - 2] + 1);
    }
    twoBack = back;
    back = row;
  }
  return back[b.length];
}
