import {
  type ChainFault,
  type Fault,
  type GearsAnswer,
  type GearsRemark,
  type GearsRow,
  shown,
} from "@rideon/sim-core";
import { detailOf, eventInWords } from "../../words/events.js";
import { type Exact, exactIn } from "../../words/eyes.js";

type Code = Fault["code"];
type Of<C extends Code> = Extract<Fault, { code: C }>;

/** What is wrong with a choice, and what it should be. */
export const faultInWords = (fault: Fault, exact: Exact): string =>
  (FAULTS[fault.code] as (fault: Fault, exact: Exact) => string)(fault, exact);

const ofStage = ({ driving_teeth, driven_teeth }: ChainFault, found: string): string =>
  `${driving_teeth}/${driven_teeth}: ${found}`;

const FAULTS: { [C in Code]: (fault: Of<C>, exact: Exact) => string } = {
  no_restart({ restart_gradient_percent: most, ruling_gradient_percent: ruling, limited_by, pull_N }, exact) {
    const why = limited_by === "adhesion" ? "the wheels slip" : `the motor pulls ${exact(pull_N, "force")}`;
    const starts = most < 0 ? "it does not start on the level" : `it starts on at most ${shown(most, "%")}`;
    return `${starts}: ${why}; the worst place here is ${shown(ruling, "%")} with its curves`;
  },
  motor_current: ({ rms_motor_current_A, continuous_current_A }, exact) =>
    `${exact(rms_motor_current_A, "current")} in the motor over the working (rms); it stands ${exact(continuous_current_A, "current")} for long`,
  too_hot: ({ peak_winding_temperature_C, limit_temperature_C }, exact) =>
    `the winding reaches ${exact(peak_winding_temperature_C, "temperature")}; its insulation stands ${exact(limit_temperature_C, "temperature")}`,
  not_completed: ({ outcome, ending }, exact) =>
    `the working ends ${outcome.replace("_", " ")}: ${eventInWords(ending, exact)}`,
  few_teeth: (fault) => ofStage(fault, `with fewer than ${fault.least_teeth} teeth a chain runs rough and wears fast`),
  many_teeth: (fault) => ofStage(fault, `on more than ${fault.most_teeth} teeth a worn chain climbs out`),
  stage_ratio: (fault) =>
    ofStage(
      fault,
      `${shown(fault.ratio)} to 1 in one stage; more than ${shown(fault.most_ratio)} to 1 wants two stages`,
    ),
  chain_margin(fault, exact) {
    const { chain, peak_tension_N, margin, least_margin } = fault;
    const part = `1/${shown(Number(margin.toPrecision(2)))}`;
    return ofStage(
      fault,
      `${exact(peak_tension_N, "force")} in the ${chain} chain is ${part} of its breaking load; at most 1/${shown(least_margin)}`,
    );
  },
  chain_rating(fault, exact) {
    const { chain, rating_W, rating_wanted_W } = fault;
    return ofStage(
      fault,
      `the ${chain} chain is rated for ${exact(rating_W, "power")} there and should be for ${exact(rating_wanted_W, "power")}`,
    );
  },
  sprockets_touch: (fault, exact) =>
    ofStage(fault, `at ${exact(fault.centres_m, "small_length")} between centres the sprockets touch`),
  little_wrap(fault, exact) {
    const { wrap_deg, least_wrap_deg, least_centres_m } = fault;
    return ofStage(
      fault,
      `the chain wraps the small sprocket by ${shown(wrap_deg)}°; ${shown(least_wrap_deg)}° takes ${exact(least_centres_m, "small_length")} between centres`,
    );
  },
  below_rail(fault, exact) {
    const across = exact(fault.driven_across_m, "small_length");
    const wheel = exact(fault.wheel_diameter_m, "small_length");
    return ofStage(
      fault,
      `the sprocket on the axle is ${across} across with its chain, in a ${wheel} wheel: it hangs below the rail`,
    );
  },
};

/** What is to be known of the answer. */
export const remarkInWords = (remark: GearsRemark): string =>
  (REMARKS[remark.code] as (remark: GearsRemark) => string)(remark);

const REMARKS: { [C in GearsRemark["code"]]: (remark: Extract<GearsRemark, { code: C }>) => string } = {
  shortlist: ({ simulated, choices }) =>
    `${simulated} of ${choices} choices were simulated, ranked by speed, pull, current and chains in steady running; of like ratios the best was kept`,
  no_gearing_cures_grip: () =>
    "no gearing cures what is wrong here: the driven wheels slip before the train starts on the worst place. More weight on driven wheels, another driven axle, drier rail or fewer aboard would",
  stocked_teeth: () => "no teeth were given: these are the sizes that shops usually keep",
  chain_assumed: ({ chain }) => `no chain is named in the loco file: ${chain} is taken (common practice, no source)`,
  mixed_chains: ({ chains }) =>
    `${chains.join(" and ")} have the same pitch but not the same roller: keep chains and sprockets apart`,
  no_rating: ({ chains }) => `no published power rating covers ${chains.join(" and ")}`,
  rating: ({ service_factor }) =>
    `a chain should be rated for ${service_factor} times the motor's rated power, for starting and reversing under load`,
  rating_borrowed: ({ chains }) =>
    `${chains.join(" and ")} rated as the inch chain of the same pitch: no table of their own`,
  no_centres: () => "without centre distances in the loco file, wrap, links and slack are not worked out",
};

/** The answer as documents have it: faults and remarks with their words, in SI units. */
export interface GearsInWords extends GearsAnswer {
  rows: WordedRow[];
  own: WordedRow;
  remarks: Worded<GearsRemark>[];
}
type Worded<T> = T & { message: string };
type WordedRow = GearsRow & { faults: Worded<Fault>[] };

const METRIC = exactIn();

export const worded = (answer: GearsAnswer): GearsInWords => ({
  ...answer,
  rows: answer.rows.map(wordedRow),
  own: wordedRow(answer.own),
  remarks: answer.remarks.map((remark) => ({ ...remark, message: remarkInWords(remark) })),
});

const wordedRow = (row: GearsRow): WordedRow => ({ ...row, faults: row.faults.map(messaged) });

function messaged(fault: Fault): Worded<Fault> {
  const message = faultInWords(fault, METRIC);
  return fault.code === "not_completed" ? { ...fault, message, ending: detailOf(fault.ending) } : { ...fault, message };
}
