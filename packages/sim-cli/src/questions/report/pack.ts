/** Infinity has no place in JSON; it stands there as this, which no figure is. */
const INFINITE = { infinite: 1 };

/** Values as text inside a page: no closing tag can come out of it. */
export const packed = (value: unknown): string =>
  JSON.stringify(value, (_, each) => (each === Number.POSITIVE_INFINITY ? INFINITE : each))
    .replaceAll("<", "\\u003c")
    .replaceAll("\u2028", "\\u2028")
    .replaceAll("\u2029", "\\u2029");

export const unpacked = (text: string): unknown =>
  JSON.parse(text, (_, each) =>
    typeof each === "object" && each !== null && each.infinite === 1 ? Number.POSITIVE_INFINITY : each,
  );
