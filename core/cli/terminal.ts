/** Where a command's words go: results to one side, messages to the other, so that results can be piped on. */
export interface Terminal {
  /** Results: tables or JSON, on stdout. */
  readonly print: (text: string) => void;
  /** Messages: problems, progress, where files went, on stderr. */
  readonly say: (text: string) => void;
  /** Whether somebody watches stderr. */
  readonly watched: boolean;
}

/** The process's own stdout and stderr. A reader that has seen enough (`| head`) is no error: the rest is dropped. */
export function processTerminal(): Terminal {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code !== "EPIPE") throw error;
    });
  }
  return {
    print: (text) => void process.stdout.write(text),
    say: (text) => void process.stderr.write(text),
    watched: process.stderr.isTTY === true,
  };
}
