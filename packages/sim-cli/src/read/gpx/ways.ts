import { quoted } from "@rideon/sim-core";
import type { Tell } from "../csv/csv.js";

interface Told {
  lat_deg: number;
  lon_deg: number;
  height_m: number | null;
  line: number;
}

/** A track or a route: its fixes in order. */
export interface ToldWay {
  kind: "track" | "route";
  point: "trkpt" | "rtept";
  line: number;
  name: string;
  fixes: Told[];
}

/** An xsd:decimal, as the schema has it. */
const DECIMAL = /^[-+]?(?:\d+\.?\d*|\.\d+)$/;
/** Below the lowest and above the highest ground, m. */
const HEIGHTS_m = [-500, 9000] as const;

const POINTS: ReadonlySet<string> = new Set(["gpx/trk/trkseg/trkpt", "gpx/rte/rtept"]);

/** The tracks and routes of a GPX document, as its elements come by. */
export class Ways {
  /** The names from the root down to each open element. */
  private readonly paths: string[] = [];
  private readonly found: ToldWay[] = [];
  private waypoints = 0;
  private fix: Told | undefined;
  private heard = "";
  private heightLine = 1;
  private readonly tell: Tell;
  constructor(tell: Tell) {
    this.tell = tell;
  }

  open(name: string, attributes: ReadonlyMap<string, string>, line: number): void {
    const above = this.paths.at(-1);
    const path = above === undefined ? name : `${above}/${name}`;
    this.paths.push(path);
    this.heard = "";
    if (path === "gpx/trk") this.found.push({ kind: "track", point: "trkpt", line, name: "", fixes: [] });
    else if (path === "gpx/rte") this.found.push({ kind: "route", point: "rtept", line, name: "", fixes: [] });
    else if (path === "gpx/wpt") this.waypoints++;
    else if (POINTS.has(path)) {
      const lat_deg = this.degrees(attributes, "lat", 90, name, line);
      const lon_deg = this.degrees(attributes, "lon", 180, name, line);
      this.fix = { lat_deg, lon_deg, height_m: null, line };
      this.found.at(-1)?.fixes.push(this.fix);
    } else if (name === "ele") this.heightLine = line;
  }

  text(found: string): void {
    const path = this.paths.at(-1) ?? "";
    if (path.endsWith("/ele") || path.endsWith("/name")) this.heard += found;
  }

  close(): void {
    const path = this.paths.pop() ?? "";
    if (path === "gpx/trk/name" || path === "gpx/rte/name") {
      const way = this.found.at(-1);
      if (way) way.name = this.heard.trim();
    } else if (path.endsWith("/ele") && POINTS.has(path.slice(0, -4)) && this.fix) this.fix.height_m = this.height();
  }

  /** The only track, or else the only route; anything else is told. */
  only(): ToldWay | undefined {
    const tracks = this.found.filter(({ kind }) => kind === "track");
    const ways = (tracks.length > 0 ? tracks : this.found).filter(({ fixes }) => fixes.length > 0);
    const [first, ...others] = ways;
    if (!first) {
      const beside = this.waypoints > 0 ? `; ${this.waypoints} waypoints have no order, and tell no way` : "";
      this.tell(1, `there is no track with fixes in it: <trk>, <trkseg> and <trkpt> are wanted${beside}`);
      return undefined;
    }
    for (const other of others)
      this.tell(
        other.line,
        `a second ${other.kind}${called(other)} of ${other.fixes.length} fixes; the first${called(first)} is on line ${first.line}: keep one in the file`,
      );
    return others.length === 0 ? first : undefined;
  }

  private degrees(
    attributes: ReadonlyMap<string, string>,
    key: "lat" | "lon",
    most: number,
    name: string,
    line: number,
  ): number {
    const text = attributes.get(key)?.trim();
    const value = text !== undefined && DECIMAL.test(text) ? Number(text) : Number.NaN;
    if (Math.abs(value) <= most) return value;
    const found = text === undefined ? "is missing" : `is ${quoted(text)}`;
    this.tell(line, `${key} of <${name}> ${found}; decimal degrees from -${most} to ${most} are wanted`);
    return Number.NaN;
  }

  private height(): number | null {
    const text = this.heard.trim();
    const value = DECIMAL.test(text) ? Number(text) : Number.NaN;
    if (value >= HEIGHTS_m[0] && value <= HEIGHTS_m[1]) return value;
    this.tell(this.heightLine, `<ele> is ${quoted(text)}; metres from ${HEIGHTS_m[0]} to ${HEIGHTS_m[1]} are wanted`);
    return null;
  }
}

const called = ({ name }: ToldWay): string => (name === "" ? "" : ` (${quoted(name)})`);
