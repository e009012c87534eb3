import { type Fix, quoted } from "@rideon/sim-core";
import { type Diagnostic, tellFirst } from "../diagnostics.js";
import { XmlError } from "../xml/characters.js";
import { eachElement } from "../xml/xml.js";
import { Ways } from "./ways.js";

/** Fixes of a receiver, and the line of each. */
export interface Track {
  kind: "fixes";
  fixes: Fix[];
  lines: number[];
  /** Fixes without a height, which are left out. */
  without: number;
}

/** GPX 1.1 Schema Documentation, topografix.com/GPX/1/1. */
const NAMESPACE = "http://www.topografix.com/GPX/1/1";

/** Is this the text of a document of elements, and no table? */
export const isXml = (text: string): boolean => /^\s*</.test(text);

/**
 * Reads the one track of a GPX 1.1 file, or its one route where there is no track.
 * @returns its fixes with a height, or nothing where `problems` says why
 */
export function readGpx(file: string, text: string, problems: Diagnostic[]): Track | undefined {
  const told = problems.length;
  const tell = tellFirst(file, problems);
  const ways = new Ways(tell);
  try {
    let prefix: string | undefined;
    eachElement(text, {
      open(name, attributes, line) {
        if (prefix === undefined) prefix = rootPrefix(name, attributes, line);
        ways.open(local(name, prefix), attributes, line);
      },
      text: (found) => ways.text(found),
      close: () => ways.close(),
    });
  } catch (error) {
    if (!(error instanceof XmlError)) throw error;
    // What is behind it cannot be told apart, and what was left open before it is a consequence.
    tell(error.line, error.message);
    return undefined;
  }
  const way = ways.only();
  if (!way || problems.length > told) return undefined;
  const whole = way.fixes.flatMap(({ height_m, ...fix }) => (height_m === null ? [] : [{ ...fix, height_m }]));
  const without = way.fixes.filter(({ height_m }) => height_m === null);
  const [lacking] = without;
  if (lacking && (without.length > whole.length || whole.length < 2))
    tell(
      lacking.line,
      `${without.length} of ${way.fixes.length} fixes have no height, the first of them here; an <ele> with metres is wanted in each <${way.point}>: let the receiver write heights`,
    );
  return problems.length > told
    ? undefined
    : { kind: "fixes", fixes: whole, lines: whole.map(({ line }) => line), without: without.length };
}

/** What stands before the names of GPX elements, most often nothing. @throws XmlError where it is no GPX 1.1 */
function rootPrefix(name: string, attributes: ReadonlyMap<string, string>, line: number): string {
  const prefix = name.includes(":") ? name.slice(0, name.indexOf(":") + 1) : "";
  if (local(name, prefix) !== "gpx")
    throw new XmlError(
      line,
      `the file's first element is <${name.slice(0, 60)}>, and <gpx> is wanted: save the track as GPX 1.1`,
    );
  const version = attributes.get("version");
  const space = attributes.get(prefix === "" ? "xmlns" : `xmlns:${prefix.slice(0, -1)}`);
  if (version !== undefined && version.trim() !== "1.1")
    throw new XmlError(line, `this is GPX ${quoted(version)}, and GPX 1.1 is wanted: save the track as GPX 1.1`);
  if (version === undefined) throw new XmlError(line, '<gpx> has no version; version="1.1" is wanted');
  if (space !== NAMESPACE)
    throw new XmlError(
      line,
      `<gpx> has ${space === undefined ? "no xmlns" : `xmlns=${quoted(space)}`}; xmlns="${NAMESPACE}" is wanted`,
    );
  return prefix;
}

/** The name without its prefix; that of another vocabulary keeps its own. */
const local = (name: string, prefix: string): string =>
  name.startsWith(prefix) ? name.slice(prefix.length) : `:${name}`;
