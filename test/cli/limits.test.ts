import { expect, test } from "vitest";
import { rideon, SITE } from "./command.js";

test("limits says first what may ride, and that a plan has too many aboard", async () => {
  const { status, stdout } = await rideon(["limits", `${SITE}saturday.yaml`, "--passengers", "23", "--laps", "1"]);
  expect(status).toBe(0);
  const text = stdout.replaceAll(/\s+/g, " ");
  expect(text).toMatch(
    /^By these sums it may carry up to 8 passengers here, at up to 4 mph \(1\.79 m\/s\), slower on some stretches: it has no more seats\./,
  );
  expect(text).toContain("This plan has 23 passengers aboard: 15 too many.");
  expect(text).toContain("competent person");
});

test("without a brake it says so, and what brake to fit", async () => {
  const { stdout } = await rideon(["limits", `${SITE}plan.yaml`]);
  const text = stdout.replaceAll(/\s+/g, " ");
  expect(text).toMatch(
    /^By these sums it may carry no passengers here: it has no brake\. This plan has 6 passengers aboard/,
  );
  expect(text).toMatch(/Fit a brake that pulls \d+ N at the rail/);
});
