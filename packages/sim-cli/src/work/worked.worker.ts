import { workerData } from "node:worker_threads";
import { createSizing, size } from "@rideon/sim-core";
import { lapOf, restOfDay } from "../questions/report/facts.js";
import { placesNamed } from "../questions/report/told.js";
import { climbTold, type Files, planOf } from "./files.js";
import { tellProgress, work } from "./thread.js";
import type { Work, WorkJob, Works } from "./worked.js";

const WORKS: { [W in Work]: (files: Files) => Works[W] } = {
  climb: (files) => climbTold(files, (aboard) => tellProgress({ doing: `trying the load table, ${aboard} aboard` })),
  size({ plan, loco, track }) {
    const sizing = createSizing(plan, loco, track);
    return { answer: size(sizing), notes: sizing.notes };
  },
  page(files) {
    const plan = planOf(files);
    const [place] = placesNamed({ plan });
    return { ...restOfDay(files), ...lapOf(plan, place?.chainage_m ?? 0) };
  },
};

work(() => {
  const job = workerData as WorkJob;
  return WORKS[job.work](job);
});
