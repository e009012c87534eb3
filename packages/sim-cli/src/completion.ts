import type { CommandOption } from "./work/options.js";
import { OptionError } from "./work/options.js";
import type { Question } from "./work/question.js";

/** Shells that can be told what may be typed. */
export const SHELLS = ["bash", "zsh", "fish"] as const;
type Shell = (typeof SHELLS)[number];

/** @throws OptionError where there are no words for that shell */
export function shellNamed(text: string): Shell {
  const shell = SHELLS.find((each) => each === text);
  if (!shell) throw new OptionError(`it is one of ${SHELLS.join(", ")}`);
  return shell;
}

/** What a shell is told of the questions, their options and the words these take: a script for its start-up file. */
export const completionFor = (shell: Shell, questions: readonly Question[]): string =>
  shell === "fish" ? forFish(questions) : `${shell === "zsh" ? ZSH_READS_BASH : ""}${forBash(questions)}`;

const ZSH_READS_BASH = "autoload -Uz +X compinit bashcompinit && compinit && bashcompinit\n";

const longName = ({ flags }: CommandOption): string => flags.replace(/ .*/, "");

function forBash(questions: readonly Question[]): string {
  const names = questions.map(({ name }) => name).join(" ");
  const cases = questions.map(
    ({ name, options }) => `    ${name}) words="${[...options.map(longName), "--help"].join(" ")}" ;;`,
  );
  const choices = new Map(questions.flatMap(({ options }) => options.flatMap(chosenFrom)));
  const values = [...choices].map(([option, words]) => `    ${option}) words="${words.join(" ")}" ;;`);
  return `_rideon() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}" words=""
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then words="${names}"; else
  case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
  case "$before" in
${values.join("\n")}
  esac
  case "$word" in -*) ;; *) [ "\${before#-}" = "$before" ] && words="" ;; esac
  fi
  COMPREPLY=($(compgen -W "$words" -- "$word"))
}
complete -o default -F _rideon rideon
`;
}

const chosenFrom = (option: CommandOption): [string, readonly string[]][] =>
  option.choices ? [[longName(option), option.choices]] : [];

const forFish = (questions: readonly Question[]): string =>
  questions
    .flatMap(({ name, about, options }) => [
      `complete -c rideon -n __fish_use_subcommand -a ${name} -d ${quoted(about)}`,
      ...options.map(({ flags, about: what, choices }) => {
        const value = flags.includes("<") ? ` -r${choices ? ` -f -a ${quoted(choices.join(" "))}` : ""}` : "";
        const long = longName({ flags, about: what }).slice(2);
        return `complete -c rideon -n '__fish_seen_subcommand_from ${name}' -l ${long}${value} -d ${quoted(what)}`;
      }),
    ])
    .concat("")
    .join("\n");

const quoted = (text: string): string => `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'")}'`;
