/** Reading a plan, its loco and its profile; the tables of keys as a JSON Schema, a list and files to start from. */
export { type BatterySheet, readBattery } from "./battery/readings.js";
export { type Book, readBook } from "./book/book.js";
export { type Coasting, readCoasting } from "./coast/coast.js";
export { type Diagnostic, diagnosticLine, type Place, ReadError, UsageError } from "./diagnostics.js";
export type { Track } from "./gpx/gpx.js";
export { keyList } from "./keys/keylist.js";
export { type Schema, schemaOf } from "./keys/schema.js";
export { filesToStartFrom, SCHEMA_FOLDER } from "./keys/template.js";
export { type Mapped, mappedIn } from "./log/headings.js";
export { type Log, readLog } from "./log/log.js";
export { type Reading, type ReadOptions, readPlan } from "./plan.js";
export { type Pulls, readPulls } from "./pull/pulls.js";
export { readReadings } from "./readings/readings.js";
export type { Known, ReadSheet } from "./readings/rows.js";
export { saidReadings } from "./readings/said.js";
export type { ShortSet } from "./set.js";
export { readSurvey, SURVEY_LIMIT_bytes } from "./survey.js";
export { type Changed, IntoError, type Put, putInto } from "./yaml/into.js";
