import type { WirePlace, WiringAnswer } from "@rideon/sim-core";
import { type Figure, tag, words } from "../../svg/draw.js";

/** Rails of the drawing, and where each thing stands along them. */
const TOP = 70;
const FOOT = 230;
const X: Readonly<Record<WirePlace, number>> = {
  battery: 50,
  device: 130,
  isolator: 225,
  dead_man: 362,
  controller: 465,
  reverser: 590,
  motor: 680,
};
const LAMP_X = 288;

const line = (d: string, extra: Record<string, string | number> = {}): string =>
  tag("path", { d, fill: "none", stroke: "#000", "stroke-width": 1.6, ...extra });
const symbol = (name: string, ...parts: readonly string[]): string => tag("g", { "data-symbol": name }, parts.join(""));
const below = (x: number, text: string, note: string): string =>
  words(x, TOP + 34, text, { "text-anchor": "middle", "font-size": 12 }) +
  words(x, TOP + 48, note, {
    "text-anchor": "middle",
    "font-size": 11,
    "font-style": "italic",
    fill: "#444",
  });

/** The circuit from battery to motor, in the symbols of IEC 60617; what the files do not have is drawn all the same. */
export function schematicFigure(answer: WiringAnswer): Figure {
  const at = (place: WirePlace) => answer.path.find((each) => each.place === place);
  const missing = (place: WirePlace) => at(place)?.fitted === false;
  const control = (place: WirePlace) => at(place)?.main === false;
  const label = (place: WirePlace, text: string) =>
    below(X[place], text, missing(place) ? "not in the files" : control(place) ? "in the control circuit" : "");
  const parts = [
    rails(answer),
    battery(),
    answer.device === "breaker" ? breaker() : fuse(X.device, TOP, "fuse"),
    label("device", answer.device === "none" ? "breaker or fuse" : answer.device),
    // It belongs here wherever the files have it.
    contact("isolator", X.isolator, "disconnector"),
    control("isolator") ? below(X.isolator, "isolator", "must stand here") : label("isolator", "isolator"),
    control("dead_man") ? "" : contact("dead_man", X.dead_man, "held"),
    label("dead_man", "dead-man's switch"),
    controller(answer.motor === "series"),
    reverser(missing("reverser") || control("reverser")),
    motor(answer),
    lamps(),
  ];
  return {
    name: "wiring",
    title: "How the power goes",
    see: `From the battery through breaker or fuse, isolator and dead-man's switch to the controller, and through the reverser to the motor. ${answer.motor === "series" ? "The field of the series motor stands before the reverser: turned about together with its armature it would change nothing. " : ""}Lamps and horn stand behind the isolator, with a fuse of their own. Symbols as in IEC 60617; nothing is drawn to scale.`,
    height_px: 290,
    body: parts.join(""),
  };
}

/** The two leads, broken where something stands in the upper one. */
function rails({ path }: WiringAnswer): string {
  const gaps = (["device", "isolator", "dead_man"] as const)
    .filter((place) => place !== "dead_man" || path.find((each) => each.place === place)?.main !== false)
    .map((place) => X[place]);
  let from = X.battery;
  const pieces = gaps.map((x) => {
    const piece = `M${from} ${TOP}H${x - 18}`;
    from = x + 18;
    return piece;
  });
  return (
    line(`${pieces.join("")}M${from} ${TOP}H${X.controller - 38}`) +
    line(`M${X.battery} ${FOOT}H${X.controller - 38}`) +
    words(X.battery + 8, TOP - 8, "+", { "font-weight": "bold" }) +
    words(X.battery + 8, FOOT + 18, "−", { "font-weight": "bold" })
  );
}

/** Cells: the long stroke is +. */
function battery(): string {
  const x = X.battery;
  const cells = [0, 1].map((i) => {
    const y = 132 + 24 * i;
    return line(`M${x - 16} ${y}H${x + 16}`) + line(`M${x - 8} ${y + 9}H${x + 8}`, { "stroke-width": 3.4 });
  });
  return symbol(
    "battery",
    line(`M${x} ${TOP}V132`),
    ...cells,
    line(`M${x} 141V156`, { "stroke-dasharray": "3 3" }),
    line(`M${x} 165V${FOOT}`),
    words(x - 18, 190, "battery", { "text-anchor": "end", "font-size": 12, transform: `rotate(-90 ${x - 18} 190)` }),
  );
}

/** A rectangle that the line goes through. */
const fuse = (x: number, y: number, name: string): string =>
  symbol(name, line(`M${x - 18} ${y - 6}h36v12h-36z`), line(`M${x - 18} ${y}h36`));

/** A make contact with the cross of what breaks short circuits. */
function breaker(): string {
  const x = X.device;
  return symbol(
    "breaker",
    line(`M${x - 18} ${TOP}h4L${x + 14} ${TOP - 14}`),
    line(`M${x + 18} ${TOP}h-4`),
    line(`M${x + 10} ${TOP - 4}l8 8m0 -8l-8 8`),
  );
}

