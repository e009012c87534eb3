import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { emptyFolder, rideon, siteFolder } from "./command.js";

const oneLine = (text: string) => text.replaceAll(/\s+/g, " ");
const NAMESPACE = 'xmlns="http://www.topografix.com/GPX/1/1"';
const ROOT = `<gpx version="1.1" creator="a receiver" ${NAMESPACE}>`;

/** A fix so many metres east and north of a place at 52° N. */
const fix = (east_m: number, north_m: number, ele: string | null = "100", name = "trkpt") =>
  `<${name} lat="${(52 + north_m / 111267.4).toFixed(8)}" lon="${(-1 + east_m / 68677.9).toFixed(8)}">${ele === null ? "" : `<ele>${ele}</ele>`}</${name}>\n`;
const track = (fixes: string) => `<trk><trkseg>\n${fixes}</trkseg></trk>`;
const document = (inside: string, root = ROOT) => `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n${inside}</gpx>\n`;
const eastwards = (count: number, height: (east_m: number) => number = () => 100) =>
  Array.from({ length: count }, (_, i) => fix(5 * i, 0, height(5 * i).toFixed(3))).join("");
const oval = (laps: number) =>
  Array.from({ length: 80 * laps + 1 }, (_, i) =>
    fix(63.66 * Math.cos((i * Math.PI) / 40), 63.66 * Math.sin((i * Math.PI) / 40), (100 + i / 100).toFixed(2)),
  ).join("");

const levelsOf = (text: string, ...args: string[]) => rideon(["levels", "-", ...args], { input: text });

