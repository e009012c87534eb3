/** Fields of the form, by their ids. */
const fieldsOf = (form: HTMLFormElement): (HTMLInputElement | HTMLSelectElement)[] =>
  Array.from(form.querySelectorAll<HTMLInputElement | HTMLSelectElement>("input[data-file],select[data-file]"));

const altered = (form: HTMLFormElement) => fieldsOf(form).filter(({ value, dataset }) => value !== dataset["file"]);

/** What is set otherwise than the files have it, as a sentence that is printed too; "" where nothing is. */
export function alteredInWords(form: HTMLFormElement): string {
  const told = altered(form).map((field) => {
    const label = form.querySelector(`label[for="${field.id}"]`)?.textContent ?? field.id;
    const value = field instanceof HTMLSelectElement ? field.selectedOptions[0]?.textContent : field.value;
    return `${label}: ${value}`;
  });
  return told.length === 0 ? "" : `Altered on this page, otherwise than in the files: ${told.join("; ")}.`;
}

/** The page's address holds what was altered, so that it can be kept and sent. */
export function showAddress(form: HTMLFormElement): void {
  const set = new URLSearchParams(altered(form).map(({ id, value }) => [id, value]));
  const hash = set.toString();
  try {
    history.replaceState(null, "", hash === "" ? location.pathname : `#${hash}`);
  } catch {
    // Some browsers let no page opened from a file change its address.
  }
}

/** @returns was anything set by the address? */
export function restore(form: HTMLFormElement): boolean {
  const set = new URLSearchParams(location.hash.replace(/^#/, ""));
  let any = false;
  for (const field of fieldsOf(form)) {
    const value = set.get(field.id);
    if (value === null) continue;
    field.value = value;
    any = true;
  }
  return any;
}

/** Links within the page leave the address as it is. */
export function stayOnLinks(): void {
  document.addEventListener("click", (event) => {
    const link = (event.target as Element).closest('a[href^="#"]');
    const to = link && document.getElementById(link.getAttribute("href")?.slice(1) ?? "");
    if (!to) return;
    event.preventDefault();
    to.scrollIntoView();
  });
}
