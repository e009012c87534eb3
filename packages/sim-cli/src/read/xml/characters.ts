import { quoted } from "@rideon/sim-core";

/** A document that is no XML, or more than is read here; the message says why. */
export class XmlError extends Error {
  readonly line: number;
  constructor(line: number, message: string) {
    super(message);
    this.line = line;
  }
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["amp", "&"],
  ["lt", "<"],
  ["gt", ">"],
  ["quot", '"'],
  ["apos", "'"],
]);
const REFERENCE = /&(?:#(\d{1,7})|#x([\da-f]{1,6})|([^&;\s]{1,40}));|&/gi;

/** Text with what its references stand for. @param line on which it begins @throws XmlError */
export function charactersOf(text: string, line: number): string {
  if (!text.includes("&")) return text;
  return text.replaceAll(REFERENCE, (found: string, ten?: string, sixteen?: string, name?: string, at?: number) => {
    const here = line + text.slice(0, at).split("\n").length - 1;
    if (name !== undefined) {
      const entity = ENTITIES.get(name);
      if (entity === undefined)
        throw new XmlError(
          here,
          `${quoted(found)} is not known; there are &amp; &lt; &gt; &quot; &apos; and &#number;`,
        );
      return entity;
    }
    const code = ten !== undefined ? Number(ten) : sixteen !== undefined ? Number.parseInt(sixteen, 16) : Number.NaN;
    if (Number.isNaN(code)) throw new XmlError(here, "a & stands by itself; in text it is written &amp;");
    const character =
      code === 9 || code === 10 || code === 13 || (code >= 32 && code < 0xd800) || (code > 0xdfff && code <= 0x10ffff);
    if (!character) throw new XmlError(here, `${quoted(found)} is no character`);
    return String.fromCodePoint(code);
  });
}
