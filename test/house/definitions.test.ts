import { readFileSync } from "node:fs";
import { describe, expect, expectTypeOf, test } from "vitest";
import { definitionsText } from "../../packages/sim-cli/src/read/keys/definitions.js";
import type { Definition } from "../../packages/sim-core/src/keys.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/definitions.js";
import type { locoKeys, planKeys } from "../../packages/sim-core/src/parts/files.keys.js";

// The declarations that an editor shows are written out; the tables of keys stay what they are written from.

const FILE = new URL("../../packages/sim-core/src/parts/definitions.ts", import.meta.url);

/** However the lines are broken. */
const plain = (text: string): string => text.replaceAll(/\s+/g, " ").replaceAll(/: \| /g, ": ");

test("the declarations are up to date (npm run schema)", () => {
  expect(plain(readFileSync(FILE, "utf8"))).toBe(plain(definitionsText()));
});

describe("what is declared is what the tables say, field by field", () => {
  // Types alone: the compiler refuses this file where they differ.
  test("of a loco", () => expectTypeOf<LocoDefinition>().toEqualTypeOf<Definition<typeof locoKeys>>());
  test("of a plan", () => expectTypeOf<PlanDefinition>().toEqualTypeOf<Definition<typeof planKeys>>());
});
