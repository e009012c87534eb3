import { createHash } from "node:crypto";
import { gzipSync } from "node:zlib";
import { type Figure, framed, NARROW, type Sheet, safe, WIDE } from "../svg/draw.js";

export { safe };

/** A part of the page with its heading; what it holds is safe already. */
export const section = (id: string, heading: string, ...content: readonly string[]): string =>
  `<section id="${id}" aria-labelledby="${id}-h"><h2 id="${id}-h">${safe(heading)}</h2>\n${content.join("\n")}\n</section>`;

export const paragraph = (text: string): string => (text === "" ? "" : `<p>${safe(text)}</p>`);

/** The picture for wide and for narrow screens, one of which is shown, and below it what to see. */
export function picture(draw: (sheet: Sheet) => Figure): string {
  const wide = draw(WIDE);
  return `<figure><div class="wide">${framed(wide, WIDE)}</div><div class="narrow">${framed(draw(NARROW), NARROW)}</div><figcaption>${safe(wide.see)}</figcaption></figure>`;
}

/** A table with its caption; the first cell of a row names it. */
export function table(caption: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  const heads = head.map((each) => `<th scope="col">${safe(each)}</th>`).join("");
  const body = rows.map(
    ([first = "", ...others]) =>
      `<tr><th scope="row">${safe(first)}</th>${others.map((each) => `<td>${safe(each)}</td>`).join("")}</tr>`,
  );
  return `<div class="scroll" tabindex="0" role="region" aria-label="${safe(caption)}"><table><caption>${safe(caption)}</caption><thead><tr>${heads}</tr></thead><tbody>${body.join("")}</tbody></table></div>`;
}

/** The same as a picture, in figures, for who would rather read or copy. */
export const figures = (caption: string, head: readonly string[], rows: readonly (readonly string[])[]): string =>
  rows.length === 0
    ? ""
    : `<details class="same"><summary>${safe(caption)}, in figures</summary>${table(caption, head, rows)}</details>`;

/** Words for who wants them. */
export const folded = (summary: string, text: string): string =>
  `<details><summary>${safe(summary)}</summary>${paragraph(text)}</details>`;

export const list = (items: readonly string[]): string =>
  items.length === 0 ? "" : `<ul>${items.map((each) => `<li>${safe(each)}</li>`).join("")}</ul>`;

/**
 * A whole page that fetches nothing, and could not.
 * @param program the one that may run, once it is unpacked, and that as a worker too; "" where none may
 */
export function documentHtml(title: string, style: string, body: string, program = ""): string {
  const scripts =
    program === "" ? "script-src 'none'" : `script-src '${hashOf(UNPACK)}' '${hashOf(program)}'; worker-src blob:`;
  const policy = `default-src 'none'; style-src 'unsafe-inline'; ${scripts}; img-src data:; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<link rel="icon" href="data:,">
<title>${safe(title)}</title>
<style>${style}</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/**
 * A program in a page, packed, and what unpacks it there and puts it in: a third of its size. Browsers that cannot unpack
 * it show the page without.
 */
export const programHtml = (program: string): string =>
  `<script type="text/plain" id="program">${gzipSync(program, { level: 9 }).toString("base64")}</script>\n<script>${UNPACK}</script>`;

const UNPACK = `(async()=>{const at=document.getElementById("program");const packed=Uint8Array.from(atob(at.textContent),(c)=>c.charCodeAt(0));at.textContent=await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).text();const script=document.createElement("script");script.textContent=at.textContent;document.head.append(script)})()`;

/** As a content security policy names a program. */
const hashOf = (program: string): string => `sha256-${createHash("sha256").update(program).digest("base64")}`;
