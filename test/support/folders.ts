import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  export interface ProvidedContext {
    /** Where tests have their folders. */
    folders: string;
  }
}

/** A folder for the whole run, taken away at its end with everything in it. */
export default function setup(project: TestProject): () => void {
  const folders = mkdtempSync(join(tmpdir(), "rideon-tests-"));
  project.provide("folders", folders);
  return () => rmSync(folders, { recursive: true, force: true });
}
