import { Command, type CommanderError, InvalidArgumentError, Option } from "commander";
import { completionFor, SHELLS, shellNamed } from "./completion.js";
import { failureOf } from "./failure.js";
import { discardUnfinished } from "./files/files.js";
import { STATUS } from "./ground/status.js";
import { version } from "./ground/version.js";
import { QUESTIONS } from "./questions/index.js";
import { tell, writeOut } from "./words/terminal.js";
import { columnsInWords, type SheetColumns } from "./work/columns.js";
import { type CommandOption, named, OptionError } from "./work/options.js";
import { argumentsOf, type Question } from "./work/question.js";

/**
 * The command line: what was asked goes to its question, and the process ends with the question's status.
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

/** Every question, what it answers, and a line to paste. */
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
  for (const question of QUESTIONS) commandOf(question, program, end);
  ends(program.command("completion"), "rideon completion bash >> ~/.bashrc")
    .description("what your shell needs to complete commands and options")
    .argument("<shell>", SHELLS.join(", "), typed(shellNamed))
    .action((shell: (typeof SHELLS)[number]) => writeOut(completionFor(shell, QUESTIONS)));
  return program;
}

function commandOf(question: Question, program: Command, end: (status: number) => void): void {
  const { name, about, example, options, sheet } = question;
  const command = ends(program.command(name), example, sheet).description(about);
  for (const argument of argumentsOf(question))
    command.argument(`[${argument.name}]`, argument.about, typed(named), argument.usual);
  command.action(async () => {
    const [given = "", beside = ""] = command.processedArgs as string[];
    end(await question.answer(given, command.opts(), beside));
  });
  for (const option of options) command.addOption(optionOf(option));
}

function optionOf({ flags, about, choices, parse }: CommandOption): Option {
  const option = new Option(flags, about);
  if (choices) option.choices(choices);
  if (parse) option.argParser(typed(parse as (text: string, before: unknown) => unknown));
  return option;
}

/** What will not do is told as the argument's or the option's own. */
const typed =
  <T>(parse: (text: string, before: unknown) => T) =>
  (text: string, before: unknown): T => {
    try {
      return parse(text, before);
    } catch (error) {
      throw error instanceof OptionError ? new InvalidArgumentError(error.message) : error;
    }
  };

const ends = (command: Command, line: string, sheet?: SheetColumns): Command =>
  command
    .helpOption("-h, --help", "print this help")
    .addHelpText("after", `${sheet ? `\n${columnsInWords(sheet)}\n` : ""}\nExample:\n  ${line}`);

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
