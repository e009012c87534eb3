import { type Diagnostic, readSurvey } from "@rideon/sim-cli/read";
import { levelsOfFixes } from "@rideon/sim-core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";

const FIXES = Array.from(
  { length: 12 },
  (_, i) => `<trkpt lat="52.${String(i).padStart(4, "0")}" lon='-1'><ele>10${i % 3}</ele><time>x</time></trkpt>`,
);
const TRACK = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="a receiver" xmlns="http://www.topografix.com/GPX/1/1">
<!-- a run --><metadata><name>Tom &amp; Jerry</name></metadata>
<trk><name><![CDATA[a < b]]></name><trkseg>
${FIXES.slice(0, 6).join("\n")}
</trkseg><trkseg>
${FIXES.slice(6).join("\n")}
</trkseg></trk></gpx>
`;

function read(text: string) {
  const problems: Diagnostic[] = [];
  return { survey: readSurvey("run.gpx", text, problems), problems };
}

describe("a GPX track", () => {
  test("is read with the line of each fix, over its segments", () => {
    const { survey, problems } = read(TRACK);
    expect(problems).toEqual([]);
    expect(survey).toMatchObject({ kind: "fixes", without: 0, lines: [5, 6, 7, 8, 9, 10, 12, 13, 14, 15, 16, 17] });
    expect(survey?.kind === "fixes" && survey.fixes[4]).toMatchObject({ lat_deg: 52.0004, lon_deg: -1, height_m: 101 });
  });

  test("that is spoilt anywhere is read whole, or told with a line, and never throws", () => {
    const spoil = fc.record({
      at: fc.nat(TRACK.length),
      drop: fc.nat(12),
      put: fc.oneof(
        fc.constantFrom(
          "<",
          ">",
          "&",
          '"',
          "'",
          "/",
          "]]>",
          "<!--",
          "-->",
          "<![CDATA[",
          "<!DOCTYPE a>",
          "&#0;",
          "&#x110000;",
          "=",
          "\n",
          "<?",
        ),
        fc.string({ maxLength: 4 }),
      ),
    });
    fc.assert(
      fc.property(spoil, ({ at, drop, put }) => {
        const { survey, problems } = read(TRACK.slice(0, at) + put + TRACK.slice(at + drop));
        expect(survey === undefined).toBe(problems.length > 0);
        for (const { line, message } of problems)
          expect([line === undefined, message.length > 10]).toEqual([false, true]);
      }),
      { numRuns: 3000, seed: 1 },
    );
  });

  test("in another encoding is told, unless it is plain ASCII", () => {
    const latin = TRACK.replace("UTF-8", "ISO-8859-1");
    expect(read(latin).problems).toEqual([]);
    expect(read(latin.replace("Jerry", "Jérôme")).problems).toEqual([
      { file: "run.gpx", line: 1, message: 'the encoding is "ISO-8859-1"; save the file as UTF-8' },
    ]);
  });

  test("that bombs with entities has none of them, and one nested for ever is told", () => {
    expect(read('<!DOCTYPE a [<!ENTITY b "&c;&c;">]><gpx/>').problems[0]?.message).toContain("a document type");
    expect(read("<a>".repeat(100_000)).problems[0]?.message).toContain("and <gpx> is wanted");
    const deep = TRACK.replace("</metadata>", `</metadata>${"<a>".repeat(100_000)}`);
    expect(read(deep).problems[0]?.message).toContain("nested more than 100 deep");
  });

  test("of a hundred thousand fixes is read and levelled", () => {
    const fixes = Array.from(
      { length: 100_000 },
      (_, i) => `<trkpt lat="${(52 + i * 1e-5).toFixed(6)}" lon="-1"><ele>${100 + (i % 7) / 10}</ele></trkpt>\n`,
    ).join("");
    const { survey } = read(TRACK.replace(/<trkseg>[\s\S]*<\/trkseg>/, `<trkseg>${fixes}</trkseg>`));
    if (survey?.kind !== "fixes") throw new Error("no track");
    const { received, points } = levelsOfFixes(survey.fixes);
    // A degree of the meridian between 52° and 53°: 111.28 km (the radii of the ellipsoid, Rapp, Geometric Geodesy I).
    expect([received.fixes, Math.round(points.at(-1)!.distance_m! / 100)]).toEqual([100_000, 1113]);
  });
});
