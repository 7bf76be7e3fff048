import { systemReason } from "./bad-input.ts";

/** Where a command's words go: results to one side, messages to the other, so that results can be piped on. */
export interface Terminal {
  /** Results: tables or JSON, on stdout. */
  readonly print: (text: string) => void;
  /** Messages: problems, progress, where files went, on stderr. */
  readonly say: (text: string) => void;
  /** Whether somebody watches stderr. */
  readonly watched: boolean;
}

/**
 * The process's own stdout and stderr. A reader that has seen enough (`| head`) is no error: the rest is dropped. A full
 * disk behind stdout is told, and ends in exit code 1.
 */
export function processTerminal(): Terminal {
  const failed = (error: unknown) => {
    if (error instanceof Error && "code" in error && error.code === "EPIPE") return;
    process.stderr.write(`The results could not be printed: ${systemReason(error)}.\n`);
    process.once("exit", () => {
      process.exitCode = 1;
    });
  };
  process.stdout.on("error", failed);
  // With stderr gone there is nobody left to tell.
  process.stderr.on("error", () => {});
  return {
    print: (text) => void process.stdout.write(text),
    say: (text) => void process.stderr.write(text),
    watched: process.stderr.isTTY === true,
  };
}
