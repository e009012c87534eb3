import type { Warning } from "@rideon/sim-core";
import { diagnosticLine, type Place } from "../read/diagnostics.js";

/** A warning with the place it is about, as JSON has it. */
export interface PlacedWarning {
  code: string;
  file: string | null;
  line: number | null;
  column: number | null;
  message: string;
}

export function placed({ code, message }: Warning, place: Place | undefined): PlacedWarning {
  return { code, file: place?.file ?? null, line: place?.line ?? null, column: place?.column ?? null, message };
}

/** `loco.yaml:14:9: warning: …`; where nothing is known of the place, the program's name stands for it. */
export function warningLine({ file, line, column, message }: PlacedWarning): string {
  const place = { file: file ?? "rideon", ...(line === null ? {} : { line }), ...(column === null ? {} : { column }) };
  return diagnosticLine({ ...place, message }, "warning");
}
