import { formatPercent, type LeastMargin, type RunAnswer } from "@rideon/sim-core";
import type { Opened } from "../../words/ready.js";

type Words = (left: number, opened: Opened) => [name: string, left: string];

/** The margins of trouble, in the order a builder asks for them. */
const WORDS: Readonly<Record<string, Words>> = {
  grip_N: (left_N, { eyes }) => ["slipping", `${eyes.of(left_N, "force")} of grip to go`],
  winding_degC: (left_K, { eyes }) => ["winding too hot", `${eyes.warmth(left_K)} to go`],
  breaker_heating: (left, opened) => [`${guard(opened)}, warming up`, `${formatPercent(left)} of the way to go`],
  breaker_magnetic_A: (left_A, opened) => [`${guard(opened)}, at once`, `${opened.eyes.of(left_A, "current")} to go`],
  switch_breaks_A: (left_A, { eyes }) => ["more than a switch can break", `${eyes.of(left_A, "current")} to go`],
  cutout_V: (left_V, { eyes, plan }) => [
    "controller's cut-out",
    `${eyes.of(left_V, "voltage")} above its ${eyes.of(plan.train.controller.cutout_V, "voltage")}`,
  ],
  protection_current_A: (left_A, { eyes }) => ["battery's protection, amps", `${eyes.of(left_A, "current")} to go`],
  protection_low_V: (left_V, { eyes }) => ["battery's protection, volts", `${eyes.of(left_V, "voltage")} to go`],
  empty_C: (left_C, { eyes }) => ["battery empty", `${eyes.of(left_C, "charge")} within reach`],
};

const guard = ({ plan: { train }, eyes }: Opened): string =>
  `${eyes.of(train.breaker.rating_A, "current")} ${train.breaker.kind}`;

/** Less than this of any of them is nothing. */
const NONE = 0.01;

/** Rows of what, how near, and where it was nearest. */
export function marginRows({ least_margins, laps, events }: RunAnswer, opened: Opened): string[][] {
  const { eyes } = opened;
  const slips = events.filter(({ kind }) => kind === "slips");
  const margins: Partial<Record<string, LeastMargin>> = least_margins;
  const known = Object.keys(WORDS).filter(
    (name) => !(name.startsWith("breaker") && opened.plan.train.breaker.kind === "none"),
  );
  return known.flatMap((name) => {
    const least = margins[name];
    if (!least || !Number.isFinite(least.value)) return [];
    const [what = "", left = ""] = WORDS[name]?.(least.value, opened) ?? [];
    const where = ({ time_s, chainage_m }: { time_s: number; chainage_m: number }) =>
      `at ${eyes.place(chainage_m)}${laps > 1 ? `, after ${eyes.of(Math.round(time_s), "time")}` : ""}`;
    const [slip] = slips;
    if (name === "grip_N" && slip) return [[what, `slipped ${times(slips.length)}`, `first ${where(slip)}`]];
    return [[what, least.value < NONE ? "at the limit" : left, where(least)]];
  });
}

const times = (count: number): string => (count === 1 ? "once" : `${count} times`);
