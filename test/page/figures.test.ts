import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { LimitsAnswer } from "../../packages/sim-core/src/index.js";
import { rideon, SITE, siteFolder } from "../cli/command.js";

/** What people read of a part of the page, without its pictures: cells parted by bars. */
function readOf(html: string, from: string): string {
  const start = html.indexOf(from);
  expect(start, `${from} is on the page`).toBeGreaterThan(0);
  const rest = html.slice(start);
  const part = rest.slice(0, rest.search(/<\/section>|<\/article>|<\/div>\s*<div class="first">/));
  return part
    .replaceAll(/<svg[\s\S]*?<\/svg>/g, "")
    .replaceAll(/<\/t[hd]>|<\/(?:p|h\d|tr|caption)>/g, " | ")
    .replaceAll(/<[^>]+>/g, "")
    .replaceAll("&#39;", "'")
    .replaceAll(/(?:\s|\|)*\|\s*/g, " | ");
}

/** A train in each of the states that a page could flatter. */
const CASES: [name: string, file: string, args: string[]][] = [
  ["no brake", "plan.yaml", []],
  ["braked, five laps", "saturday.yaml", []],
  ["too many aboard", "saturday.yaml", ["--passengers", "23"]],
  ["the breaker trips", "saturday.yaml", ["--set", "loco.wiring.breaker.rating=6 A"]],
  ["the plan's hours end the day", "plan.yaml", ["--set", "duration=1 h"]],
  ["less charge than the reserve", "saturday.yaml", ["--charge", "0.4"]],
  ["more laps than a charge lasts", "saturday.yaml", ["--laps", "500"]],
  ["it stalls", "gala.yaml", []],
];

describe.each(CASES)("the page and the card against limits --json: %s", (_, file, args) => {
  const asked = async () => {
    const [json, page] = await Promise.all([
      rideon(["limits", SITE + file, ...args, "--json", "--quiet"]),
      rideon(["report", SITE + file, ...args, "--quiet"]),
    ]);
    expect([json.status, page.status]).toEqual([0, 0]);
    const limits = JSON.parse(json.stdout) as LimitsAnswer;
    return { limits, html: page.stdout, card: readOf(page.stdout, '<section id="card"') };
  };

  test("how many may ride, in the judgement and on the card", async () => {
    const { limits, html, card } = await asked();
    const judged = readOf(html, '<div id="may"');
    const carries = `may carry up to ${limits.most_aboard} passenger`;
    expect(judged.includes(carries)).toBe(limits.may_carry);
    expect(judged.includes("may carry no passengers")).toBe(!limits.may_carry);
    // What does not stop in nineteen of twenty is no good, whatever the judgement's own stop is.
    const unsure = judged.includes("it does not stop within sight in nineteen of twenty");
    expect(/<div id="may" class="good"/.test(html)).toBe(
      limits.may_carry && limits.passengers <= limits.most_aboard && !unsure,
    );
    if (unsure) expect(html).toMatch(/id="answer-brakes" class="bad"/);
    if (limits.may_carry) expect(card).toContain(`Most aboard | ${limits.most_aboard} passenger`);
    else expect(card).toContain("Most aboard | NO PASSENGERS");
    for (const [, most] of card.matchAll(/with (\d+) on \w+ rail/g))
      expect(Number(most)).toBeLessThanOrEqual(limits.seats);
  });

  test("a speed only for a train that can be stopped from it", async () => {
    const { limits, html, card } = await asked();
    const speed = /\| Speed \| ([^|]*) \|/.exec(card)?.[1] ?? "";
    const braked = limits.stops.some(({ who, outcome }) => who !== "nobody" && outcome !== "no_brake");
    expect(speed.startsWith("NONE")).toBe(limits.speeds.every(({ speed_mps }) => speed_mps === 0));
    if (!braked) expect(speed).toMatch(/^NONE: it has no brake/);
    expect(readOf(html, '<section id="stopping"')).toContain("How fast, with");
  });

  test("a tick for the charge only where it lasts, and the laps to plan for", async () => {
    const { limits, html, card } = await asked();
    expect(/id="answer-laps" class="good"/.test(html)).toBe(limits.charge_lasts);
    const said = readOf(html, 'id="answer-laps"');
    const charge = /\| A charge \| ([^|]*) \|/.exec(card)?.[1] ?? "";
    expect(said + charge).not.toMatch(/after 0 laps/);
    if (limits.laps_to_plan_for > 0)
      for (const text of [said, charge]) expect(text).toContain(`${limits.laps_to_plan_for} lap`);
    // Hours that end a day leave more than the reserve: nobody is told that it was reached.
    if (limits.day_ended_by === "duration") expect(said).toContain("a charge lasts longer than that");
  });

  test("the longest stop of whoever may be counted on, or what its band has, whichever is worse", async () => {
    const { limits, html, card } = await asked();
    const counted = limits.stops.find(
      ({ who, rail, outcome }) =>
        (who === "driver" || who === "guard") && rail === limits.counted.rail_stopping && outcome !== "no_brake",
    );
    const longest = /\| Longest stop \| ([^|]*) \|/.exec(card)?.[1] ?? "";
    const { sureness } = JSON.parse(/id="answers">([^<]*)</.exec(html)?.[1] ?? "");
    const some = (sureness.told_in.stop_m ?? 1) < 0.95;
    const worst_m = some ? Number.NaN : Math.max(counted?.distance_m ?? 0, sureness.bands.stop_m?.p95 ?? 0);
    if (!counted) expect(longest).toBe("NO BRAKE");
    else if (counted.distance_m !== null && !some) {
      expect(Number.parseFloat(longest)).toBeGreaterThanOrEqual(worst_m - 0.05);
      expect(Number.parseFloat(longest)).toBeLessThan(1.1 * worst_m);
    } else expect(longest).toContain("DOES NOT STOP");
    expect(longest.includes("BEYOND SIGHT")).toBe(counted?.distance_m !== null && worst_m > limits.sight_m);
    expect(/id="answer-brakes" class="good"/.test(html)).toBe(
      counted?.outcome === "stops" && worst_m <= limits.sight_m,
    );
  });
});

