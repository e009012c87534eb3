import type { Plan, RunAnswer } from "@rideon/sim-core";
import type { Picture } from "../../charts/picture.js";
import { extent } from "../../ground/extent.js";
import { type Figure, HALO, type Sheet, tag, tenth, textWidth_px, words } from "../../svg/draw.js";
import { GHOST, INKS } from "../../svg/ink.js";
import { about, FOOT_px, fromZero, type Line, type Panel, panel, panelHeight_px, type Shade } from "../../svg/panel.js";
import { type Seen, stacked } from "../../svg/parts.js";
import { lineInWords, type Profile, pixels, profile } from "../../svg/profile.js";
import { endInWords } from "../../words/events.js";

/** Changes of charge and volts over one lap that are of no account are not made to look large. */
const LEAST = { share: 0.04, volts: 2, kelvin: 10 } as const;
/** A limit farther above what happens is told in words, or it would press the line flat. */
const SHOWN_ABOVE = 2.2;

/** Speed, currents, charge and heat along the first lap, one below the other on the line's own scale. */
export function lapFigure(seen: Seen, picture: Picture, answer: RunAnswer, sheet: Sheet, ghost?: Picture): Figure {
  const line = profile(seen, picture, sheet);
  const panels = panelsOf(seen, picture, line, ghost);
  const last = panels.length - 1;
  const all = panels.map((each, i) => ({ ...each, foot: i === last }));
  const below = stacked(all, panelHeight_px, (each, top) => panel(each, sheet, line.height_px + 6 + top));
  return {
    name: "lap",
    title: "Along the lap",
    see: [lineInWords(seen, line.strip), ...whatToSee(seen, answer)].join(" "),
    height_px: line.height_px + 6 + below.height_px,
    body:
      tag("g", { "data-panel-group": "line" }, line.body) +
      below.body +
      ended(seen, picture, answer, line, sheet, below.height_px),
  };
}

/** Where a lap that was not finished ended: a line through all panels, and what happened there. */
function ended(
  { eyes }: Seen,
  { run_m }: Picture,
  { outcome, events }: RunAnswer,
  line: Profile,
  sheet: Sheet,
  below_px: number,
): string {
  const last = events.at(-1);
  const said = ENDS[outcome];
  if (!said || !last || last.lap !== 1) return "";
  const x = pixels(line.x, sheet)(run_m.at(-1) ?? 0);
  const fast =
    last.kind === "ran_away" || last.kind === "overran" ? `, at ${eyes.speed(Math.abs(last.speed_mps))}` : "";
  const text = `✕ ${said}${fast}`;
  const half = textWidth_px(text, sheet.font_px) / 2;
  const foot = line.height_px + below_px - FOOT_px;
  return (
    tag("path", {
      d: `M${tenth(x)} ${tenth(line.height_px - 16)}V${tenth(foot)}`,
      stroke: "#000",
      "stroke-width": 2,
      "stroke-dasharray": "6 3",
    }) +
    words(Math.max(half + 2, Math.min(x, sheet.width_px - half - 2)), line.height_px + 34, text, {
      ...HALO,
      "text-anchor": "middle",
      "font-weight": "bold",
      "data-event": outcome,
    })
  );
}

/** What stands at the end of a lap that was not finished. */
const ENDS: Partial<Record<RunAnswer["outcome"], string>> = {
  stalled: "stalls here",
  slipping: "wheels spin here",
  flat: "no charge left",
  tripped: "breaker opens",
  overran: "overruns",
  ran_away: "runs away backwards",
  burnt_out: "motor burns out",
};

