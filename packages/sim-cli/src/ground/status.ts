/** Exit statuses, as scripts rely on them. */
export const STATUS = {
  /** The question was answered, whatever the answer. */
  answered: 0,
  /** The input cannot be used; also warnings under `--strict`. */
  input: 1,
  /** The command line is wrong. */
  usage: 2,
  /** The run could not be finished: a fault of ours, or the disk's. */
  unfinished: 3,
  interrupted: 130,
} as const;
