/**
 * Answer less the answer at half the step, number by number, in the answer's own shape. What is no number, or has no
 * counterpart, is null.
 */
export function difference(answer: unknown, half: unknown): unknown {
  if (typeof answer === "number" && typeof half === "number") return answer - half;
  if (Array.isArray(answer)) {
    if (!Array.isArray(half) || half.length !== answer.length) return null;
    return answer.map((each, i) => difference(each, half[i]));
  }
  if (typeof answer !== "object" || answer === null || typeof half !== "object" || half === null) return null;
  return Object.fromEntries(
    Object.entries(answer).map(([key, value]) => [key, difference(value, (half as Record<string, unknown>)[key])]),
  );
}
