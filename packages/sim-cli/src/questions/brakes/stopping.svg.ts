import { type Band, type BrakeSet, formatGradient, type Plan, type Sureness } from "@rideon/sim-core";
import type { Picture } from "../../charts/picture.js";
import { extent } from "../../ground/extent.js";
import { type Figure, type Sheet, tag } from "../../svg/draw.js";
import { BAND, GHOST, INKS } from "../../svg/ink.js";
import { FOOT_px, footFigures, type Line, type Panel, panel, panelHeight_px } from "../../svg/panel.js";
import { type Seen, stacked } from "../../svg/parts.js";
import { pixels, profile } from "../../svg/profile.js";
import { type Along, gathers, LANE_px, laneOf, offTop, type StopRow } from "./lanes.svg.js";

export const SET_NAMES: Record<BrakeSet, string> = {
  none: "no brake",
  drag: "motor's drag",
  electric: "electric brake",
  loco: "loco's brake",
  all: "every brake",
};

/** Sets in two panels on one scale: what happens without a brake, and with. */
const GROUPS: readonly { name: string; heading: string; sets: readonly BrakeSet[]; band: string }[] = [
  { name: "without", heading: "Distance to stop with no brake", sets: ["none", "drag"], band: "run_on_m" },
  { name: "with", heading: "Distance to stop with brakes", sets: ["electric", "loco", "all"], band: "stop_m" },
];

/** A set's stops as the files have them, of a circuit: to draw behind what a control was moved to. */
export interface FiledStops {
  set: BrakeSet;
  run_m: number[];
  /** Null where it does not stop. */
  distance_m: (number | null)[];
}

/** Enough of them to be drawn. */
const MOST_FILED = 200;

/** Of the sets that a reader tries. */
export function filedStops({ track }: Plan, rows: readonly StopRow[]): FiledStops[] {
  if (track.kind !== "circuit") return [];
  const tenth = (value_m: number) => Math.round(10 * value_m) / 10;
  return (["none", "loco", "all"] as const).flatMap((set) => {
    const all = rows.filter(({ brakes }) => brakes === set).sort((a, b) => a.chainage_m - b.chainage_m);
    const own = all.filter((_, i) => i % Math.ceil(all.length / MOST_FILED) === 0);
    const distance_m = own.map((row) => (row.distance_m === null ? null : tenth(row.distance_m)));
    return own.length === 0 ? [] : [{ set, run_m: own.map(({ chainage_m }) => tenth(chainage_m)), distance_m }];
  });
}

/** Stops longer than so many sights run off the top. */
const SIGHTS_SHOWN = 2.5;

/** Stopping distance from every place for each set of brakes, on one rail; off the top where a set never stops. */
export function stoppingFigure(
  seen: Seen,
  picture: Picture,
  every: readonly StopRow[],
  sight_m: number,
  sheet: Sheet,
  filed: readonly FiledStops[] = [],
  bands: Sureness["bands"] = {},
): Figure {
  const rows = every
    .filter((row) => ahead_m(seen.plan, row) >= sight_m)
    .map((row) => ({ ...row, run_m: runOf_m(seen.plan, row) }))
    .sort((a, b) => a.run_m - b.run_m);
  const line = profile(seen, picture, sheet);
  const sets = [...new Set(rows.map(({ brakes }) => brakes))];
  const finite = rows.flatMap(({ stops, distance_m }) => (stops && distance_m !== null ? [distance_m] : []));
  const top_m = Math.max(1.4 * sight_m, Math.min(1.08 * Math.max(sight_m, extent(finite)[1]), SIGHTS_SHOWN * sight_m));
  const drawn = GROUPS.map((group) => ({ ...group, sets: group.sets.filter((set) => sets.includes(set)) }))
    .filter((group) => group.sets.length > 0)
    .map((group) => {
      const spec: Panel = {
        name: `stopping-${group.name}`,
        height_px: 150,
        x: line.x,
        y: { quantity: group.heading, units: seen.units.length, range: [0, top_m] },
        lines: [
          ...filed
            .filter(({ set }) => group.sets.includes(set))
            .map(({ set, run_m, distance_m }) => ({
              name: `${SET_NAMES[set]}, as filed`,
              ink: GHOST,
              x: run_m,
              y: distance_m.map((each) => Math.min(each ?? top_m, top_m)),
            })),
          ...group.sets.map((set, i): Line => lineOf(set, rows, top_m, INKS[i] ?? INKS[0])),
          ...bandLine(rows, group.sets, bands[group.band], top_m),
        ],
        posts: line.posts,
        shades: [
          {
            name: "sight",
            y: [sight_m, top_m],
            label: `farther than the driver sees, ${seen.eyes.of(sight_m, "length")}`,
          },
        ],
      };
      const lanes = group.sets.map((set) => ({ set, stretches: offTop(rows, set, top_m) }));
      return { spec, lanes: lanes.filter(({ stretches }) => stretches.length > 0) };
    });
  const height = ({ spec, lanes }: (typeof drawn)[number]) => lanes.length * LANE_px + panelHeight_px(spec);
  const at = pixels(line.x, sheet);
  const above = stacked(drawn, height, ({ spec, lanes }, top) => {
    const bands = lanes.map(({ set, stretches }, i) =>
      laneOf(seen, stretches, { set, name: SET_NAMES[set] }, at, top + 2 + i * LANE_px, sheet),
    );
    return bands.join("") + panel(spec, sheet, top + lanes.length * LANE_px);
  });
  const foot = above.height_px + line.height_px;
  return {
    name: "stopping",
    title: "Why brakes: how far it takes to stop, from every place",
    see: `${whatToSee(seen, rows, sets, sight_m)}${rows.length < every.length ? " Places within sight of an end of the line are left out: there the driver comes in slowly." : ""}`,
    height_px: foot + FOOT_px,
    body:
      above.body +
      tag("g", { transform: `translate(0 ${Math.round(above.height_px)})` }, line.body) +
      footFigures({ x: line.x }, sheet, foot),
  };
}

