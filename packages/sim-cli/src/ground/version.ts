import { readFileSync } from "node:fs";

/** Of this package, as its package.json has it. */
export const version = (): string =>
  (JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { version: string }).version;