function panelsOf({ plan, units }: Seen, picture: Picture, { x, posts, strip }: Profile, ghost?: Picture): Panel[] {
  const { run_m, motor_current_A, battery_current_A } = picture;
  const line = (name: string, y: readonly number[], ink: Line["ink"] = INKS[0]): Line => ({ name, ink, x: run_m, y });
  const common = { x, posts };
  const before = (name: string, y: (of: Picture) => readonly number[]): Line[] =>
    ghost ? [{ name, ink: GHOST, x: ghost.run_m, y: y(ghost) }] : [];
  const limits = limitsAlong(plan, picture, strip.length_m);
  const fastest = limits.filter(({ y }) => y[0] < SHOWN_ABOVE * extent(picture.speed_mps)[1]).map(({ y }) => y[0]);
  const speeds = fromZero([...picture.speed_mps, ...(ghost?.speed_mps ?? [])], ...fastest.map((each) => 1.15 * each));
  const amps = fromZero([...motor_current_A, ...battery_current_A, ...(ghost?.motor_current_A ?? [])]);
  const most = { motor: plan.train.controller.motorLimit_A, breaker: plan.train.breaker.rating_A };
  const ampShades = (["breaker", "motor"] as const)
    .filter((which) => most[which] < SHOWN_ABOVE * amps[1])
    .map((which): Shade => ({ name: which, y: [most[which], Number.POSITIVE_INFINITY], label: LIMITS[which] }));
  const ampsTop = Math.max(amps[1], ...ampShades.map(({ y }) => 1.2 * y[0]));
  const within = (shades: readonly Shade[], top: number) =>
    shades.map((each) => ({ ...each, y: [each.y[0], top] as const }));
  return [
    {
      ...common,
      name: "speed",
      height_px: 84,
      y: { quantity: "Speed", units: units.speed, range: speeds },
      lines: [...before("as filed", (of) => of.speed_mps), line("train", picture.speed_mps)],
      shades: within(limits, speeds[1]),
    },
    {
      ...common,
      name: "current",
      height_px: 110,
      y: { quantity: "Current", units: units.current, range: [amps[0], ampsTop] },
      lines: [
        ...before("motor, as filed", (of) => of.motor_current_A),
        line("motor", motor_current_A),
        line("battery", battery_current_A, INKS[1]),
      ],
      shades: within(ampShades, ampsTop),
    },
    {
      ...common,
      name: "voltage",
      height_px: 60,
      y: { quantity: "Battery volts", units: units.voltage, range: about(picture.battery_voltage_V, LEAST.volts) },
      lines: [line("battery", picture.battery_voltage_V)],
    },
    {
      ...common,
      name: "charge",
      height_px: 60,
      y: { quantity: "Charge left", units: units.share, range: about(picture.state_of_charge, LEAST.share) },
      lines: [line("charge", picture.state_of_charge)],
    },
    {
      ...common,
      name: "winding",
      height_px: 60,
      y: {
        quantity: "Motor winding",
        units: units.temperature,
        range: about(picture.winding_temperature_C, LEAST.kelvin),
      },
      lines: [line("winding", picture.winding_temperature_C)],
    },
  ];
}

const LIMITS = {
  breaker: "above the breaker's rating (battery)",
  motor: "above the controller's limit (motor)",
} as const;

/** Speed limits where they hold, as the drawn lap meets them. */
function limitsAlong({ track }: Plan, { run_m, chainage_m }: Picture, length_m: number): Shade[] {
  const { distance_m: posts_m } = track;
  // The places are asked for one after the other along the line.
  let post = 0;
  const limitAt = (at_m: number): number => {
    while (post + 2 < posts_m.length && posts_m[post + 1]! <= at_m) post++;
    while (post > 0 && posts_m[post]! > at_m) post--;
    return track.limit_mps[post] ?? Number.POSITIVE_INFINITY;
  };
  const circuit = track.kind === "circuit";
  const along = circuit ? Array.from(track.distance_m) : run_m;
  const at = circuit ? along : chainage_m;
  const shades: Shade[] = [];
  for (let i = 0; i + 1 < along.length; i++) {
    const limit = limitAt((at[i]! + at[i + 1]!) / 2);
    if (!Number.isFinite(limit)) continue;
    const before = shades.at(-1);
    const to = Math.min(along[i + 1]!, length_m);
    if (before?.x && before.y[0] === limit && before.x[1] === along[i])
      shades[shades.length - 1] = { ...before, x: [before.x[0], to] };
    else shades.push({ name: "limit", x: [along[i]!, to], y: [limit, Number.POSITIVE_INFINITY], label: "limit" });
  }
  return shades;
}

function whatToSee({ plan, eyes }: Seen, answer: RunAnswer): string[] {
  const { train } = plan;
  const breaker =
    train.breaker.kind === "none"
      ? "there is no breaker"
      : `the ${train.breaker.kind} is rated ${eyes.of(train.breaker.rating_A, "current")}`;
  return [
    `Speed reaches ${eyes.speed(answer.top_speed_mps)}.`,
    `The motor takes up to ${eyes.of(answer.peak_motor_current_A, "current")} (the controller's limit is ${eyes.of(train.controller.motorLimit_A, "current")}) and the battery gives up to ${eyes.of(answer.peak_battery_current_A, "current")} (${breaker}).`,
    `Battery volts fall to ${eyes.of(answer.lowest_battery_voltage_V, "voltage")}; the controller cuts out at ${eyes.of(train.controller.cutout_V, "voltage")}.`,
    `The winding reaches ${eyes.of(answer.peak_winding_temperature_C, "temperature")} of the ${eyes.of(train.heat.limit_degC, "temperature")} it is allowed.`,
    ...(answer.outcome === "completed"
      ? []
      : [`The lines end where the run does: ${endInWords(answer.events, eyes.exact)}.`]),
  ];
}
