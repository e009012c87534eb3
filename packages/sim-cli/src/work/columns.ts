/** The sheet of readings that a question takes, as its help tells it. */
export interface SheetColumns {
  /** Each column's name, or its quantity with its units, and what it holds. */
  columns: readonly (readonly [name: string, about: string])[];
  /** Its first lines, to be copied. */
  example: readonly string[];
}

const NAME_width = 24;

/** As help has it: columns, each on its line, and the first lines of a sheet. */
export const columnsInWords = ({ columns, example }: SheetColumns): string =>
  [
    "Columns, parted by commas, under a header with their names:",
    ...columns.map(([name, about]) => `  ${name.padEnd(NAME_width)} ${about}`),
    "",
    "Its first lines, such as:",
    ...example.map((line) => `  ${line}`),
  ].join("\n");
