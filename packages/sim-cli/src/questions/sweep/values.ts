import { figures, type SweptCase } from "@rideon/sim-core";

/** `1.23`, `yes`; of what is not there, a dash. */
export function valueTold(value: SweptCase["figures"][string] | undefined): string {
  if (value === null || value === undefined) return "–";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "string" ? value : figures(value);
}
