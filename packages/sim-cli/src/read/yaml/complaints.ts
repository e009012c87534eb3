import type { YAMLError } from "yaml";

/** A fault of the YAML itself, at the place where the hand must be laid on. */
export interface Fault {
  offset: number;
  message: string;
}

/** The faults in the words of this project, without those that only follow from another. */
export function inOwnWords(errors: readonly YAMLError[], text: string): Fault[] {
  const bracket = errors.some(isUnclosed) ? openBracket(text) : undefined;
  if (bracket) return [bracket];
  const causes = errors.filter(
    (error) => error.code !== "MULTILINE_IMPLICIT_KEY" || !errors.some((e) => e !== error && e.pos[0] === error.pos[0]),
  );
  return causes.map((error) => said(error, text));
}

const isUnclosed = ({ code, message }: YAMLError): boolean =>
  (code === "BAD_INDENT" || code === "MISSING_CHAR") && /flow/i.test(message);

function said({ code, message, pos }: YAMLError, text: string): Fault {
  const offset = pos[0];
  const say = (words: string, at = offset): Fault => ({ offset: at, message: words });
  const line = lineFrom(text, text.lastIndexOf("\n", offset - 1) + 1);
  switch (code) {
    case "TAB_AS_INDENT":
      return say("a tab stands here; indent with blanks");
    case "BLOCK_AS_IMPLICIT_KEY": {
      if (!/:(?:\s|$)/.test(lineFrom(text, offset))) {
        return say("this line is indented further than the one it follows", nextLine(text, offset));
      }
      const mended = line.replace(/^\s*(?:-\s+)?([^:]+):\s+(.*?)\s*$/, '$1: "$2"');
      return say(`a colon followed by a blank ends a key; put the value in quotes: ${mended}`);
    }
    case "MULTILINE_IMPLICIT_KEY":
    case "MISSING_CHAR": {
      const tight = /^\s*(?:-\s+)?(\w+):(\S.*?)\s*$/.exec(line);
      if (tight) return say(`a blank is wanted after the colon: ${tight[1]}: ${tight[2]}`);
      if (/quote/.test(message)) return say("a quotation mark that was opened is not closed");
      return say("a key, a colon and a value are wanted here, such as name: Hazel");
    }
    case "BAD_INDENT":
      return say("this line is not indented like those it belongs to");
    case "BAD_SCALAR_START":
      return say(`a value cannot begin with ${text[offset] ?? "this"}; put it in quotes`);
    case "UNEXPECTED_TOKEN":
      if (/quoted/.test(message)) {
        return say("something follows the closing quotation mark; put the whole value in the other kind of quotes");
      }
      return say(/block-seq/.test(message) ? "a list begins on a line of its own" : "this does not belong here");
    case "MULTIPLE_DOCS":
      return say("a second document begins here (---); one file holds one");
    case "TAG_RESOLVE_FAILED":
      return say("tags (words that begin with !) are not read; leave it out");
    case "BAD_DQ_ESCAPE":
      return say("a \\ in double quotes has a meaning of its own; use single quotes");
    default:
      return say("this cannot be read as YAML");
  }
}

const lineFrom = (text: string, start: number): string => text.slice(start).split("\n", 1)[0] ?? "";

/** Where the next line that is not blank or comment begins to have text. */
function nextLine(text: string, offset: number): number {
  const rest = /\n(?:[ \t]*(?:#[^\n]*)?\n)*[ \t]*/.exec(text.slice(offset));
  return rest ? offset + rest.index + rest[0].length : offset;
}

/** The last bracket that is opened and never closed, outside quotes and comments. */
function openBracket(text: string): Fault | undefined {
  const open: number[] = [];
  let swallowed = -1;
  for (const token of text.matchAll(/(?<=^|[\s,[{:])(?:"(?:\\.|[^"\\])*"|'(?:''|[^'])*'|#[^\n]*)|[[\]{}]/gm)) {
    if (/^[[{]/.test(token[0])) open.push(token.index);
    else if (/^[\]}]/.test(token[0])) open.pop();
    else if (token[0].startsWith("#") && /[\]}]/.test(token[0])) swallowed = token.index;
  }
  const offset = open.at(-1);
  if (offset === undefined) return undefined;
  const comment = swallowed > offset ? "; the # after it begins a comment, which goes on to the end of the line" : "";
  return { offset, message: `the bracket ${text[offset]} is not closed${comment}` };
}
