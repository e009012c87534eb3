export const element = (id: string): HTMLElement => document.getElementById(id) as HTMLElement;

/** Answers that are no longer those of what is set are covered by words that say so. */
export function cover(ids: readonly string[], words: string): void {
  for (const id of ids) {
    element(id).dataset["covered"] = words;
    element(id).setAttribute("aria-busy", "true");
  }
}

export function uncover(ids: readonly string[]): void {
  for (const id of ids) {
    delete element(id).dataset["covered"];
    element(id).removeAttribute("aria-busy");
  }
}
