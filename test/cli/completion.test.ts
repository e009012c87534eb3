import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { completionFor, SHELLS } from "../../packages/sim-cli/src/completion.js";
import { QUESTIONS } from "../../packages/sim-cli/src/questions/index.js";
import { rideon } from "./command.js";

/** What bash offers after these words. */
function offered(...words: string[]): string[] {
  const script = `${completionFor("bash", QUESTIONS)}
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _rideon; printf '%s\n' "\${COMPREPLY[@]}"`;
  const { stdout } = spawnSync("bash", ["-c", script, "bash", ...words], { encoding: "utf8" });
  return stdout.split("\n").filter(Boolean);
}

describe("completion", () => {
  test("bash is offered the commands, a command's own options, and the words that an option takes", () => {
    expect(offered("rideon", "cl")).toEqual(["climb"]);
    expect(offered("rideon", "brakes", "--si")).toEqual(["--sight"]);
    expect(offered("rideon", "run", "--si")).toEqual([]);
    expect(offered("rideon", "run", "plan.yaml", "--units", "i")).toEqual(["imperial"]);
  });
  test.each(SHELLS)("%s has every question and every option", async (shell) => {
    const { status, stdout } = await rideon(["completion", shell]);
    expect(status).toBe(0);
    for (const { name, options } of QUESTIONS) {
      expect(stdout).toContain(name);
      for (const { flags } of options) expect(stdout).toContain(flags.replace(/ .*/, "").slice(2));
    }
  });
  test("another shell is refused with those there are", async () => {
    const { status, stderr } = await rideon(["completion", "tcsh"]);
    expect([status, stderr]).toEqual([2, "rideon: error: shell: it is one of bash, zsh, fish\n"]);
  });
});
