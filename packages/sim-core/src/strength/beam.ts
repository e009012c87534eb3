/** Where a load stands on a shaft in two bearings: outside them, or between them; from the nearest bearing's middle. */
export interface Place {
  readonly at: "overhung" | "inboard";
  readonly distance_m: number;
  /** Between the bearings. */
  readonly spacing_m: number;
}

/** The greatest bending moment that one load makes: F a where it is overhung, F a (L - a) / L between the bearings. */
export function bendingMoment_Nm(load_N: number, { at, distance_m, spacing_m }: Place): number {
  const lever_m = at === "overhung" ? distance_m : (distance_m * (spacing_m - distance_m)) / spacing_m;
  return load_N * lever_m;
}

/** What one load puts on the bearing next to it and on the far one, without signs, N. */
export function onBearings_N(load_N: number, { at, distance_m, spacing_m }: Place): { near_N: number; far_N: number } {
  const share = distance_m / spacing_m;
  return { near_N: load_N * (at === "overhung" ? 1 + share : 1 - share), far_N: load_N * share };
}
