import { nextLines, type Repeated } from "../words/next.js";
import { terminal } from "../words/terminal.js";

/** What to ask next of the plan that a sheet was read for; nothing where none was told. */
export const leadsOn = (
  name: string,
  { plan, quiet }: { plan?: string; quiet?: true },
  repeated: Repeated = {},
): string[] => (plan === undefined || quiet ? [] : spaced(nextLines(name, plan, repeated, terminal().columns)));

const spaced = (lines: readonly string[]): string[] => (lines.length === 0 ? [] : ["", ...lines]);