/** What nine in ten lie within, upright where the stop is longest: of no brake at all, or of the best brakes there are. */
function bandLine(
  rows: readonly (StopRow & Along)[],
  sets: readonly BrakeSet[],
  band: Band | undefined,
  top_m: number,
): Line[] {
  const set = sets.includes("none") ? "none" : sets.at(-1);
  const own = rows.filter(({ brakes, stops, distance_m }) => brakes === set && stops && distance_m !== null);
  const worst = own.reduce<(typeof own)[number] | undefined>(
    (a, b) => (a && (a.distance_m ?? 0) >= (b.distance_m ?? 0) ? a : b),
    undefined,
  );
  if (!band || !worst || band.p05 > top_m) return [];
  const { run_m } = worst;
  return [{ name: "nine in ten", ink: BAND, x: [run_m, run_m], y: [band.p05, Math.min(top_m, band.p95)] }];
}

/** Back along a line, the leading end sets out a train's length short of the last post. */
function runOf_m({ track, train }: Plan, { chainage_m, direction }: StopRow): number {
  if (track.kind === "circuit") return chainage_m;
  const out_m = track.length_m - train.length_m;
  return direction === "out" ? chainage_m - train.length_m : out_m + (out_m - chainage_m);
}

/** Line left ahead: within sight of its end a driver comes in slowly, so these places are not judged. */
const ahead_m = ({ track }: Plan, { chainage_m, direction }: StopRow): number =>
  track.kind === "circuit" ? Number.POSITIVE_INFINITY : direction === "out" ? track.length_m - chainage_m : chainage_m;

function lineOf(set: BrakeSet, rows: readonly Along[], top_m: number, ink: Line["ink"]): Line {
  const own = rows.filter(({ brakes }) => brakes === set);
  const value = ({ stops, distance_m }: Along) => (stops && distance_m !== null ? Math.min(distance_m, top_m) : top_m);
  // Out and back are two lines.
  const turn = own.findIndex(({ direction }) => direction === "back");
  const [x, y] = [own.map(({ run_m }) => run_m), own.map(value)];
  if (turn > 0) {
    x.splice(turn, 0, own[turn]?.run_m ?? 0);
    y.splice(turn, 0, Number.NaN);
  }
  return { name: SET_NAMES[set], ink, x, y };
}

function whatToSee({ eyes }: Seen, rows: readonly Along[], sets: readonly BrakeSet[], sight_m: number): string {
  const told = sets.map((set) => {
    const own = rows.filter(({ brakes }) => brakes === set);
    const name = SET_NAMES[set];
    const away = own.filter(({ outcome }) => outcome === "runs_on");
    const back = own.filter(({ outcome }) => outcome === "rolls_back");
    const rolls = back.length > 0 ? `, and rolls back from ${back.length} of ${own.length} places` : "";
    if (away.length > 0) {
      const worst = away.reduce((a, b) => (b.top_speed_mps > a.top_speed_mps ? b : a));
      return `with ${name} it runs away from ${away.length} of ${own.length} places and reaches ${eyes.speed(worst.top_speed_mps)}${rolls}`;
    }
    // As above the picture: what runs away by the fastest, anything else by the longest.
    const bad = (row: Along) => (gathers(row) ? 1e9 * row.top_speed_mps : (row.distance_m ?? 0));
    const worst = own
      .filter(({ stops }) => stops)
      .reduce<Along | undefined>((a, b) => (a && bad(a) >= bad(b) ? a : b), undefined);
    if (!worst) return `with ${name} it rolls back from all ${own.length} places`;
    const slope = formatGradient(worst.gradient_percent / 100);
    const way = slope.startsWith("-") ? `${slope.slice(1)} falling` : slope === "level" ? slope : `${slope} rising`;
    return `with ${name} it takes ${eyes.length(worst.distance_m ?? 0)} from ${eyes.place(worst.chainage_m)} (${way} there)${gathers(worst) ? ` and reaches ${eyes.speed(worst.top_speed_mps)}` : ""}${rolls}`;
  });
  const grey = `The grey part is beyond ${eyes.length(sight_m)}, as far as the driver sees: a line in it is a train that does not stop in time.`;
  return `How far the train runs from the moment the driver should act: ${told.join("; ")}. ${grey}`;
}
