import { type ChainRow, figures, formatPercent } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { table } from "../../words/table.js";

/** What is known of each chain of a drive, one beside the other, from the motor on. */
export function chainLines(chains: readonly ChainRow[], { of }: Eyes, width: number): string[] {
  const millimetres = (value_m: number | null) => (value_m === null ? "" : `${figures(1000 * value_m)} mm`);
  const newtons = (value_N: number | null) => (value_N === null ? "" : of(value_N, "force"));
  const rows: [name: string, of: (row: ChainRow) => string][] = [
    ["", ({ teeth, chain }) => `${teeth.join("/")}, ${chain}`],
    ["chain speed, as wanted", ({ chain_speed_mps }) => `${figures(chain_speed_mps)} m/s`],
    ["pull, as wanted", ({ mean_tension_N }) => newtons(mean_tension_N)],
    ["pull, at its hardest", ({ peak_tension_N }) => newtons(peak_tension_N)],
    ["breaking load over that", ({ margin }) => (margin === null ? "–" : figures(margin))],
    ["rated, at the motor's rated speed", ({ rating_W }) => (rating_W === null ? "not known" : of(rating_W, "power"))],
    ["should be rated", ({ rating_wanted_W }) => of(rating_wanted_W, "power")],
    ["unevenness", ({ chordal_variation }) => formatPercent(chordal_variation)],
    ["driven, across its chain", ({ driven_across_m }) => millimetres(driven_across_m)],
    ["centres, at least", ({ least_centres_m }) => millimetres(least_centres_m)],
    ["centres", ({ centres_m }) => millimetres(centres_m)],
    ["links", ({ links }) => (links === null ? "" : String(links))],
    ["wrap of the small one", ({ wrap_deg }) => (wrap_deg === null ? "" : `${figures(wrap_deg)}°`)],
    ["slack to set", ({ slack_m }) => millimetres(slack_m)],
    ["pull of that slack", ({ slack_tension_N }) => newtons(slack_tension_N)],
  ];
  const filled = rows.map(([name, tell]) => [name, ...chains.map(tell)]).filter((row) => row.slice(1).some(Boolean));
  return table(filled, { width, right: chains.map((_, i) => i + 1) });
}
