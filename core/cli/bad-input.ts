/** Trouble that the person at the keyboard can put right: one or more clear sentences, shown without a stack; exit code 1. */
export class BadInput extends Error {
  readonly sentences: readonly string[];

  constructor(...sentences: string[]) {
    super(sentences.join("\n"));
    this.sentences = sentences;
  }
}

/** Options that say how a folder is filled, and no folder to fill. */
export const withoutFolder = (options: readonly string[]): BadInput =>
  new BadInput(
    ...options.map((option) => `${option} is for the files that --out writes: name a folder with --out.`),
  );

/** So many faults of a file are told; who puts those right sees the others after. */
const MOST_TOLD = 20;

/** A file that is not as it should be. */
export class BadFile extends BadInput {
  /** What is wrong with it, a sentence each, without its name; of very many the first, and how many more there are. */
  readonly faults: readonly string[];

  constructor(file: string, ...all: string[]) {
    const more = all.length - MOST_TOLD;
    // One more is no shorter to count than to tell.
    const faults =
      more > 1 ? [...all.slice(0, MOST_TOLD), `${more} more faults of this kind or others are in it.`] : all;
    super(...faults.map((fault) => `${file}: ${fault}`));
    this.faults = faults;
  }
}

/** What the system says to a file that it will not read or write, in plain words. */
export function systemReason(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return reasons[code] ?? (code || String(error));
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  ENOTDIR: "a part of its path is a file, not a folder",
  EISDIR: "it is a folder",
  EEXIST: "it exists already",
  EACCES: "you have no permission",
  EPERM: "you have no permission",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "your share of the disk is full",
  ENAMETOOLONG: "the name is too long",
  EMFILE: "too many files are open",
  EBUSY: "another program is using it",
};
