/** As a shell takes it. */
export const quoted = (text: string): string =>
  text !== "" && !/[^\w./:,=-]/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;
