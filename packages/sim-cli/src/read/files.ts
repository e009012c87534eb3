import { type Keys, locoKeys, type OneOf, planKeys, planOneOf } from "@rideon/sim-core";

export type Root = "loco" | "plan";

/** The keys that a block may have, and the choices between them. */
export interface Table {
  keys: Keys;
  oneOf?: readonly OneOf[];
}

/** The two kinds of file. */
export const FILES: Readonly<Record<Root, Table>> = {
  loco: { keys: locoKeys },
  plan: { keys: planKeys, oneOf: planOneOf },
};