test("a line of 400 posts, each with a name, keeps within 400 kB", async () => {
  const folder = siteFolder();
  const rows = Array.from({ length: 401 }, (_, i) => {
    const round = (2 * Math.PI * i) / 400;
    const height_m = 0.6 * Math.sin(round) + 0.1 * Math.sin(9 * round);
    return `${3 * i},${height_m.toFixed(3)},${i === 0 || i === 400 ? "Start" : `Post number ${i}`}`;
  });
  writeFileSync(join(folder, "track.csv"), `distance_m,height_m,place\n${rows.join("\n")}\n`);
  const { status, stdout } = await rideon(["report", join(folder, "plan.yaml"), "--quiet"]);
  expect(status).toBe(0);
  expect(stdout.length).toBeLessThan(4e5);
});

test("a card of a line that nobody has surveyed well enough has nothing to drive by", async () => {
  const folder = siteFolder();
  const track = readFileSync(join(folder, "track.csv"), "utf8").trimEnd().split("\n");
  const heading = track.findIndex((line) => line.startsWith("distance_m"));
  const doubted = track.map((line, i) =>
    i < heading ? line : `${line},${i === heading ? "gradient_doubt_percent" : 2}`,
  );
  writeFileSync(join(folder, "track.csv"), `${doubted.join("\n")}\n`);
  const { status, stdout } = await rideon(["report", join(folder, "saturday.yaml"), "--sure", "--quiet"]);
  expect(status).toBe(0);
  const card = readOf(stdout, '<section id="card"');
  expect(card).toContain("Most aboard | NO PASSENGERS: the gradients of its profile are too much in doubt");
  for (const what of ["Speed", "Longest stop", "Starts again", "Left standing", "A charge"])
    expect(card).toContain(`| ${what} | NOT TO BE COUNTED ON |`);
  expect(card).not.toContain("laps left");
});
