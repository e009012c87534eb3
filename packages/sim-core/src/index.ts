export * from "./keys.js";
export * from "./parts/files.keys.js";
export { quantity, readQuantity, readShare, share, type Typed, UnitError } from "./units.js";
export { figures, format, formatBoth, formatGradient, formatPercent, type UnitStyle } from "./units.format.js";
