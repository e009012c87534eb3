import type { PartChange, PartLine } from "./answer.js";

/** What the list of another loco has otherwise: parts of one kind and place are held beside each other in their order. */
export function changesTo(before: readonly PartLine[], after: readonly PartLine[]): PartChange[] {
  const [was, is] = [named(before), named(after)];
  const names = [...new Set([...was.keys(), ...is.keys()])];
  return names.flatMap((name) => {
    const change = { before: was.get(name) ?? null, after: is.get(name) ?? null };
    return alike(change) ? [] : [change];
  });
}

function named(lines: readonly PartLine[]): Map<string, PartLine> {
  const counts = new Map<string, number>();
  return new Map(
    lines.map((line) => {
      const name = `${line.part} ${line.place ?? ""}`;
      const count = (counts.get(name) ?? 0) + 1;
      counts.set(name, count);
      return [`${name} ${count}`, line];
    }),
  );
}

/** A bore that is in no file is ordered by what is wanted. */
const ordered = ({ figures, wanted }: PartLine) => [figures, wanted.bore_m];

/** The same to order, and good for as much: what is asked of it may differ. */
function alike({ before, after }: PartChange): boolean {
  if (!before || !after) return false;
  return (
    before.count === after.count &&
    before.have === after.have &&
    JSON.stringify(ordered(before)) === JSON.stringify(ordered(after)) &&
    !(after.enough === false && before.enough !== false)
  );
}