describe("levels of a GPX track", () => {
  test("says first how poor the heights are, by 1 in 100 over 50 m, and which gradients are not told", async () => {
    const { status, stdout } = await levelsOf(document(track(eastwards(41, (s) => 100 + s / 100))));
    expect(status).toBe(0);
    expect(oneLine(stdout)).toMatch(
      /^No gradient of this track is told\. Over 50 m, 1 in 100 rises 0\.5 m, and two heights of a receiver may differ by 3 m where there is no rise: 1 in 100 is told only between places more than 900 m apart\./,
    );
    expect(stdout).toMatch(/not told: 1 in [\d.]+ down to 1 in [\d.]+ up/);
    expect(oneLine(stdout)).toContain("write kind: end-to-end under track");
    expect(oneLine(stdout)).toContain("Do not judge by it what a train can stop or hold");
  });

  test("a height that ends where it began is not told to less than heights are", async () => {
    const flat = Array.from({ length: 81 }, (_, i) =>
      fix(63.66 * Math.cos((i * Math.PI) / 40), 63.66 * Math.sin((i * Math.PI) / 40), (100 + i * 1e-6).toFixed(6)),
    ).join("");
    const { stdout } = await levelsOf(document(track(flat)));
    expect(oneLine(stdout)).toContain("It ends at the height with which it began at the same place");
    expect(stdout).not.toMatch(/0\.0000/);
  });

  test("the document has points, gradients and what was received", async () => {
    const { stdout } = await levelsOf(document(track(eastwards(41))), "--json", "--reading", "500");
    const { points, received, checks, accepted } = JSON.parse(stdout);
    expect(Object.keys(points[1])).toEqual(expect.arrayContaining(["place", "distance_m", "level_m", "doubt_m"]));
    expect(points.at(-1).distance_m).toBeCloseTo(200, 1);
    expect(points[1].doubt_m).toBe(0.5);
    expect(received).toMatchObject({ fixes: 41, difference_m: 0.5, one_in_100_told_over_m: 50, lap: null });
    expect([checks, accepted]).toEqual([null, null]);
  });

  test("several laps are cut to the first, told, and the profile closes for every command", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "run.gpx"), document(track(oval(3))));
    const { stdout } = await rideon(["levels", join(folder, "run.gpx"), "--out", folder]);
    expect(oneLine(stdout)).toMatch(
      /It comes round to where it was after 400 m\. The profile is that lap; the (?:799|800) m after it \(2 laps more\) are left out\. It ends 0\.8\d* m above/,
    );
    expect(readFileSync(join(folder, "track.csv"), "utf8")).toContain("# Heights of a receiver, metres in doubt");
    const checked = await rideon(["check", join(folder, "plan.yaml"), "--json"]);
    const { track_length_m, survey, warnings } = JSON.parse(checked.stdout);
    expect([checked.status, Math.round(track_length_m)]).toEqual([0, 400]);
    // Its doubt goes with it: 3 m between posts some 50 m apart.
    expect(survey).toMatchObject({ steepest_is_told: false, levelling: "by receiver", good_enough: false });
    expect(survey.doubt_percent).toBeGreaterThan(5);
    expect(warnings.map(({ code }: { code: string }) => code)).toContain("doubtful_profile");
    const said = await rideon(["climb", join(folder, "plan.yaml")]);
    expect(oneLine(said.stdout)).toContain("The profile is not good enough to act on");
    expect(oneLine(said.stdout)).toMatch(/on the steepest bit here, 1 in 1\d/);
  });

  test("nobody rides by it, however sure it is said to be of its heights", async () => {
    const folder = siteFolder();
    writeFileSync(join(folder, "run.gpx"), document(track(oval(3))));
    await rideon(["levels", join(folder, "run.gpx"), "--reading", "1", "--out", folder]);
    const { stdout } = await rideon(["limits", join(folder, "plan.yaml")]);
    expect(oneLine(stdout)).toMatch(
      /^By these sums it may carry no passengers here: the gradients of its profile are too much in doubt/,
    );
  });

  test("a route, prefixes, entities, comments, CDATA and other vocabularies are read as the standards have them", async () => {
    const route = document(
      `<rte><name>Tom &amp; Jerry&#x2019;s</name>${fix(0, 0, "1", "rtept")}${fix(90, 0, "2", "rtept")}</rte>`,
    );
    expect((await levelsOf(route)).status).toBe(0);
    const prefixed = document(track(eastwards(9)), `<gpx version='1.1' ${NAMESPACE}>`)
      .replaceAll(/<(\/?)(?!\?)/g, "<$1g:")
      .replace("xmlns=", "xmlns:g=");
    expect((await levelsOf(prefixed)).status).toBe(0);
    const strange = document(
      track(
        eastwards(9)
          .replace("<ele>100.000</ele>", "<!-- <ele>7</ele> --><ele><![CDATA[100]]></ele>")
          .replaceAll("</trkpt>", '<extensions><x:ele xmlns:x="y">9999999</x:ele><x:a/></extensions></trkpt>'),
      ),
    );
    const { stdout, status } = await levelsOf(strange, "--json");
    expect([status, JSON.parse(stdout).points[0].level_m]).toEqual([0, 100]);
  });

  test("fixes without a height are left out and told, while most have one", async () => {
    const { stdout } = await levelsOf(document(track(eastwards(20) + fix(100, 0, null) + fix(105, 0))));
    expect(oneLine(stdout)).toContain("The track has 21 fixes, besides 1 without a height, which are left out");
  });

  test.each([
    [
      "GPX 1.0",
      document(track(eastwards(5)), '<gpx version="1.0" xmlns="http://www.topografix.com/GPX/1/0">'),
      2,
      'this is GPX "1.0", and GPX 1.1 is wanted',
    ],
    ["no version", document(track(eastwards(5)), `<gpx ${NAMESPACE}>`), 2, 'version="1.1" is wanted'],
    ["another namespace", document(track(eastwards(5)), '<gpx version="1.1">'), 2, "has no xmlns"],
    [
      "another root",
      '<?xml version="1.0"?>\n<kml xmlns="http://www.opengis.net/kml/2.2">\n</kml>\n',
      2,
      "first element is <kml>, and <gpx> is wanted",
    ],
    [
      "no heights",
      document(track(Array.from({ length: 9 }, (_, i) => fix(9 * i, 0, null)).join(""))),
      4,
      "9 of 9 fixes have no height, the first of them here; an <ele> with metres is wanted",
    ],
    ["waypoints alone", document(fix(0, 0, "1", "wpt") + fix(9, 0, "1", "wpt")), 1, "2 waypoints have no order"],
    [
      "two tracks",
      document(`${track(eastwards(5))}\n${track(eastwards(6))}`),
      10,
      "a second track of 6 fixes; the first is on line 3: keep one in the file",
    ],
    ["no latitude", document(track(eastwards(5)).replace(/lat="[\d.]+"/, "")), 4, "lat of <trkpt> is missing"],
    [
      "a comma",
      document(track(eastwards(5)).replace(/lat="52\./, 'lat="52,')),
      4,
      "decimal degrees from -90 to 90 are wanted",
    ],
    [
      "degrees swapped for another planet's",
      document(track(eastwards(5)).replace(/lon="-1\./, 'lon="-181.')),
      4,
      'lon of <trkpt> is "-181.',
    ],
    ["a height in words", document(track(eastwards(5)).replace("100.000", "hill")), 4, '<ele> is "hill"'],
    [
      "a height in feet of the moon",
      document(track(eastwards(5)).replace("100.000", "100000")),
      4,
      "metres from -500 to 9000 are wanted",
    ],
    ["a document type", '<!DOCTYPE gpx [<!ENTITY a "b">]>\n<gpx/>\n', 1, "a document type or a declaration"],
    ["an unknown entity", document(`<trk><name>&nbsp;</name></trk>`), 3, '"&nbsp;" is not known'],
    [
      "tags that cross",
      document(`<trk><trkseg>\n</trk></trkseg>`),
      4,
      "</trk> ends nothing that is open; <trkseg> of line 3 is to be ended first",
    ],
    ["a file cut off", document(track(eastwards(5))).slice(0, -40), 8, "; is it whole?"],
    ["an attribute twice", document('<trk a="1"\n a="2"></trk>'), 4, "a stands twice in <trk>"],
    ["no quotes", document("<trk a=1></trk>"), 3, 'stands behind a=, where " is wanted'],
    ["a bare <", document("<trk><name>a < b</name></trk>"), 3, "in text, < is written &lt;"],
    ["two roots", `${document(track(eastwards(5)))}<gpx/>`, 10, "begins behind the end of the document"],
    [
      "a run back",
      document(track(eastwards(41) + Array.from({ length: 35 }, (_, i) => fix(195 - 5 * i, 0)).join(""))),
      44,
      "the way turns back on itself here, at fix 41 of 76",
    ],
    [
      "standing still",
      document(track(Array.from({ length: 50 }, (_, i) => fix(i % 5, i % 3)).join(""))),
      4,
      "the receiver stood still",
    ],
    ["a wild fix", document(track(eastwards(30) + fix(9000, 0) + fix(160, 0))), 34, "km from the one before"],
  ])("%s is told with its line, and nothing is written", async (_, text, line, message) => {
    const folder = emptyFolder();
    const { status, stdout, stderr } = await levelsOf(text, "--out", join(folder, "survey"));
    expect(stderr).toContain(message);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(new RegExp(`stdin:${line}: error`));
    expect(existsSync(join(folder, "survey"))).toBe(false);
  });

  test.each([
    ["--class", "12"],
    ["--adjust", "setups"],
  ])("%s is of a book, and told", async (...args) => {
    const { status, stderr } = await levelsOf(document(track(eastwards(20))), ...args);
    expect([status, stderr.includes("a receiver's track")]).toEqual([2, true]);
  });
});
