import { type BatteryReadingsAnswer, batteryReadings } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { UsageError } from "../../read/diagnostics.js";
import { readBattery } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { filesOf } from "../../work/files.js";
import type { PlanFlags } from "../../work/flags.js";
import { intoFile, type PutIn, putsOf, whose } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { endWith, openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { batteryInWords, isTold } from "./words.js";

export interface BatteryFlags extends Pick<PlanFlags, "json" | "quiet"> {
  into?: string;
}

/** Nobody reads so often. */
const LIMIT_bytes = 256 * 1024;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function batteryTold(path: string, plan: string, flags: BatteryFlags): Promise<number> {
  if (path === "-" && plan === "-")
    throw new UsageError("the readings and the plan cannot both come from standard input; give one as a file");
  const sheet = sheetIn(path, LIMIT_bytes, readBattery);
  const opened = await openPlan(plan, {});
  const answer = askedOf(path, sheet, () => batteryReadings(filesOf(opened.reading), sheet.rows, sheet));
  const put = flags.into === undefined ? undefined : putInto(flags.into, answer, path);
  const { warnings, notes } = opened;
  const heading = { command: "battery", warnings, assumed: notes.assumed, step_s: null, step_error: null };
  if (flags.json) writeOut(jsonDocument(heading, answer));
  else
    print([
      ...batteryInWords({
        ...opened,
        answer,
        put,
        puts: { loco: measured(answer, "loco"), plan: measured(answer, "plan") },
      }),
      ...leadsOn("battery", { ...flags, plan }),
    ]);
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return endWith(opened, flags);
}

const measured = ({ fitted }: BatteryReadingsAnswer, file: "loco" | "plan") =>
  putsOf(
    // A charge that the volts do not tell is no charge to go on.
    fitted.filter((each) => each.path.startsWith(`${file}.`) && (each.path !== "plan.charge" || isTold(each))),
    "at its terminals",
  );

/** A plan takes its charge, a loco its battery's figures. */
function putInto(into: string, answer: BatteryReadingsAnswer, path: string): PutIn {
  const file = whose(into);
  const puts = measured(answer, file);
  if (puts.length === 0)
    throw new UsageError(
      file === "plan"
        ? `--into ${into}: it is a plan, which takes the charge, and the readings do not tell it`
        : `--into ${into}: there is nothing to put there: the resistance wants two loads, and the health a run to the cut-out`,
    );
  return intoFile(into, puts, path === "-" ? [] : [path]);
}
