import { type Key, type Keys, locoKeys, type OneOf, planKeys, planOneOf } from "@rideon/sim-core";

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

/** The right values that a key's example names, one or several. */
export const examplesOf = ({ example = "" }: Key): string[] =>
  example === "" ? [] : example.split(" or ").flatMap((each) => (/[{[]/.test(each) ? [each] : each.split(", ")));
