import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  export interface ProvidedContext {
    /** The command's own program. */
    command: string;
  }
}

/** The built command, as people have it. */
export default function setup(project: TestProject): void {
  project.provide("command", fileURLToPath(new URL("../../packages/sim-cli/bin/rideon.js", import.meta.url)));
}
