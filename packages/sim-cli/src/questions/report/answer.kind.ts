/** One of the three answers: how it stands in a word, and in a sentence. The questions are put so that yes is good. */
export interface Answer {
  id: string;
  question: string;
  good: boolean;
  word: string;
  text: string;
  /** Section with its picture. */
  link: string;
}
