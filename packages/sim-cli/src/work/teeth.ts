import { type CommandOption, OptionError, wordsOf } from "./options.js";

/** As `sizesOf` of the core has them. */
const TEETH = { least: 5, most: 200 } as const;
/** Of more sizes than anybody stocks, all pairs of pairs would take for ever. */
const MOST_SIZES = 40;

/** Sprockets to gear with. */
export const TEETH_OPTION: CommandOption = {
  flags: "--teeth <LIST>",
  about:
    "teeth of the sprockets to hand, each as often as wanted: 9,11,13,57,60 (default: what shops keep for the chain)",
  parse(text) {
    const words = wordsOf(text);
    const odd = words.filter((word) => !/^\d+$/.test(word) || Number(word) < TEETH.least || Number(word) > TEETH.most);
    const like = `teeth are whole numbers from ${TEETH.least} to ${TEETH.most}, such as 9,11,13,57,60`;
    if (words.length === 0) throw new OptionError(like);
    if (odd.length > 0) throw new OptionError(`${odd.join(", ")} will not do; ${like}`);
    const sizes = [...new Set(words.map(Number))];
    if (sizes.length <= MOST_SIZES) return sizes;
    throw new OptionError(`${sizes.length} sizes are more than ${MOST_SIZES}; leave out the unlikely ones`);
  },
};
