/** Answers each question once: one that is the same as an earlier one has that one's answer. */
export function askedOnce<Q, A>(isSame: (a: Q, b: Q) => boolean, answer: (question: Q) => A): (question: Q) => A {
  const known: { question: Q; answered: A }[] = [];
  return (question) => {
    const same = known.find((each) => isSame(each.question, question));
    if (same) return same.answered;
    const answered = answer(question);
    known.push({ question, answered });
    return answered;
  };
}

/** Differ two things in nothing but what is left aside? What a change leaves alone is the same object in both. */
export const isSameBut = <T extends object>(a: T, b: T, ...aside: readonly (keyof T)[]): boolean =>
  a === b || (Object.keys(a) as (keyof T)[]).every((key) => a[key] === b[key] || aside.includes(key));
