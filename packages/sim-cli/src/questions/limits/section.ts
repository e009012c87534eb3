import type { LimitsAnswer } from "@rideon/sim-core";
import { figures, folded, paragraph } from "../../html/html.js";
import type { Seen } from "../../svg/parts.js";
import { several } from "../../words/setting.js";
import { aboardRows, countedInWords, partedRows, speedCells, standingInWords, stopCells } from "./tables.js";

/** What `limits` tells on the terminal, folded: the same rows from the same answer. */
export function limitsHtml({ limits, eyes }: Seen & { limits: LimitsAnswer }): string {
  return [
    paragraph(countedInWords(limits, eyes)),
    folded("Where it may be left standing", standingInWords(limits, eyes)),
    figures(
      "How many aboard, besides the driver",
      ["Limit", "passengers", "where"],
      aboardRows(limits, eyes).map(filled),
    ),
    figures(
      `How fast, with ${several(limits.loaded, "passenger")}`,
      ["Stretch", "at most", "by"],
      speedCells(limits, eyes).map(filled),
    ),
    figures("How it stops, by who acts", ["Who", "rail", "stops in"], stopCells(limits, eyes).map(filled)),
    figures(
      "If a coupling parts",
      ["Coupling", "brakes", "the part left behind"],
      partedRows(limits, eyes).map(filled),
    ),
  ].join("\n");
}

/** A cell with nothing in it looks like one left out. */
const filled = (cells: readonly string[]): string[] => [0, 1, 2].map((i) => cells[i] || "–");
