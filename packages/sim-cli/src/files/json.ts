import type { Assumed } from "@rideon/sim-core";
import { CAUTION } from "../ground/caution.js";
import { escaped } from "../ground/plain.js";
import { version } from "../ground/version.js";
import type { PlacedWarning } from "../words/warnings.js";

/** What stands in every JSON document before the answer's own keys. */
export interface Heading {
  command: string;
  warnings: readonly PlacedWarning[];
  assumed: readonly Assumed[];
  /** Step of the integration; null where nothing was simulated. */
  step_s: number | null;
  /** Answer less the answer at half the step, number by number; null where it was not asked for. */
  step_error: unknown;
}

/** Keys are only ever added within a format. */
const FORMAT = 1;

/** The whole document. What does not exist is null; NaN and Infinity do not occur. */
export function jsonDocument({ command, warnings, assumed, step_s, step_error }: Heading, answer: object): string {
  const heading = {
    rideon: version(),
    format: FORMAT,
    command,
    caution: CAUTION,
    warnings,
    assumed,
    step_s,
    step_error,
  };
  const document = { ...heading, ...answer };
  const finite = (_: string, value: unknown) => (typeof value === "number" && !Number.isFinite(value) ? null : value);
  const lines = JSON.stringify(document, finite, 2).split("\n");
  return `${lines.map(escaped).join("\n")}\n`;
}
