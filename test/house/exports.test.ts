import * as core from "@rideon/sim-core";
import { expect, test } from "vitest";

/**
 * What the core exports at run time. Every name here is a promise to whoever uses the core: none may go away or change
 * its meaning. So a name is added when somebody outside needs it, never because a test or the core itself does; and it
 * is added here too, on purpose.
 */
const PROMISED = [
  "BRAKE_SETS",
  "CAUSES",
  "FOOT_m",
  "InputError",
  "KMH_mps",
  "MPH_mps",
  "RAIL",
  "RunError",
  "TOOLS",
  "UnitError",
  "brakes",
  "brakesAt",
  "brakesStep_s",
  "check",
  "climb",
  "createPlan",
  "createSizing",
  "cut",
  "defaultInWords",
  "emfLoaded_V",
  "fieldName",
  "figures",
  "format",
  "formatBoth",
  "formatGradient",
  "formatPercent",
  "gears",
  "isTrouble",
  "laps",
  "leverShown",
  "limits",
  "locoKeys",
  "measureFirst",
  "nearest",
  "outingOf",
  "planKeys",
  "planOneOf",
  "protectionOf",
  "quantity",
  "quoted",
  "readQuantity",
  "readShare",
  "readingNames",
  "runOnce",
  "share",
  "shown",
  "size",
  "steeperThan",
  "tractiveEffort",
  "trial",
  "usualInWords",
  "usualStep_s",
];

test("the core exports what it promises and nothing else", () => {
  expect(Object.keys(core).sort()).toEqual(PROMISED);
});
