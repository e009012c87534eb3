/** Stands under every answer that a person might act on. */
export const CAUTION =
  "This is a simulation, and some of its figures are assumed. Prove it on your own track with nobody aboard before anyone " +
  "rides. What may carry passengers is decided by your club's, your insurer's and the national rules for miniature " +
  "railways, and by a competent person's inspection, not by these numbers.";
