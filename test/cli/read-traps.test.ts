import { describe, expect, test } from "vitest";
import { errorsOf, LOCO, PLAN, read, readWell } from "../support/folder.js";

/** YAML 1.2 (yaml.org/spec/1.2.2) reads these otherwise than people mean them; each is mended or told. */
describe("texts are taken as written", () => {
  test.each(["081", "5E5", "no", "1:80", "0x10", "2026-05-01", '7 1/4" Hazel', "Bob's"])("name: %s", (name) => {
    expect(readWell({ "loco.yaml": LOCO.replace("Hazel", name) }).loco.name).toBe(name);
  });
  test("in quotes", () => {
    expect(readWell({ "loco.yaml": LOCO.replace("Hazel", '"Loco #2: red"') }).loco.name).toBe("Loco #2: red");
  });
  test("a true comment stays one", () => {
    expect(readWell({ "loco.yaml": LOCO.replace("Hazel", "Hazel # of the hill") }).loco.name).toBe("Hazel");
    expect(readWell({ "loco.yaml": LOCO.replace("140 kg", "140 kg #weighed") }).loco.mass_kg).toBe(140);
  });
});

describe("traps are told where they are", () => {
  const trapped = "is read as a comment; put the whole text in quotes, or a blank after the #";
  test.each<[string, string, string]>([
    ["name: Hazel", "name: Loco #2", `1:7: error: name: #2 ${trapped}`],
    ["name: Hazel", "name: #2", `1:1: error: name: #2 ${trapped}`],
    ["name: Hazel", "name:", "1:1: error: name: there is no value; write it like Hazel"],
    ["name: Hazel", "name: null", "1:7: error: name: there is no value; write it like Hazel"],
    [
      "name: Hazel",
      "name: Sunday: all",
      '1:7: error: a colon followed by a blank ends a key; put the value in quotes: name: "Sunday: all"',
    ],
    ["name: Hazel", 'name: "\\e[31m"', "1:7: error: name: the text has characters that cannot be printed"],
    ["name: Hazel", "name: @home", "1:7: error: a value cannot begin with @; put it in quotes"],
    [
      "name: Hazel",
      "name: Hazel\n  of the hill",
      "1:7: error: name: the value runs on into the next line; is that line indented too far?",
    ],
    ["mass:", "  mass:", "3:3: error: this line is indented further than the one it follows"],
    ["mass:", "\tmass:", "3:1: error: a tab stands here; indent with blanks"],
    ["mass: 140 kg", "mass:140 kg", "3:1: error: a blank is wanted after the colon: mass: 140 kg"],
    [
      "mass: 140 kg",
      "mass: 2,5 kg",
      '3:7: error: mass: "2,5 kg" has a comma where a point is wanted: 2.5; write it like 140 kg',
    ],
    ["mass: 140 kg", "mass: .inf", '3:7: error: mass: ".inf" does not begin with a number; write it like 140 kg'],
    ["mass: 140 kg", "mass: 140 kg\nmass: 150 kg", "4:1: error: mass is given twice; the first is in line 3"],
    ["mass: 140 kg", "mass: !!str 140 kg", "3:13: error: mass: tags (words that begin with !) are not read"],
    ["mass: 140 kg", "mass: *heavy", "3:7: error: *heavy repeats something that is not named &heavy above"],
    [
      "mass: 140 kg",
      "mass: [140 kg]",
      "3:7: error: mass: a list stands where one value is wanted; write it like 140 kg",
    ],
    [
      "voltage: 24 V",
      "voltage:24V",
      "5:23: error: motor.nameplate.voltage: a blank is wanted after the colon: voltage: 24V",
    ],
    ["2600 rpm", "2,600 rpm", "5:62: error: motor.nameplate.speed: the comma cuts 2,600 rpm in two; write 2600 rpm"],
    ["driven_axles: 1 }", "driven_axles: 1", "4:9: error: the bracket { is not closed"],
    [
      "[11, 55]",
      "11:55",
      "7:12: error: gears.1.teeth: two whole numbers of teeth are wanted, driving and driven; write it like [12, 36]",
    ],
    [
      "lead-acid",
      "Lead-acid",
      '10:23: error: battery.chemistry: "Lead-acid" is not one of lead-acid, lifepo4; did you mean lead-acid?',
    ],
    [
      "nameplate: {",
      "kind: seires, nameplate: {",
      '5:16: error: motor.kind: "seires" is not one of permanent-magnet, series; did you mean series?',
    ],
  ])("%s -> %s", (was, is, error) => {
    expect(errorsOf(was, is)).toEqual([`loco.yaml:${error}`]);
  });

  test("a # that swallows a bracket", () => {
    expect(
      errorsOf("wheels: { diameter: 165 mm, driven_axles: 1 }", "wheels: { diameter: 165 mm #big, driven_axles: 1 }"),
    ).toEqual([
      "loco.yaml:4:9: error: the bracket { is not closed; the # after it begins a comment, which goes on to the end of the line",
    ]);
  });

  test("unknown keys, with the nearest or the place they belong in", () => {
    const is = "resistence: {}\ndiameter: 3\npassengers: 4\n__proto__: 3\nconstructor: 4\n<<: {a: 1}\n";
    expect(errorsOf("gears:", `${is}gears:`)).toEqual([
      "loco.yaml:6:1: error: resistence is not a key; did you mean resistance?",
      "loco.yaml:7:1: error: diameter is not a key; it belongs in wheels",
      "loco.yaml:8:1: error: passengers is not a key; it belongs in the plan file",
      "loco.yaml:9:1: error: __proto__ is not a key",
      "loco.yaml:10:1: error: constructor is not a key",
      "loco.yaml:11:1: error: merging with << is not read; write the keys out",
    ]);
  });

  test("what a terminal would obey is not repeated to it", () => {
    expect(errorsOf("mass: 140 kg", 'mass: 140 kg\n"\\e[31mx": 1')).toEqual([
      "loco.yaml:4:1: error: \ufffd[31mx is not a key",
    ]);
  });

  test("a list where keys are wanted, and the reverse", () => {
    expect(read({ "plan.yaml": PLAN.replace("cars:\n  -", "cars:\n   ") })).toEqual([
      "plan.yaml:4:5: error: cars: keys stand where a list is wanted; begin each item with a dash",
    ]);
    expect(errorsOf("wheels: {", "wheels:\n  - {")).toEqual([
      "loco.yaml:5:3: error: wheels: a list stands where keys are wanted: diameter, wheelbase, bogie_centres, axles, driven_axles, …",
    ]);
  });

  test.each([
    ["", "the file has no keys in it; rideon new writes one to start from"],
    ["# nothing\n", "the file has no keys in it; rideon new writes one to start from"],
    ["- a\n", "keys with values are wanted here, one a line, such as name: Hazel"],
    ["hello", "keys with values are wanted here, one a line, such as name: Hazel"],
  ])("%j is no file of keys", (text, message) => {
    expect(read({ "loco.yaml": text })).toEqual([`loco.yaml:1:1: error: ${message}`]);
  });

  test("two documents in one file", () => {
    expect(read({ "plan.yaml": `${PLAN}---\n${PLAN}` })).toEqual([
      "plan.yaml:7:1: error: a second document begins here (---); one file holds one",
    ]);
  });
});

test("a block that is repeated by its name is read again", () => {
  const cars = "cars:\n  - &coach { mass: 60 kg, length: 1.8 m }\n  - *coach\n";
  const { plan } = readWell({ "plan.yaml": PLAN.replace(/cars:\n.*\n/, cars) });
  expect(plan.cars).toEqual([
    { mass_kg: 60, length_m: 1.8 },
    { mass_kg: 60, length_m: 1.8 },
  ]);
});
