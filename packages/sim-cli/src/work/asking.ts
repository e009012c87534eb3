import type { Figure } from "../svg/draw.js";
import type { Opened, Ready, Told } from "../words/ready.js";
import type { AskedFlags } from "./flags.js";
import type { Job } from "./job.js";
import type { Outputs } from "./outputs.js";
import type { OnProgress, Question } from "./question.js";
import type { Doubt } from "./sureness.js";

/** What the work of a question comes to: the answer, and what else its telling needs. */
export interface Worked {
  answer: object;
}

/** How an answer is told. */
export interface Telling<W extends Worked, R extends Ready = Opened> {
  inWords(told: W & Told<W["answer"], R>): readonly string[];
  /** Its pictures, for `--svg`. */
  draw?(told: W & Told<W["answer"], R>): readonly Figure[];
  /** Files of its own for `--out`. */
  write?(told: W & Told<W["answer"], R>, outputs: Outputs): void;
}

/** A question about a plan that is asked, told, drawn and written in the usual way. */
export interface Asked<F extends AskedFlags, W extends Worked, R extends Ready = Opened>
  extends Pick<Question, "name" | "about" | "inFull" | "example" | "options"> {
  /** Names of what it writes under `--out`, those first that are begun before anything runs. */
  files: readonly string[];
  /** Shown while it works, where no laps are seen going by. */
  doing?: string;
  /** What is opened for it: a plan, unless told. */
  open?(path: string, flags: F): Promise<R>;
  /** What its work is told besides the files. */
  own?(flags: F, ready: R): object;
  /** Step it takes unless told; absent where nothing is simulated. */
  step_s?(ready: R): number;
  /** Interval of its trace, s; absent where it has none. */
  every_s?(flags: F): number;
  /** How sure it is: of which question's draws, and what the answer found that they are asked with. */
  doubt?(worked: W, flags: F): Doubt;
  /** Is how sure it is told within the answer, and not after it? */
  doubtLeads?: true;
  /** Its part on a thread; none of what is answered at once, from what was opened. */
  work?(): Promise<{ work(job: Job<never>, onProgress: OnProgress): W }>;
  atOnce?(ready: R): W;
  tell(): Promise<{ telling: Telling<W, R> }>;
}
