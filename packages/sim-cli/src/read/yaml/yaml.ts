import {
  type Document,
  isAlias,
  isMap,
  LineCounter,
  type Node,
  type ParsedNode,
  parseDocument,
  visit,
  type YAMLError,
} from "yaml";
import { addProblem, type Diagnostic, type Place } from "../diagnostics.js";
import { type Fault, inOwnWords } from "./complaints.js";

/** Text read as YAML: a file, or the value of a `--set`. */
export interface YamlText {
  /** What errors call it. */
  label: string;
  text: string;
  /** Absent for a `--set`, which has no lines worth naming. */
  lines?: LineCounter;
  doc: Document.Parsed<ParsedNode>;
}

/** An open YAML file with what the command line changed in it, and what was found wrong. */
export interface YamlFile extends YamlText {
  /** Nodes that came from a `--set`. */
  fromSet: Map<object, YamlText>;
  /** Paths of keys that a `--set …=null` took away. */
  removed: Map<string, YamlText>;
  problems: Diagnostic[];
  /** Problems with the command line's values. */
  usage: Diagnostic[];
  /** Nothing below the top can be relied on. */
  broken: boolean;
}

/** Honest files repeat a block or two; more is an attempt to blow the file up. */
const MOST_ALIASES = 100;

/** Reads a document; what is wrong with its YAML is told in `problems`. */
export function parseYaml(label: string, text: string): YamlFile {
  const lines = new LineCounter();
  const file = { label, text, lines, fromSet: new Map(), removed: new Map(), problems: [], usage: [], broken: true };
  const found = compose(text, lines);
  if (found === undefined) {
    return {
      ...file,
      doc: parseDocument(""),
      problems: [{ file: label, message: "its brackets or blocks are nested too deeply" }],
    };
  }
  const { doc } = found;
  const problems: Diagnostic[] = inOwnWords(found.errors, text).map((fault) => placed(label, lines, fault));
  const aliases = countAliases(doc);
  if (aliases > MOST_ALIASES) {
    problems.push({
      file: label,
      message: `${aliases} aliases (*name) are more than the ${MOST_ALIASES} that are read`,
    });
  }
  const topIsMap = isMap(doc.contents);
  if (problems.length === 0 && !topIsMap) problems.push(notABlock(label, text, doc.contents));
  return { ...file, doc, problems: onePerLine(problems), broken: problems.length > 0 };
}

/** The value of a `--set`. */
export function parseValue(label: string, text: string): YamlText & { errors: string[] } {
  const found = compose(text, new LineCounter());
  if (!found) return { label, text, doc: parseDocument(""), errors: ["its brackets are nested too deeply"] };
  const errors = inOwnWords(found.errors, text).map(({ message }) => message);
  return { label, text, doc: found.doc, errors };
}

function compose(
  text: string,
  lineCounter: LineCounter,
): { doc: Document.Parsed<ParsedNode>; errors: YAMLError[] } | undefined {
  try {
    // Repeated keys are told by the reader of the tables, which says where the first one stands.
    const doc = parseDocument(text, { lineCounter, uniqueKeys: false, prettyErrors: false, logLevel: "error" });
    return { doc, errors: [...doc.errors, ...doc.warnings] };
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

function countAliases(doc: Document): number {
  let count = 0;
  visit(doc, { Alias: () => void count++ });
  return count;
}

function notABlock(label: string, text: string, contents: ParsedNode | null): Diagnostic {
  const at = { file: label, line: 1, column: 1 };
  if (contents === null || text.trim() === "" || contents.range[0] === contents.range[1]) {
    return { ...at, message: "the file has no keys in it; rideon new writes one to start from" };
  }
  return { ...at, message: "keys with values are wanted here, one a line, such as name: Hazel" };
}

const placed = (file: string, lines: LineCounter, { offset, message }: Fault): Diagnostic => {
  const { line, col } = lines.linePos(offset);
  return { file, line: Math.max(1, line), column: Math.max(1, col), message };
};

/** One fault often breaks several rules of YAML: only the first of a line is told. */
const onePerLine = (problems: readonly Diagnostic[]): Diagnostic[] => [
  ...new Map(problems.toReversed().map((each) => [each.line, each])).values(),
];

/** Where a node stands, or `offset` within its text. */
export function placeOf(file: YamlFile, node: Node | null | undefined, offset = node?.range?.[0] ?? 0): Place {
  const set = node ? file.fromSet.get(node) : undefined;
  if (set) return { file: set.label };
  const { line, col } = file.lines?.linePos(offset) ?? { line: 1, col: 1 };
  return { file: file.label, line: Math.max(1, line), column: Math.max(1, col) };
}

/** Adds a problem at a node; one that a `--set` brought in is a fault of the command line. */
export function tell(file: YamlFile, node: Node | null | undefined, message: string, offset?: number): void {
  const from = node ? file.fromSet.get(node) : undefined;
  addProblem(from ? file.usage : file.problems, { ...placeOf(file, node, offset), message });
}

/** The node an alias stands for; a faulty alias is told. */
export function resolved(file: YamlFile, node: Node | null | undefined): Node | null | undefined {
  if (!isAlias(node)) return node;
  const target = node.resolve(file.doc);
  if (target) return target;
  tell(file, node, `*${node.source} repeats something that is not named &${node.source} above`);
  return undefined;
}
