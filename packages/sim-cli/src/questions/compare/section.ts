import type { CompareAnswer } from "@rideon/sim-core";
import { figures, list, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { alongFigure } from "./along.svg.js";
import { cutShort, explainedInWords, headline, quantityRows, worstRows } from "./judged.js";

/** A logged run beside the sums, as the terminal tells it. */
export function comparedHtml({ eyes, units }: Pick<Seen, "eyes" | "units">, answer: CompareAnswer): string {
  return [
    paragraph([headline(answer), ...cutShort(answer, eyes)].join(" ")),
    picture((sheet) => alongFigure(answer, eyes, units, sheet)),
    list(explainedInWords(answer, eyes)),
    figures(
      "Logged and by the sums",
      ["Quantity", "logged", "by the sums", "difference", "left open", ""],
      quantityRows(answer, eyes),
    ),
    figures("Where it differs most", ["Quantity", "where"], worstRows(answer, eyes)),
  ].join("\n");
}
