import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { readPlan } from "@rideon/sim-cli/read";
import { createPlan } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { folderWith, LOCO, read, readWell } from "../support/folder.js";

const withMotor = (motor: string): string => LOCO.replace(/motor: .*/, `motor: { ${motor} }`);
const CURVE = withMotor("curve: { file: motor.csv, voltage: 24 V }");
const SATURATION = withMotor(
  "kind: series, saturation: { resistance: 0.1 ohm, speed: 1000 rpm, file: magnetisation.csv }",
);
const curveErrors = (text: string) => {
  const found = read({ "loco.yaml": CURVE, "motor.csv": text });
  return Array.isArray(found) ? found : [];
};

describe("tables that the motor names", () => {
  test("a curve, its columns in any order, with comments", () => {
    const text = "# invented\ncurrent_A,torque_Nm,speed_rpm\n9,0.5,2800\n16,1,2700 \n\n29,2,2450\n";
    const { tables } = readWell({ "loco.yaml": CURVE, "motor.csv": text });
    const radps = (rpm: number) => expect.closeTo((rpm * 2 * Math.PI) / 60, 10) as number;
    expect(tables).toEqual({
      curve: [
        [0.5, radps(2800), 9],
        [1, radps(2700), 16],
        [2, radps(2450), 29],
      ],
    });
  });

  test("magnetisation points make a train", () => {
    const files = { "loco.yaml": SATURATION, "magnetisation.csv": "current_A,emf_V\n10,8\n40,16\n" };
    const { plan, loco, track, tables } = readWell(files);
    expect(tables).toEqual({
      saturation: [
        [10, 8],
        [40, 16],
      ],
    });
    const { motor } = createPlan(plan, loco, track, tables).train;
    expect(motor.kind).toBe("series");
    expect(motor.flux_NmpA.at(-1)).toBeCloseTo(16 / ((1000 * 2 * Math.PI) / 60), 12);
  });

  test("no file, no table", () => {
    expect(readWell().tables).toEqual({});
  });

  test("are found from the loco's own folder, which need not be the plan's", () => {
    const folder = folderWith({ "plan.yaml": "loco: sheds/loco.yaml\ntrack: { profile: track.csv }\nspeed: 4 mph\n" });
    mkdirSync(join(folder, "sheds"));
    writeFileSync(join(folder, "sheds", "loco.yaml"), CURVE);
    writeFileSync(join(folder, "sheds", "motor.csv"), "torque_Nm,speed_rpm,current_A\n1,2000,10\n");
    const reading = readPlan(join(folder, "plan.yaml"));
    expect(reading.tables.curve).toHaveLength(1);
    expect(reading.place("loco.motor.curve.1.speed_rpm")).toEqual({
      file: join(folder, "sheds", "motor.csv"),
      line: 2,
    });
    // Of a row that is not there, and of the key, where the key stands.
    expect(reading.place("loco.motor.curve.file")?.file).toMatch(/loco\.yaml$/);
  });

  test("a missing file is told where it is named", () => {
    expect(read({ "loco.yaml": CURVE })).toEqual([
      "loco.yaml:5:25: error: motor.curve.file: motor.csv: there is no such file",
    ]);
  });
});

describe("every problem, with its line and column", () => {
  const HEADER = "torque_Nm,speed_rpm,current_A";
  test.each<[string, string[]]>([
    ["", [`1: error: the file is empty; it begins with the header ${HEADER}`]],
    [`${HEADER}\n`, ["1: error: no row follows the header"]],
    [
      "torque_Nm speed_rpm current_A\n1 2 3\n",
      ["1: error: the columns are not parted; put commas, semicolons or tabs between the cells"],
    ],
    [
      "torque_Nm,sped_rpm,current_A,torque_Nm,\n1,2,3,4,5\n",
      [
        "1: error: column 5 has no name in the header",
        "1: error: columns are missing: speed_rpm; the header is torque_Nm,speed_rpm,current_A",
        "1: error: sped_rpm is not a column; did you mean speed_rpm?",
        "1: error: torque_Nm stands twice in the header",
      ],
    ],
    [
      `${HEADER}\n1,"2,5",3\n1,2 rpm,\n1,2\n1e999,2,3\n`,
      [
        '2: error: speed_rpm: "2,5" has a comma in it; write it with a point, or without',
        '3: error: speed_rpm: "2 rpm" is not a number; the unit stands in the header alone',
        "3: error: current_A: the cell is blank; a number is wanted",
        "4: error: this row has 2 cells under 3 columns; a comma too many or too few?",
        '5: error: torque_Nm: "1e999" is too large a number',
      ],
    ],
    [`${HEADER}\n1,"2,3\n`, ["2: error: the quotation marks of this row do not match"]],
  ])("%j", (text, wanted) => {
    const at = (lines: readonly string[]) => [...lines].sort();
    expect(at(curveErrors(text))).toEqual(at(wanted.map((line) => `motor.csv:${line}`)));
  });
});
