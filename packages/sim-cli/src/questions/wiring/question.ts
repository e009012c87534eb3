import type { WiringAnswer } from "@rideon/sim-core";
import { asked } from "../../work/asked.js";
import type { AskedFlags } from "../../work/flags.js";
import { PLAN_OPTIONS, SVG_OPTION } from "../../work/options.js";

/** A sheet to connect by. */
export const wiringQuestion = asked<AskedFlags, { answer: WiringAnswer }>({
  name: "wiring",
  about:
    "a sheet to connect by: the way of the power, what each part of it must carry and break, and the order of joining",
  inFull:
    "a sheet to connect by: the way of the power from battery to motor, every cable with its amps and volts lost, what every switch must break on direct current, the order of joining with the battery last, and what a voltmeter shows at each joint; `--out` writes it as a page to print with the diagram in the symbols of IEC 60617, `--svg` the diagram alone",
  example: "rideon wiring plan.yaml --out wiring",
  options: [...PLAN_OPTIONS.filter(({ flags }) => !/^--laps /.test(flags)), SVG_OPTION],
  files: ["wiring.html", "answer.json"],
  doing: "looking at what every part must carry and break",
  work: () => import("./work.js"),
  tell: () => import("./words.js"),
});