/** A make contact: the disconnector has a bar at its fixed side, the held switch the hand that holds it. */
function contact(name: string, x: number, kind: "disconnector" | "held"): string {
  return symbol(
    name,
    line(`M${x - 18} ${TOP}h4L${x + 14} ${TOP - 14}`),
    line(`M${x + 18} ${TOP}h-4`),
    kind === "disconnector"
      ? line(`M${x + 14} ${TOP - 6}v12`)
      : line(`M${x} ${TOP - 7}v-22`, { "stroke-dasharray": "3 2" }) + line(`M${x - 7} ${TOP - 29}h14m-14 0v4m14 -4v4`),
  );
}

/** A direct-current converter: a box with a stroke across it, direct current on both sides; a series motor's field behind it. */
function controller(field: boolean): string {
  const [x, top, foot] = [X.controller, TOP - 16, FOOT + 16];
  const direct = (cx: number, cy: number) =>
    line(`M${cx - 9} ${cy}h18`) + line(`M${cx - 9} ${cy + 5}h18`, { "stroke-dasharray": "4 3" });
  return symbol(
    "controller",
    line(`M${x - 38} ${top}h76V${foot}h-76z`),
    line(`M${x - 38} ${foot}L${x + 38} ${top}`),
    direct(x - 18, top + 30),
    direct(x + 18, foot - 30),
    words(x, foot + 18, "controller", { "text-anchor": "middle", "font-size": 12 }),
    field
      ? line(`M${x + 38} ${TOP + 30}h12a6 6 0 0 1 12 0a6 6 0 0 1 12 0a6 6 0 0 1 12 0H${X.reverser - 26}`) +
          words(x + 68, TOP + 46, "field", { "text-anchor": "middle", "font-size": 11 })
      : line(`M${x + 38} ${TOP + 30}H${X.reverser - 26}`),
    line(`M${x + 38} ${FOOT - 30}H${X.reverser - 26}`),
  );
}

/** Two changeover contacts that cross the motor's leads; within the controller where it reverses. */
function reverser(dashed: boolean): string {
  const x = X.reverser;
  const [up, down] = [TOP + 30, FOOT - 30];
  const dash = dashed ? { "stroke-dasharray": "4 3" } : {};
  return symbol(
    "reverser",
    line(`M${x - 26} ${up - 12}h52V${down + 12}h-52z`, dash),
    line(`M${x - 26} ${up}h52M${x - 26} ${down}h52`),
    line(`M${x - 26} ${up}L${x + 26} ${down}M${x - 26} ${down}L${x + 26} ${up}`, { "stroke-dasharray": "2 4" }),
    words(x, down + 28, "reverser", { "text-anchor": "middle", "font-size": 12 }),
    dashed
      ? words(x, down + 43, "or the controller's", { "text-anchor": "middle", "font-size": 11, fill: "#444" })
      : "",
    line(`M${x + 26} ${up}H${X.motor}M${x + 26} ${down}H${X.motor}`),
  );
}

/** M in a circle, on direct current: a series motor's armature. Several are drawn as one, and told. */
function motor({ motors, motors_in_series }: WiringAnswer): string {
  const [x, y] = [X.motor, (TOP + FOOT) / 2];
  return symbol(
    "motor",
    line(`M${x} ${TOP + 30}V${y - 22}`),
    tag("circle", { cx: x, cy: y, r: 22, fill: "none", stroke: "#000", "stroke-width": 1.6 }),
    words(x, y + 3, "M", { "text-anchor": "middle", "font-weight": "bold" }),
    line(`M${x - 8} ${y + 9}h16`) + line(`M${x - 8} ${y + 13}h16`, { "stroke-dasharray": "4 3" }),
    line(`M${x} ${y + 22}V${FOOT - 30}`),
    motors > 1
      ? words(x + 26, FOOT - 12, `${motors}, in ${motors_in_series ? "series" : "parallel"}`, {
          "text-anchor": "end",
          "font-size": 12,
        })
      : "",
  );
}

/** A cross in a circle, behind a fuse of its own. */
function lamps(): string {
  const x = LAMP_X;
  return symbol(
    "lamps",
    line(`M${x} ${TOP}V118`),
    tag("g", { transform: `rotate(90 ${x} 136)` }, fuse(x, 136, "own-fuse")),
    line(`M${x} 154V172`),
    tag("circle", { cx: x, cy: 186, r: 14, fill: "none", stroke: "#000", "stroke-width": 1.6 }),
    line(`M${x - 10} 176l20 20m0 -20l-20 20`),
    line(`M${x} 200V${FOOT}`),
    words(x + 20, 190, "lamps, horn", { "font-size": 12 }),
  );
}
