import { defaultInWords, type Key } from "@rideon/sim-core";
import { examplesOf, FILES, type Root, type Table } from "./files.js";

/** Every key of both files as Markdown, a table for each file. */
export function keyList(): string {
  return (["loco", "plan"] as const)
    .map((root) => `${HEADINGS[root]}\n\n${HEADER}\n${rows(FILES[root], "").join("\n")}`)
    .join("\n\n");
}

const HEADINGS: Readonly<Record<Root, string>> = {
  loco: "### The loco file",
  plan: "### The plan file",
};

const HEADER = "| key | meaning | default | where the default comes from |\n|---|---|---|---|";

function rows({ keys }: Table, path: string): string[] {
  return Object.entries(keys).flatMap(([name, key]) => {
    const at = `${path}${name}`;
    const below = key.kind === "map" ? rows(key, `${at}.`) : key.kind === "list" ? rows(key, `${at}[].`) : [];
    return [row(at, key), ...below];
  });
}

function row(path: string, key: Key): string {
  const examples = examplesOf(key).map((each) => `\`${each}\``);
  const example = examples.length > 0 ? `, such as ${examples.join(", ")}` : "";
  const choices = key.kind === "choice" ? `: ${key.choices.join(", ")}` : "";
  const fallback = key.required ? "must be given" : (defaultInWords(key) ?? "none");
  return `| ${[`\`${path}\``, `${key.meaning}${choices}${example}`, fallback, key.default?.source ?? ""].map(cell).join(" | ")} |`;
}

const cell = (text: string): string => text.replaceAll("|", "\\|");
