import { type CompareAnswer, type Compared, type Explanation, figures, keyAt, mistakenFor } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { capital } from "../../words/lists.js";
import { figureCalled } from "../../words/measure.js";
import { CALLED } from "./told.js";

/** What a figure is worth in the unit of its key; of what has no single figure, a factor. */
export function figureTold({ path }: Explanation, value: number, eyes: Eyes): string {
  const key = keyAt(path.replaceAll(".*", ".1"));
  if (key?.kind === "quantity") return eyes.of(value, key.dimension);
  if (key?.kind === "number") return figures(value);
  return `${figures(value)} times`;
}

export const explainedUnder = ({ agrees }: CompareAnswer): string =>
  agrees === false ? "What would explain the difference" : "What would take the difference away";

export function explainedInWords(answer: CompareAnswer, eyes: Eyes): string[] {
  const read = readWrongly(answer);
  if (read !== undefined) return [read];
  const { explained_by, quantities, from_m, better_from_m } = answer;
  const off = quantities.filter(({ within_doubt }) => !within_doubt);
  const inPlaces = off.filter(({ mean_within_doubt }) => mean_within_doubt);
  const first =
    inPlaces.length > 0
      ? [
          `It differs in places more than in the mean. Look first whether the log begins at ${eyes.place(from_m)} (--from tells another place)${better_from_m === null ? "" : `: begun at about ${eyes.place(Math.round(better_from_m))}, it would lie much better`}. Look then at the line's profile there, and at what was done there that the plan does not have.`,
        ]
      : [];
  const also = answer.meter
    ? [
        `${capital(METER[answer.meter.name] ?? "a meter")} that reads ${figures(answer.meter.reads)} times what flows would explain it as well: hold another beside it.`,
      ]
    : [];
  if (explained_by.length === 0)
    return [...first, ...also, ...(off.length > inPlaces.length && also.length === 0 ? [unexplained(answer)] : [])];
  const rows = explained_by.map((each) => {
    const from =
      each.value === 1 && figureTold(each, 1, eyes) === "1 times"
        ? ""
        : `, taken as ${figureTold(each, each.value, eyes)}`;
    const would =
      each.path === "plan.track.wind" && each.would_be < 0
        ? `${figureTold(each, -each.would_be, eyes)} from behind`
        : figureTold(each, each.would_be, eyes);
    const likely = each.likely ? "" : " That is farther off than is likely of it.";
    return `${capital(figureCalled(each.path))}${from}: ${would} would take away ${partOf(each.share)} of it.${likely}`;
  });
  return [
    ...first,
    ...rows,
    ...also,
    ...(explained_by.length + also.length > 1 ? ["Each of them by itself; the log does not tell which it is."] : []),
  ];
}

const METER: Partial<Record<Compared, string>> = {
  battery_current: "an ammeter, a shunt or a clamp at the battery",
  motor_current: "an ammeter, a shunt or a clamp at the motor",
};

/** Where the log itself is wrong no figure of the files is to be looked for; undefined where it may be right. */
function readWrongly({ speed_unit, better_scale, meter }: CompareAnswer): string | undefined {
  if (speed_unit !== null)
    return `Look first at the unit of the speed: the plan's is ${figures(speed_unit)} times what was logged${mistakenFor(speed_unit)}. With another unit in the heading all of this changes.`;
  if (better_scale !== null)
    return `Look first at the scale of the distance: were a metre of the log ${figures(better_scale)} m of the line's, it would lie much better along it. A wheel's diameter in the logger that is ${better_scale < 1 ? "too large" : "too small"} does so, or a receiver; a button pressed once a lap (a column lap) would hold it.`;
  if (meter?.flowed === false)
    return `Look first at the meter: ${CALLED[meter.name]} was logged at ${figures(meter.reads)} times what the sums have, everywhere alike, and the battery's volts know nothing of it, as they would had it flowed. ${capital(METER[meter.name] ?? "a meter")} reads too ${meter.reads > 1 ? "much" : "little"}, or is set to another size.`;
  return undefined;
}

/** Which way it differs says where to look. */
function unexplained({ quantities }: CompareAnswer): string {
  const drawn = quantities.find(({ name }) => name === "battery_current" || name === "motor_current");
  if (!drawn || drawn.mean_within_doubt) return "No single figure of the files explains it; a meter may read wrongly.";
  return drawn.bias > 0
    ? "No single figure of the files explains it. A drag that is in no figure would: a rubbing brake, a tight chain, a worn bearing; or a meter that reads wrongly."
    : "No single figure of the files explains it. A meter that reads too little would: a clamp that was turned round or not set to zero, a shunt of another size; or a train that was lighter than the plan's.";
}

const partOf = (share: number): string =>
  share > 0.9 ? "nearly all" : share > 0.6 ? "most" : share > 0.4 ? "about half" : "some";
