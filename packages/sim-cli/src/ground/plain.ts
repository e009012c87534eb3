/** What a terminal would obey or turn round: control characters, marks that set the direction of writing, line breaks. */
const OBEYED = /[\p{Cc}\p{Bidi_Control}\p{Zl}\p{Zp}]/u;
const ALL_OBEYED = new RegExp(OBEYED, "gu");

/** Does a text have characters that cannot be printed as they are? */
export const isPlain = (text: string): boolean => !OBEYED.test(text);

/** The text with nothing in it that a terminal would obey. */
export const plain = (text: string): string => text.replaceAll(ALL_OBEYED, "\u{fffd}");

/** The same inside JSON, where these characters can be spelt. */
export const escaped = (text: string): string =>
  text.replaceAll(ALL_OBEYED, (each) => `\\u${each.charCodeAt(0).toString(16).padStart(4, "0")}`);
