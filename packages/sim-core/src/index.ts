export * from "./keys.js";
export * from "./parts/files.keys.js";
