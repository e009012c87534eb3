import { expect, test } from "vitest";
import { QUESTIONS } from "../../packages/sim-cli/src/questions/index.js";
import { shell, siteFolder } from "../cli/command.js";

test.each(QUESTIONS.map(({ name, example }) => [name, example]))(
  "the example of %s can be pasted: %s",
  async (_, line) => {
    const { status, stderr } = await shell(line.replaceAll(/\brideon(?= )/g, "$RIDEON"), siteFolder());
    expect([status, stderr.split("\n").filter((each) => each.includes("error"))]).toEqual([0, []]);
  },
);
