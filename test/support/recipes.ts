import { readFileSync } from "node:fs";

/** What stands in the README under a recipe's name. */
export function recipe(name: string): string {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  const [, text] = new RegExp(`<!-- recipe: ${name} -->\n\`\`\`\\w+\n([\\s\\S]*?)\`\`\``).exec(readme) ?? [];
  if (text === undefined) throw new Error(`the README has no recipe ${name}`);
  return text;
}
