import type { Notes } from "@rideon/sim-core";

/** That the profile is not good enough to act on, where its own doubt says so: a sentence or two beside every judgement. */
export const doubtfulProfile = ({ warnings }: Notes): string[] =>
  warnings.flatMap(({ code, message }) =>
    code === "doubtful_profile" ? [`${message.slice(0, 1).toUpperCase()}${message.slice(1)}.`] : [],
  );

/** The same in a few words. */
export const DOUBTFUL_IN_SHORT = "The profile is NOT good enough to act on: measure its gradients first";
