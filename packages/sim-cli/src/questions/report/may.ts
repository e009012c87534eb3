import { paragraph, safe } from "../../html/html.js";
import { judgement, tooMany } from "../limits/judgement.js";
import type { Told } from "./told.js";

/** The judgement of `limits`, and what must be done first: what the page opens with. */
export function mayHtml(told: Pick<Told, "limits" | "eyes">): string {
  const { said, first } = judgement(told.limits, told.eyes);
  const sentences = [...tooMany(told.limits), ...first];
  return `<div id="may" class="${told.limits.may_carry && tooMany(told.limits).length === 0 ? "good" : "bad"}"><p class="word">${safe(said)}</p>${paragraph(sentences.join(" "))}</div>`;
}
