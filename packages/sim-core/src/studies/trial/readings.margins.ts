import type { Settled } from "./settled.js";
import type { States } from "./states.js";

// A yes or no is a margin, yes above 0: what is in doubt about the machine makes it more or less likely.

/** So far on one side that only a slip of the pen can miss it. */
export const CERTAIN = 1e9;

/** A yes or no that hangs on nothing in doubt. */
export const certainly = (yes: boolean): number => (yes ? CERTAIN : -CERTAIN);

/** Lever full: by how much the pull is more than the sprockets pass on, where these give way before the wheels do, N. */
export const slips = (s: States): number => (s.m.open ? -CERTAIN : Math.max(s.spare().slip_N, -CERTAIN));

/** Does the controller shut itself off there? By how much its input is below its cut-out, V. */
export const cutsOut = ({ m }: States, { controller_V }: Settled): number =>
  m.open ? -CERTAIN : m.cutsOut ? CERTAIN : m.train.controller.cutout_V - controller_V;
