import { quoted } from "@rideon/sim-core";
import { charactersOf, XmlError } from "./characters.js";

/** What is met with on the way through a document. The line is that on which it begins. */
export interface Visitor {
  open(name: string, attributes: ReadonlyMap<string, string>, line: number): void;
  /** Text inside an element, in pieces. */
  text(text: string, line: number): void;
  close(name: string, line: number): void;
}

/** No document here is nested nearly as deeply. */
const DEEPEST = 100;

const NAME = /[\p{L}_:][-.\p{L}\p{N}\p{M}_:·]*/uy;
const SPACE = /[ \t\n]*/y;

/**
 * Goes through a document of XML 1.0 (W3C Recommendation, 5th edition) that is whole in itself: elements, attributes, text,
 * comments, CDATA sections and the five entities of the standard. A document type is refused, since it may declare anything.
 * @throws XmlError at the first place where it is no such document
 */
export function eachElement(text: string, visitor: Visitor): void {
  const document = new Document(text);
  const open: { name: string; line: number }[] = [];
  let root = false;
  document.declaration();
  while (!document.ended()) {
    const { line } = document;
    const inside = open.at(-1);
    if (!document.startsWith("<")) {
      const found = document.upTo("<");
      if (inside) visitor.text(charactersOf(found, line), line);
      else if (/\S/.test(found))
        throw new XmlError(line + leading(found), `there is text outside of the elements: ${quoted(found.trim())}`);
    } else if (document.take("<!--")) document.comment(line);
    else if (document.take("<![CDATA[")) {
      const found = document.through("]]>", line, "a CDATA section");
      if (!inside) throw new XmlError(line, "a CDATA section stands outside of the elements");
      visitor.text(found, line);
    } else if (document.take("<!"))
      throw new XmlError(line, "there is a document type or a declaration (<!...>), which is not read; take it out");
    else if (document.take("<?")) document.through("?>", line, "a processing instruction");
    else if (document.take("</")) {
      const name = document.name("the name of the element that ends here");
      document.space();
      document.want(">", `</${name}`);
      if (!inside || inside.name !== name) throw new XmlError(line, unlike(name, inside));
      open.pop();
      visitor.close(name, line);
    } else {
      document.take("<");
      const name = document.name("the name of an element (in text, < is written &lt;)");
      if (!inside && root) throw new XmlError(line, `<${name}> begins behind the end of the document`);
      const attributes = document.attributes(name);
      root = true;
      visitor.open(name, attributes, line);
      if (document.take("/>")) visitor.close(name, line);
      else {
        document.want(">", `<${name}`);
        if (open.push({ name, line }) > DEEPEST)
          throw new XmlError(line, `elements are nested more than ${DEEPEST} deep`);
      }
    }
  }
  const left = open.at(-1);
  if (left) throw new XmlError(document.line, `the file ends inside <${left.name}> of line ${left.line}; is it whole?`);
  if (!root) throw new XmlError(1, "there is no element in it");
}

const leading = (text: string): number => text.slice(0, text.search(/\S/)).split("\n").length - 1;

const unlike = (name: string, open: { name: string; line: number } | undefined): string =>
  open
    ? `</${name}> ends nothing that is open; <${open.name}> of line ${open.line} is to be ended first`
    : `</${name}> ends nothing that is open`;

/** A text, and how far it was read. */
class Document {
  private at = 0;
  line = 1;
  private readonly all: string;
  constructor(all: string) {
    this.all = all;
  }
  ended = (): boolean => this.at >= this.all.length;
  startsWith = (mark: string): boolean => this.all.startsWith(mark, this.at);
  take(mark: string): boolean {
    const found = this.startsWith(mark);
    if (found) this.at += mark.length;
    return found;
  }
  want(mark: string, behind: string): void {
    if (this.take(mark)) return;
    throw new XmlError(this.line, `${this.here()} stands behind ${behind}, where ${mark} is wanted`);
  }
  private here = (): string =>
    this.ended()
      ? "the end of the file"
      : quoted(this.all.slice(this.at, this.at + 20).split("\n")[0] || "a line's end");
  /** What comes before the mark; all that is left where there is none. */
  upTo(mark: string): string {
    const end = this.all.indexOf(mark, this.at);
    return this.on(end < 0 ? this.all.length : end);
  }
  through(mark: string, line: number, what: string): string {
    const found = this.upTo(mark);
    if (!this.take(mark)) throw new XmlError(line, `${what} begins here and does not end; ${mark} is wanted`);
    return found;
  }
  private on(end: number): string {
    const found = this.all.slice(this.at, end);
    for (let i = found.indexOf("\n"); i >= 0; i = found.indexOf("\n", i + 1)) this.line++;
    this.at = end;
    return found;
  }
  private matched(pattern: RegExp): string {
    pattern.lastIndex = this.at;
    return this.on(this.at + (pattern.exec(this.all)?.[0].length ?? 0));
  }
  space = (): string => this.matched(SPACE);
  name(what: string): string {
    const name = this.matched(NAME);
    if (name === "") throw new XmlError(this.line, `${what} is wanted, and ${this.here()} is there`);
    return name;
  }
  comment(line: number): void {
    if (this.through("-->", line, "a comment").includes("--"))
      throw new XmlError(line, "a comment has -- inside, which ends it only as -->");
  }
  declaration(): void {
    if (!/^<\?xml[ \t\n]/.test(this.all)) return;
    const found = this.through("?>", 1, "the declaration");
    const encoding = /encoding\s*=\s*["']([^"']*)["']/.exec(found)?.[1];
    // The text was read as UTF-8, and whatever is plain ASCII is that in nearly every encoding.
    if (encoding !== undefined && !/^(utf-?8|us-ascii)$/i.test(encoding) && /[^\0-\x7f]/.test(this.all))
      throw new XmlError(1, `the encoding is ${quoted(encoding)}; save the file as UTF-8`);
  }
  attributes(element: string): Map<string, string> {
    const found = new Map<string, string>();
    for (;;) {
      const parted = this.space() !== "";
      if (this.startsWith(">") || this.startsWith("/>") || this.ended()) return found;
      if (!parted) this.want("a blank or >", `<${element}`);
      const { line } = this;
      const name = this.name("the name of an attribute");
      this.space();
      this.want("=", name);
      this.space();
      const mark = this.startsWith("'") ? "'" : '"';
      this.want(mark, `${name}=`);
      const value = this.through(mark, line, `the value of ${name}`);
      if (value.includes("<")) throw new XmlError(line, `the value of ${name} has a < in it; is its ${mark} missing?`);
      if (found.has(name)) throw new XmlError(line, `${name} stands twice in <${element}>`);
      found.set(name, charactersOf(value, line));
    }
  }
}
