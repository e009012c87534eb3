import { join } from "node:path";
import { wholeFiles } from "../../files/files.js";
import type { SweepFlags } from "./asked.js";

/** The page beside the CSV. */
export const PAGE = "sweep.html";

/**
 * Looks whether all that will be written has its place, before hours of work: nothing of it is begun, since a sweep that is
 * killed leaves its CSV alone behind.
 * @param csv the file of the rows, where one is wanted; @param reads files that are read, whose place none may take
 * @throws UsageError, DiskError
 */
export function mustHavePlaces(
  { out, svg, share }: Pick<SweepFlags, "out" | "svg" | "share">,
  csv: string | undefined,
  reads: readonly string[],
): void {
  const files = wholeFiles(reads);
  if (csv !== undefined) files.keep(csv);
  if (out !== undefined && !share) files.keep(join(out, PAGE));
  if (svg !== undefined && svg !== "-" && !share) files.keep(svg);
  files.finish();
}
