import { CHAINS } from "../../parts/chain.data.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import { areMixedUp, SERVICE_FACTOR } from "../../parts/chain.load.js";
import type { Gears } from "../../parts/gears.js";
import type { ChainRow } from "./chain.row.js";
import { USUAL_CHAIN } from "./chains.js";
import type { Fault } from "./faults.js";

/** How the rows came about. */
export interface Considered {
  /** Were the teeth the usual stock, for want of a list? */
  stocked: boolean;
  choices: number;
  simulated: number;
  /** Of all rows. */
  chains: readonly ChainRow[];
}

/** What is to be known of an answer beside its rows: what was taken for granted, and what the figures are worth. */
export function remarksOn(own: Gears, { stocked, choices, simulated, chains }: Considered): Fault[] {
  const remarks: Fault[] = [];
  const remark = (code: string, message: string) => remarks.push({ code, message });
  const named = own.stages.flatMap(({ chain }) => chain ?? []);
  const used = [...new Set(chains.map(({ chain }) => chain))];

  if (simulated < choices) {
    const how = "ranked by speed, pull, current and chains in steady running; of like ratios the best was kept";
    remark("shortlist", `${simulated} of ${choices} choices were simulated, ${how}`);
  }
  if (stocked) {
    remark("stocked_teeth", "no teeth were given: these are the sizes that shops usually keep");
  }
  if (named.length === 0) {
    remark("chain_assumed", `no chain is named in the loco file: ${USUAL_CHAIN} is taken (common practice, no source)`);
  }
  for (const [a, b] of mixedUp(used)) {
    remark(
      "mixed_chains",
      `${a} and ${b} have the same pitch but not the same roller: keep chains and sprockets apart`,
    );
  }
  const unrated = used.filter((size) => !CHAINS[size].rating);
  if (unrated.length > 0) remark("no_rating", `no published power rating covers ${unrated.join(" and ")}`);
  if (used.some((size) => CHAINS[size].rating)) {
    const service = `${SERVICE_FACTOR.high_impact_or_reversing} times the motor's rated power, for starting and reversing under load`;
    remark("rating", `a chain should be rated for ${service}`);
  }
  const borrowed = used.filter((size) => CHAINS[size].rating && size.endsWith("B"));
  if (borrowed.length > 0) {
    remark(
      "rating_borrowed",
      `${borrowed.join(" and ")} rated as the inch chain of the same pitch: no table of their own`,
    );
  }
  if (chains.some(({ centres_m }) => centres_m === null)) {
    remark("no_centres", "without centre distances in the loco file, wrap, links and slack are not worked out");
  }
  return remarks;
}

const mixedUp = (sizes: readonly ChainSize[]): [ChainSize, ChainSize][] =>
  sizes.flatMap((a, i) =>
    sizes.slice(i + 1).flatMap((b): [ChainSize, ChainSize][] => (areMixedUp(CHAINS[a], CHAINS[b]) ? [[a, b]] : [])),
  );
