import type { CompareAnswer } from "@rideon/sim-core";
import { figures, list, paragraph, picture } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { alongFigure } from "./along.svg.js";
import { explainedInWords, explainedUnder } from "./explained.js";
import { cutShort, flattered, headline, quantityRows, strayedInWords, worstRows } from "./judged.js";

/** A logged run beside the sums, as the terminal tells it. */
export function comparedHtml({ eyes, units }: Pick<Seen, "eyes" | "units">, answer: CompareAnswer): string {
  const explained = explainedInWords(answer, eyes);
  return [
    paragraph(
      [headline(answer), ...cutShort(answer, eyes), ...strayedInWords(answer, eyes), ...flattered(answer, eyes)].join(
        " ",
      ),
    ),
    paragraph("For this the plan's train was driven over the line as the log tells that the real one was."),
    picture((sheet) => alongFigure(answer, eyes, units, sheet)),
    ...(explained.length > 0 ? [paragraph(`${explainedUnder(answer)}:`), list(explained)] : []),
    ...(answer.quantities.length > 0
      ? [
          figures(
            "Logged and by the sums",
            ["Quantity", "logged", "by the sums", "difference", "left open", ""],
            quantityRows(answer, eyes),
          ),
          figures("Where it differs most", ["Quantity", "where"], worstRows(answer, eyes)),
        ]
      : []),
  ].join("\n");
}
