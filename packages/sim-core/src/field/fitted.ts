/** A figure as measurements have it, under the key that would hold it. */
export interface Fitted {
  path: string;
  value: number;
  /** "" for a pure number. */
  unit: string;
  /** Nineteen in twenty lie between. */
  low: number;
  high: number;
}
