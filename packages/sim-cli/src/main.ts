import { Command, type CommanderError } from "commander";
import { failureOf, STATUS } from "./failure.js";
import { discardUnfinished } from "./files/files.js";
import { version } from "./ground/version.js";
import { tell, writeOut } from "./words/terminal.js";
import {
  addBrakesOptions,
  addGearsOptions,
  addPictureOptions,
  addPlanOptions,
  addReportOptions,
  addRunOptions,
  addTrialOptions,
  type BrakesFlags,
  type GearsFlags,
  named,
  type PictureFlags,
  type PlanFlags,
  type ReportFlags,
  type RunFlags,
  type TrialFlags,
} from "./work/options.js";

/**
 * The command line: what was asked goes to its command, and the process ends with the command's status.
 * @param argv what stands after the program's name
 */
export async function main(argv: readonly string[]): Promise<void> {
  mindPipes();
  try {
    process.exitCode = await answer(argv);
  } catch (error) {
    discardUnfinished();
    const { status, lines } = failureOf(error);
    tell(lines);
    process.exitCode = status;
  }
}

async function answer(argv: readonly string[]): Promise<number> {
  let status: number = STATUS.answered;
  const program = contents((given) => {
    status = given;
  });
  if (argv.length === 0) {
    process.stderr.write(program.helpInformation());
    return STATUS.usage;
  }
  try {
    await program.parseAsync(argv, { from: "user" });
  } catch (error) {
    if ((error as CommanderError).code?.startsWith("commander.") && (error as CommanderError).exitCode === 0) return 0;
    throw error;
  }
  return status;
}

/** Every command, what it answers, and a line to paste. */
function contents(end: (status: number) => void): Command {
  const program = new Command("rideon")
    .description(
      "Simulates battery-electric ride-on locomotives on club and garden tracks:\nspeed, current and charge along your own line, before anyone rides.",
    )
    .version(version(), "--version", "print the version")
    .helpCommand("help [command]", "print the help of a command")
    .exitOverride()
    .configureOutput({ writeOut, outputError: () => {} });
  ends(program, "rideon new my-line && cd my-line && rideon run");

  ends(program.command("new"), "rideon new my-line")
    .description("start a folder with a loco, a plan and a track that run as they are")
    .argument("[folder]", "where the files go; made if need be", named, ".")
    .action(async (folder: string) => end(await (await import("./questions/new/question.js")).startFolder(folder)));

  ends(addPlanOptions(program.command("check")), 'rideon check plan.yaml --set loco.mass="150 kg"')
    .description("read everything; tell what it comes to, what is assumed, and what should be looked at")
    .action(async (plan: string, flags: PlanFlags) =>
      end(await (await import("./questions/check/question.js")).check(plan, flags)),
    );

  ends(addRunOptions(program.command("run")), 'rideon run plan.yaml --passengers 6 --speed "5 mph" --rail wet')
    .description("one working: speed, current and charge along the way")
    .action(async (plan: string, flags: RunFlags) =>
      end(await (await import("./questions/run/question.js")).run(plan, flags)),
    );

  ends(addRunOptions(program.command("laps")), "rideon laps plan.yaml --passengers 6 --out results")
    .description("how many laps a charge lasts, to the reserve and to the end, and what ends it")
    .action(async (plan: string, flags: RunFlags) =>
      end(await (await import("./questions/laps/question.js")).laps(plan, flags)),
    );

  ends(addPlanOptions(program.command("size")), 'rideon size plan.yaml --speed "5 mph" --set duration="3 h"')
    .description(
      "what to buy for a train, its line, its speed and its hours: no motor, gears or battery need be named yet",
    )
    .action(async (plan: string, flags: PlanFlags) =>
      end(await (await import("./questions/size/question.js")).size(plan, flags)),
    );

  ends(addPictureOptions(program.command("climb")), "rideon climb plan.yaml --rail damp")
    .description("the load table: with how many aboard it starts again on the steepest bit, and what limits it")
    .action(async (plan: string, flags: PictureFlags) =>
      end(await (await import("./questions/climb/question.js")).climb(plan, flags)),
    );

  ends(addGearsOptions(program.command("gears")), "rideon gears plan.yaml --teeth 9,11,12,13,38,44,57")
    .description("sprocket choices from the teeth to hand, ranked, with speed, pull, current, heat and chain checks")
    .action(async (plan: string, flags: GearsFlags) =>
      end(await (await import("./questions/gears/question.js")).gears(plan, flags)),
    );

  ends(addBrakesOptions(program.command("brakes")), 'rideon brakes plan.yaml --sight "65 ft" --passengers 8')
    .description(
      "stopping distances from everywhere on the line, with no brake up to every brake, dry and wet; where it will not stay parked",
    )
    .action(async (plan: string, flags: BrakesFlags) =>
      end(await (await import("./questions/brakes/question.js")).brakes(plan, flags)),
    );

  ends(addTrialOptions(program.command("trial")), "rideon trial plan.yaml --out outing")
    .description(
      "the sheet for the first outing: what to check in order and what each instrument should read; with --readings what is likely wrong",
    )
    .action(async (plan: string, flags: TrialFlags) =>
      end(await (await import("./questions/trial/question.js")).trial(plan, flags)),
    );

  ends(addReportOptions(program.command("report")), "rideon report plan.yaml --out results")
    .description(
      "one page for the club's committee, that prints, and can be tried in any browser; with a driver's card",
    )
    .action(async (plan: string, flags: ReportFlags) =>
      end(await (await import("./questions/report/question.js")).report(plan, flags)),
    );

  return program;
}

const ends = (command: Command, line: string): Command =>
  command.helpOption("-h, --help", "print this help").addHelpText("after", `\nExample:\n  ${line}`);

/** Whoever reads our output may have had enough (`| head`): no fault of anyone's. A full disk behind it is one. */
function mindPipes(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      discardUnfinished();
      if (error.code === "EPIPE") process.exit(STATUS.answered);
      if (stream === process.stdout)
        process.stderr.write(`rideon: error: the output cannot be written: ${error.code}\n`);
      process.exit(STATUS.unfinished);
    });
  }
}
