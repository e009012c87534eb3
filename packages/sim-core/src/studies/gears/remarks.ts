import { CHAINS, USUAL_CHAIN } from "../../parts/chain.data.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import { areMixedUp, SERVICE_FACTOR } from "../../parts/chain.load.js";
import type { Gears } from "../../parts/gears.js";
import type { ChainRow } from "./chain.row.js";

/** How the rows came about. */
export interface Considered {
  /** Were the teeth the usual stock, for want of a list? */
  stocked: boolean;
  choices: number;
  simulated: number;
  /** Of all rows. */
  chains: readonly ChainRow[];
  /** Do the wheels of every row slip before it starts on the worst place? */
  gripless: boolean;
}

/** Something to be known of an answer beside its rows: a fixed code, and what it is about. */
export type GearsRemark =
  /** Whatever the gears, the driven wheels slip before it starts on the worst place here. */
  | { code: "no_gearing_cures_grip" }
  /** So many of the choices were simulated; the others are worse by steady sums, or like one that was. */
  | { code: "shortlist"; simulated: number; choices: number }
  /** No teeth were given: those that shops usually keep. */
  | { code: "stocked_teeth" }
  /** The loco file names no chain: this one is taken (common practice, no source). */
  | { code: "chain_assumed"; chain: ChainSize }
  /** Of the same pitch but not the same roller. */
  | { code: "mixed_chains"; chains: [ChainSize, ChainSize] }
  /** No published power rating covers them. */
  | { code: "no_rating"; chains: ChainSize[] }
  /** So many times the motor's rated power is what a chain is to be rated for. */
  | { code: "rating"; service_factor: number }
  /** Rated as the inch chain of the same pitch, for want of tables of their own. */
  | { code: "rating_borrowed"; chains: ChainSize[] }
  /** Without centre distances wrap, links and slack are not worked out. */
  | { code: "no_centres" };

/** What was taken for granted, and what the figures are worth. */
export function remarksOn(own: Gears, { stocked, choices, simulated, chains, gripless }: Considered): GearsRemark[] {
  const remarks: GearsRemark[] = [];
  const named = own.stages.flatMap(({ chain }) => chain ?? []);
  const used = [...new Set(chains.map(({ chain }) => chain))];

  if (gripless) remarks.push({ code: "no_gearing_cures_grip" });
  if (simulated < choices) remarks.push({ code: "shortlist", simulated, choices });
  if (stocked) remarks.push({ code: "stocked_teeth" });
  if (named.length === 0) remarks.push({ code: "chain_assumed", chain: USUAL_CHAIN });
  for (const pair of mixedUp(used)) remarks.push({ code: "mixed_chains", chains: pair });
  const unrated = used.filter((size) => !CHAINS[size].rating);
  if (unrated.length > 0) remarks.push({ code: "no_rating", chains: unrated });
  if (used.some((size) => CHAINS[size].rating))
    remarks.push({ code: "rating", service_factor: SERVICE_FACTOR.high_impact_or_reversing });
  const borrowed = used.filter((size) => CHAINS[size].rating && size.endsWith("B"));
  if (borrowed.length > 0) remarks.push({ code: "rating_borrowed", chains: borrowed });
  if (chains.some(({ centres_m }) => centres_m === null)) remarks.push({ code: "no_centres" });
  return remarks;
}

const mixedUp = (sizes: readonly ChainSize[]): [ChainSize, ChainSize][] =>
  sizes.flatMap((a, i) =>
    sizes.slice(i + 1).flatMap((b): [ChainSize, ChainSize][] => (areMixedUp(CHAINS[a], CHAINS[b]) ? [[a, b]] : [])),
  );
