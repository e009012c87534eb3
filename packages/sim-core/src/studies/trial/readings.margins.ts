import { grip_N } from "../../drive/pull.js";
import { driveAt, isCutOut, type Settled } from "./settled.js";
import type { States } from "./states.js";

// A yes or no is a margin, yes above 0: what is in doubt about the machine makes it more or less likely.

/** So far on one side that only a slip of the pen can miss it. */
export const CERTAIN = 1e9;

/** A yes or no that hangs on nothing in doubt. */
export const certainly = (yes: boolean): number => (yes ? CERTAIN : -CERTAIN);

/** Does no current reach the motor whatever the lever does? */
export const isShut = ({ m }: States): boolean => m.open !== undefined || isCutOut(m);

/** The lever where the run wants it, on the level: by how much the pull is more than the sprockets pass on, N. */
export const slipsRunning = (s: States, lever: number): number => {
  if (isShut(s)) return -CERTAIN;
  const { train, level, sprockets_N } = s.m;
  const pull_N = Math.min(driveAt(s.m, train, 0, lever).force_N, grip_N(train, level));
  return Math.max(pull_N - sprockets_N, -CERTAIN);
};

/** Lever full: by how much the pull is more than the sprockets pass on, where these give way before the wheels do, N. */
export const slips = (s: States): number => (isShut(s) ? -CERTAIN : Math.max(s.spare().slip_N, -CERTAIN));

/** Does the controller shut itself off there? By how much its input is below its cut-out, V. */
export const cutsOut = ({ m }: States, { controller_V }: Settled): number =>
  m.open ? -CERTAIN : m.cutsOut ? CERTAIN : m.train.controller.cutout_V - controller_V;
