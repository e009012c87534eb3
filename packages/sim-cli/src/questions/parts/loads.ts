import {
  type CouplingForce,
  type CouplingRow,
  figures,
  type GovernedBy,
  type PartsAnswer,
  type ShaftRow,
  type ShaftsRemark,
} from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";
import { mm } from "../../words/parts.js";

const BY: Readonly<Record<GovernedBy, string>> = {
  working: "in the working as run",
  current_limit: "at the controller's current limit",
  braking: "braking",
  slipping: "with the wheels slipping",
};

const torque = (value_Nm: number): string => `${figures(value_Nm)} N m`;

/** Up to the tenth: what is least is never told less. */
const least = (value_m: number): string => `${Math.ceil(1e4 * value_m - 1e-6) / 10} mm`;

/** What each shaft carries and by what, from the motor to the axle. */
export const shaftRows = ({ shafts }: PartsAnswer, eyes: Eyes): string[][] =>
  shafts.rows.map((row) => [row.shaft, shaftTold(row, eyes)]);

function shaftTold(row: ShaftRow, eyes: Eyes): string {
  const { torque: of, pulls, bearing } = row;
  const pulled = pulls
    .map(
      ({ pull_N, teeth, at, distance_m }) =>
        `${eyes.of(pull_N, "force")} at the ${teeth} teeth, ${at === "overhung" ? "overhung by" : "inside a bearing by"} ${mm(distance_m)}`,
    )
    .join("; ");
  const diameter =
    row.diameter_m === null
      ? `${least(row.least_diameter_m)} of ${row.material} is the least.`
      : `${mm(row.diameter_m)} of ${row.material} ${row.enough ? "will do" : "will NOT do"}: a safety factor of ${figures(row.safety_factor ?? 0)} against yielding, and ${least(row.least_diameter_m)} is the least.`;
  const life = bearing.life_h === null ? "" : ` Its bearings last ${figures(bearing.life_h)} h of running.`;
  const most = bearing.worst_load_N > 0 ? ` A bearing carries ${eyes.of(bearing.worst_load_N, "force")} at most.` : "";
  return `${torque(of.worst_Nm)} at worst, ${BY[of.governed_by]} (${torque(of.working_Nm)} in the working, ${torque(of.current_limit_Nm)} at the current limit, ${torque(of.slipping_Nm)} slipping). ${pulled === "" ? "" : `The chain pulls ${pulled}. `}Bending ${torque(row.bending_Nm)}. ${diameter}${most}${life}`;
}

const REMARKS: Readonly<Record<ShaftsRemark, string>> = {
  closed_gearbox: "What wheels push in a closed gearbox is not known: no bending from it is counted.",
  coupled_axles: "Chains or rods from axle to axle are in no file: the first axle is taken to carry all the torque.",
  plain_bearings: "Plain bearings of the axles have no rating life.",
  motor_shaft: "What the motor's maker allows on the end of its shaft comes first.",
};

export const shaftRemarks = ({ shafts }: PartsAnswer): string[] => shafts.remarks.map((remark) => REMARKS[remark]);

/** What pulls and pushes at each coupling; the first is the buffer beam's. */
export const couplingRows = ({ couplings }: PartsAnswer, eyes: Eyes): string[][] =>
  couplings.rows.map((row) => [
    row.coupling === 1 ? "1, at the loco's buffer beam" : String(row.coupling),
    couplingTold(row, eyes),
  ]);

function couplingTold(row: CouplingRow, eyes: Eyes): string {
  const force = (what: string, { force_N, chainage_m }: CouplingForce) =>
    force_N > 0 ? `${what} ${eyes.of(force_N, "force")} at ${eyes.place(chainage_m)}` : "";
  const stop = row.stop_push ? `pushes ${eyes.of(row.stop_push.force_N, "force")} in the worst stop` : "";
  const told = [force("pulls", row.pull), force("pushes", row.push), stop].filter((each) => each !== "").join(", ");
  return `${told === "" ? "carries nothing in the working" : told}; ${eyes.of(row.steady_N, "force")} at most, held fast counted in, and ${eyes.of(row.with_jerks_N, "force")} with jerks.`;
}
