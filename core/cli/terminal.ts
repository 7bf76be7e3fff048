import { harmless } from "../sheets/harmless.ts";
import { systemReason } from "./bad-input.ts";

/**
 * Where a command's words go: results to one side, messages to the other, so that results can be piped on. What would
 * command a screen, in the name of a file or a project, is written out; in JSON that is the same text.
 */
export interface Terminal {
  /** Results: tables or JSON, on stdout. */
  readonly print: (text: string) => void;
  /** Messages: problems, progress, where files went, on stderr. */
  readonly say: (text: string) => void;
  /** Puts a line on stderr in place of the last one that was put there so; an empty one takes it away. */
  readonly flash: (line: string) => void;
  /** Whether somebody watches stderr. */
  readonly watched: boolean;
}

const CLEAR_LINE = "\r\u001b[K";
const plain = (text: string) => text.split("\n").map(harmless).join("\n");

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
    print: (text) => void process.stdout.write(plain(text)),
    say: (text) => void process.stderr.write(plain(text)),
    flash: (line) => void process.stderr.write(CLEAR_LINE + plain(line)),
    watched: process.stderr.isTTY === true,
  };
}
