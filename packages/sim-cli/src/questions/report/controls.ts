import { figures, planKeys, quantity } from "@rideon/sim-core";
import { safe } from "../../html/html.js";
import { shownIn } from "../../svg/units.js";
import { placesOnPage } from "../../words/places.js";
import type { Files } from "../../work/files.js";
import type { Told } from "./told.js";

/** What the reader has set. */
export interface Settings {
  passengers: number;
  /** In the unit its label names; NaN leaves the plan's lever alone. */
  speed: number;
  speedUnit: string;
  /** "" keeps the file's. */
  rail: string;
  charge_percent: number;
  brakes: "file" | "none" | "loco";
  /** Of a loco's brake that is tried, at the rail. */
  brake_N: number;
  gradients_percent: number;
  chainage_m: number;
}

type Rail = NonNullable<Files["plan"]["track"]["rail"]>;

/** The files as the reader has set them: each change is what `--set` would do, but for the gradients' scale. */
export function changed({ plan, loco, track, tables, doubts, logged }: Files, set: Settings): Files {
  const { rail: _, adhesion: __, ...line } = plan.track;
  const { brakes: ___, ...bare } = loco;
  const tried = set.brakes === "loco" ? { ...bare, brakes: [{ rail_force_N: set.brake_N }] } : bare;
  const unbraked = plan.cars?.map(({ brakes: ____, ...car }) => car);
  const scale = set.gradients_percent / 100;
  return {
    plan: {
      ...plan,
      passengers: set.passengers,
      ...(Number.isNaN(set.speed) ? {} : { speed_mps: quantity(`${set.speed} ${set.speedUnit}`, "speed") }),
      // A charge that no file gives is not made sure by standing in a field.
      ...(set.charge_percent === 100 * (plan.charge ?? planKeys.charge.default.value)
        ? {}
        : { charge: set.charge_percent / 100 }),
      track: set.rail === "" ? plan.track : { ...line, rail: set.rail as Rail },
      ...(set.brakes === "file" || !unbraked ? {} : { cars: unbraked }),
    },
    loco: set.brakes === "file" ? loco : tried,
    track:
      scale === 1
        ? track
        : {
            ...track,
            ...(track.height_m ? { height_m: track.height_m.map((each) => each * scale) } : {}),
            ...(track.sine ? { sine: track.sine.map((each) => each * scale) } : {}),
          },
    tables,
    ...(doubts && { doubts }),
    ...(logged && { logged }),
  };
}

/** What a field takes, and what it says where something else stands in it. */
export interface Bounds {
  least: number;
  most: number;
  whole?: true;
  wanted: string;
}

/** By the field's id. */
export const BOUNDS: Readonly<Record<string, Bounds>> = {
  "set-passengers": { least: 0, most: 60, whole: true, wanted: "a whole number of people, from 0 to 60" },
  "set-speed": { least: 0.5, most: 30, wanted: "a speed from 0.5 to 30" },
  "set-charge": { least: 5, most: 100, wanted: "a share of the charge from 5 to 100 %" },
  "set-brake-force": { least: 10, most: 5000, wanted: "a force from 10 to 5000 N" },
  "set-gradients": { least: 0, most: 300, wanted: "a share from 0 to 300 %" },
};

/** What is wrong with what stands in a field, in words; undefined where it will do. */
export function wrongWith(id: string, text: string): string | undefined {
  const bounds = BOUNDS[id];
  if (!bounds) return undefined;
  const value = Number(text.trim().replace(",", "."));
  if (text.trim() === "") return `Nothing stands here; wanted is ${bounds.wanted}.`;
  if (!Number.isFinite(value)) return `This is no number; wanted is ${bounds.wanted}.`;
  if (bounds.whole && !Number.isInteger(value)) return `${text.trim()} is no whole number; wanted is ${bounds.wanted}.`;
  if (value < bounds.least || value > bounds.most) return `${text.trim()} is out of range; wanted is ${bounds.wanted}.`;
  return undefined;
}

/** What no file says is never altered. */
const unfiled = (input: string): string => input.replace(/ data-file="[^"]*"/, "");

/** What is told of how sure the answers are. */
const SURE = [
  ["band", "the whole band"],
  ["bad", "the bad end"],
  ["middle", "the middle alone"],
] as const;

const RAILS = ["dry", "damp", "wet", "greasy"];

const field = (id: string, label: string, input: string): string =>
  `<div><label for="${id}">${safe(label)}</label>${input}</div>`;
const number = (id: string, value: number | string): string =>
  `<input id="${id}" type="text" inputmode="decimal" autocomplete="off" value="${value}" data-file="${value}" aria-describedby="${id}-wrong"><p id="${id}-wrong" class="wrong" hidden></p>`;
const choice = (id: string, options: readonly (readonly [value: string, label: string])[], chosen: string): string =>
  `<select id="${id}" data-file="${safe(chosen)}">${options.map(([value, label]) => `<option value="${safe(value)}"${value === chosen ? " selected" : ""}>${safe(label)}</option>`).join("")}</select>`;

/** Ordinary labelled inputs, shown by the program; without it the page says nothing of them. */
export function controlsHtml(told: Told): string {
  const { plan, files, units, brakes } = told;
  const { rail, adhesion } = files.plan.track;
  const speed = figures(shownIn(plan.speed_mps, units.speed));
  const own = adhesion === undefined ? (rail ?? "dry") : "";
  const rails = [
    ...(own === "" ? [["", `grip ${figures(adhesion ?? 0)}, as the file has it`] as const] : []),
    ...RAILS.map((each) => [each, each] as const),
  ];
  const tried_N = Math.ceil((brakes.brake_wanted?.rail_force_N ?? 300) / 10) * 10;
  const places = placesOnPage(plan.track).places.map(({ chainage_m, name }) => [String(chainage_m), name] as const);
  return `<form id="controls" hidden aria-labelledby="controls-h"><h2 id="controls-h">Try it</h2><div class="controls">
${field("set-passengers", "Passengers aboard", number("set-passengers", plan.passengers))}
${Number.isNaN(plan.speed_mps) ? "" : field("set-speed", `Speed, ${units.speed.unit}`, number("set-speed", speed))}
${field("set-rail", "Rail", choice("set-rail", rails, own))}
${field("set-charge", "Charge at the start, %", number("set-charge", figures(100 * plan.charge)))}
${field(
  "set-brakes",
  "Brakes",
  choice(
    "set-brakes",
    [
      ["file", "as the files have them"],
      ["none", "none"],
      ["loco", "a brake on the loco"],
    ],
    "file",
  ),
)}
${field("set-brake-force", "Its pull at the rail, N", number("set-brake-force", tried_N))}
${field("set-gradients", "Gradients, % of the survey's", number("set-gradients", 100))}
${field("set-place", "Act at", choice("set-place", places.length === 0 ? [["0", "the start"]] : places, places[0]?.[0] ?? "0"))}
${field("set-sure", "How sure", unfiled(choice("set-sure", SURE, "band")))}
<div><span class="unseen">Undo</span><button type="reset">Back to the file's values</button></div></div>
<p id="stop-here" role="status" aria-live="polite"></p></form>
<p id="altered" hidden></p>`;
}
