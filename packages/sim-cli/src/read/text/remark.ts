/** The comment at the head of a plan's text, where people say what it is: invented, measured, by whom. */
export function remarkIn(text: string): string {
  const lines = text.split("\n");
  const end = lines.findIndex((line) => !line.startsWith("#"));
  return lines
    .slice(0, Math.max(0, end))
    .filter((line) => !line.includes("$schema="))
    .map((line) => line.replace(/^#\s*/, ""))
    .join(" ")
    .trim();
}
