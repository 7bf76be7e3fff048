import type { Refusal } from "../../core/shell/shell.ts";

/** A refusal in one sentence: why, and what would be right. */
export const wordsFor = ({ why, wouldWork }: Pick<Refusal, "why" | "wouldWork">): string =>
  `${why}; ${wouldWork} would work.`;
