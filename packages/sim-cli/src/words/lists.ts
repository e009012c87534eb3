const AND = new Intl.ListFormat("en-GB");

/** `a, b and c`. */
export const listed = (items: readonly string[]): string => AND.format(items);

/** The first letter is a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
