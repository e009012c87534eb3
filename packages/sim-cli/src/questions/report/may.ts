import { stopToCountOn } from "@rideon/sim-core";
import { paragraph, safe } from "../../html/html.js";
import { logInWords } from "../../words/logged.js";
import { doubtfulProfile } from "../../words/profile.js";
import { judgement, tooMany } from "../limits/judgement.js";
import type { Told } from "./told.js";

const UNSURE = "a stronger brake, less speed or fewer aboard is wanted, or the brake measured";

/** The judgement of `limits`, and what must be done first: what the page opens with. */
export function mayHtml(told: Pick<Told, "limits" | "eyes" | "plan" | "sureness">): string {
  const { said, first } = judgement(told.limits, told.eyes);
  const doubtful = doubtfulProfile(told.plan.notes);
  const stop = stopToCountOn(told.limits, told.sureness);
  const unsure =
    stop?.by_band && !stop.within_sight && told.limits.may_carry
      ? [`With every figure in doubt it does not stop within sight in nineteen of twenty: ${UNSURE}.`]
      : [];
  const good =
    told.limits.may_carry && tooMany(told.limits).length === 0 && doubtful.length === 0 && unsure.length === 0;
  const log = logInWords(told.limits.logged);
  const sentences = [...tooMany(told.limits), ...doubtful, ...unsure, ...first, ...(log ? [log.said] : [])];
  return `<div id="may" class="${good ? "good" : "bad"}"><p class="word">${safe(said)}</p>${paragraph(sentences.join(" "))}</div>`;
}
