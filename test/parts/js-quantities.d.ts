/** js-quantities 1.8 ships no types; the tests ask it for one thing. */
declare module "js-quantities" {
  export default function quantityOf(text: string): { baseScalar: number };
}
