import { existsSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import { logSays } from "@rideon/sim-core";
import { version } from "../../ground/version.js";
import { UsageError } from "../../read/diagnostics.js";
import { progressLine } from "../../words/progress.js";
import { tell, writeOut } from "../../words/terminal.js";
import { type Files, filesOf, planOf } from "../../work/files.js";
import type { SureFlags } from "../../work/flags.js";
import { endWith, openPlan } from "../../work/opened.js";
import { outputsOf } from "../../work/outputs.js";
import { surenessOf } from "../../work/sureness.js";
import { onThread } from "../../work/thread.js";
import { besideTheSums, type LogFlags, logIn } from "../compare/logged.js";
import { foundIn } from "../limits/found.js";
import type { Facts } from "./facts.js";
import { cardPage, type Heading, pageHtml } from "./page.js";
import { type Style, toldOf } from "./told.js";

export interface ReportFlags extends LogFlags, SureFlags {
  /** The driver's card alone. */
  card?: true;
  /** A logged run. */
  log?: string;
}

const NAMES = { page: "report.html", card: "card.html" } as const;

/** The committee's page, or the driver's card alone, as one file. @returns the exit status */
export async function reported(path: string, flags: ReportFlags): Promise<number> {
  if (path === "-" && flags.log === "-")
    throw new UsageError("the plan and --log cannot both come from standard input; give one as a file");
  const idle = (["column", "from"] as const).filter((name) => flags[name] !== undefined);
  if (flags.log === undefined && idle.length > 0)
    throw new UsageError(idle.map((name) => `--${name} is about a log; tell which with --log`).join("\n"));
  const log = flags.log === undefined ? undefined : await logIn(flags.log, flags);
  const opened = await openPlan(path, flags);
  const { plan, units } = opened.reading;
  const files = filesOf(opened.reading);
  const reads = [...opened.reading.files, ...(flags.log === undefined || flags.log === "-" ? [] : [flags.log])];
  const name = flags.card ? NAMES.card : NAMES.page;
  const out = outputsOf(flags.out === "-" ? {} : flags, reads, [name]);
  const compared = log && (await besideTheSums(log, opened, flags)).answer;
  if (compared) files.logged = logSays(compared);
  const progress = progressLine(flags.quiet === true);
  progress.say("running the train round, all day, and stopping it everywhere");
  const facts = await factsOf(files).finally(progress.clear);
  if (!flags.sure) {
    const doubt = { question: "limits", found: foundIn(facts.limits) } as const;
    facts.sureness = await surenessOf(files, doubt, flags, progress.show).finally(progress.clear);
  }
  if (compared) facts.compared = compared;
  const style: Style = { typed: units, asked: flags.units };
  const told = toldOf(facts, style);
  const heading: Heading = {
    date: new Date().toISOString().slice(0, 10),
    version: version(),
    inputs:
      path === "-"
        ? ["standard input"]
        : [basename(path), basename(plan.loco), basename(plan.track.profile)].concat(
            flags.log === undefined ? [] : flags.log === "-" ? ["a log from standard input"] : [basename(flags.log)],
          ),
    remark: opened.reading.remark,
    style,
    program: flags.card ? "" : program(),
  };
  const page = flags.card ? cardPage(told, heading) : pageHtml(told, heading);
  out.write(name, page);
  const written = out.finish();
  if (written.length === 0) writeOut(page);
  else if (!flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(opened, flags);
}

async function factsOf(files: Files): Promise<Facts> {
  return { files, plan: planOf(files), ...(await onThread<Omit<Facts, "files" | "plan">>("report", { files })) };
}

/** The page is whole without it, so a checkout in which it has not been built still reports. */
function program(): string {
  const file = new URL("../../live.js", import.meta.url);
  return existsSync(file) ? readFileSync(file, "utf8") : "";
}
