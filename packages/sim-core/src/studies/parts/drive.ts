import { CHAINS, USUAL_CHAIN } from "../../parts/chain.data.js";
import { centresFor_m, evenLinks, linksFor } from "../../parts/chain.js";
import { LEAST_MARGIN } from "../../parts/chain.load.js";
import type { Plan } from "../../train/plan.js";
import type { ChainRow } from "../gears/chain.row.js";
import { chainsOf } from "../gears/chains.js";
import { dutyOf, jobOf } from "../gears/shortlist.js";
import type { ShaftRow, ShaftsAnswer } from "../shafts/answer.js";
import type { PartLine } from "./answer.js";

/** Bright bar is sold in these diameters, mm: common practice, no source. */
const BAR_mm = [8, 10, 12, 14, 15, 16, 17, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 60, 70, 80, 100];

/** The next thicker bar, m; as thick as it must be where none is sold so thick. */
export const barFor_m = (least_m: number): number =>
  (BAR_mm.find((each) => each / 1000 >= least_m - 1e-9) ?? 1000 * least_m) / 1000;

/** Sprockets and chains, from the motor to the axle. */
export function chainLines(plan: Plan, { rows }: ShaftsAnswer): PartLine[] {
  const { train } = plan;
  const job = jobOf(plan);
  const { chains } = chainsOf(train.gears, dutyOf(job, train, job.wanted_mps));
  const stages = train.gears.stages.flatMap((stage, i) => (stage.teeth ? [{ stage, i }] : []));
  return stages.flatMap(({ stage, i }, k) => {
    const row = chains[k];
    const chain = stage.chain ?? USUAL_CHAIN;
    const place = String(i + 1);
    const named = stage.chain !== undefined;
    const sprocket = (teeth: number, shaft: ShaftRow): PartLine => ({
      part: "sprocket",
      place: shaft.shaft,
      count: 1,
      have: true,
      figures: { teeth, chain, ...(shaft.diameter_m !== null && { bore_m: shaft.diameter_m }) },
      wanted: shaft.diameter_m === null ? { bore_m: barFor_m(shaft.least_diameter_m) } : {},
      margin: null,
      enough: null,
      rule: "as_chosen",
    });
    return [
      sprocket(row.teeth[0], rows[i]),
      sprocket(row.teeth[1], rows[i + 1]),
      {
        part: "chain",
        place,
        count: 1,
        have: named,
        figures: { chain, ...lengthOf(row, stage.centres_m !== undefined) },
        wanted: {},
        margin: row.margin === null ? null : row.margin / LEAST_MARGIN,
        enough: row.margin === null ? null : row.margin >= LEAST_MARGIN,
        rule: "chain_margin",
      },
    ];
  });
}

/** Links and centres; with none given, the least centres at which whole even links lie straight and wrap enough. */
function lengthOf(row: ChainRow, given: boolean) {
  const { pitch_m } = CHAINS[row.chain];
  if (given && row.links !== null && row.centres_m !== null) return { links: row.links, centres_m: row.centres_m };
  let links = evenLinks(linksFor(pitch_m, row.teeth, row.least_centres_m));
  while (centresFor_m(pitch_m, row.teeth, links) < row.least_centres_m) links += 2;
  return { links, least_centres_m: centresFor_m(pitch_m, row.teeth, links), each_two_links_m: pitch_m };
}

/** Shafts with their keys and bearings, from the motor to the axle; the motor comes with its own. */
export function shaftLines({ rows }: ShaftsAnswer): PartLine[] {
  return rows.flatMap((row): PartLine[] => {
    const diameter_m = row.diameter_m ?? barFor_m(row.least_diameter_m);
    const place = row.shaft;
    const bearing = row.bearing;
    const lines: PartLine[] = [
      {
        part: "shaft",
        place,
        count: 1,
        have: row.diameter_m !== null,
        figures: { diameter_m, material: row.material },
        wanted: { diameter_m: row.least_diameter_m },
        margin: row.margin,
        enough: row.enough,
        rule: "shaft_stress",
      },
    ];
    const key = row.fixings.find(({ by }) => by === "key");
    if (row.key_wanted || key)
      lines.push({
        part: "key",
        place,
        count: row.pulls.length || 1,
        have: key !== undefined,
        figures: row.key_wanted
          ? { width_m: row.key_wanted.width_m, height_m: row.key_wanted.height_m, length_m: row.key_wanted.length_m }
          : {},
        wanted: {},
        margin: key?.margin ?? null,
        enough: key?.enough ?? null,
        rule: "key_crushing",
      });
    if (row.shaft !== "motor")
      lines.push({
        part: "bearing",
        place,
        count: 2,
        have: bearing.rating_N !== null,
        figures: {
          bore_m: diameter_m,
          ...(bearing.rating_N !== null
            ? { rating_N: bearing.rating_N }
            : bearing.rating_wanted_N !== null && { rating_N: bearing.rating_wanted_N }),
        },
        wanted: bearing.rating_wanted_N === null ? {} : { rating_N: bearing.rating_wanted_N },
        margin:
          bearing.rating_N !== null && bearing.rating_wanted_N !== null && bearing.rating_wanted_N > 0
            ? bearing.rating_N / bearing.rating_wanted_N
            : null,
        enough:
          bearing.rating_N !== null && bearing.rating_wanted_N !== null
            ? bearing.rating_N >= bearing.rating_wanted_N
            : null,
        rule: "bearing_life",
      });
    return lines;
  });
}
