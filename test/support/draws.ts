import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** The first draws from a small seed lean to one side. */
const LOPSIDED = 20;

/** Random numbers that are the same every time: even from 0 to 1, and standard normal (Box and Muller, 1958). */
export function draws(seed: number) {
  const generator = xoroshiro128plus(seed);
  const even = () => uniformFloat64(generator);
  for (let i = 0; i < LOPSIDED; i++) even();
  const normal = () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  return { even, normal };
}
