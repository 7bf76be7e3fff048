import { homedir } from "node:os";
import { machine } from "../channels/machine.ts";
import { appFolder } from "../files/app-folder.ts";
import { openAddress } from "./open-address.ts";
import { servingNote } from "./running.ts";
import { type Loopback, serve } from "./server.ts";

/** The same port every time while it is free: a browser keeps what it remembers of a page by the page's address. */
const usualPort = 47310;
const neighbours = 10;

/**
 * Serves the app to a browser until it is told to stop. When it is served already, that server gets a new page instead.
 * @param page the folder of the built page
 * @param file absolute path of a project to open, or null
 * @param stopped resolves when it is time to end (Ctrl-C)
 * @returns the exit code
 */
export async function runInBrowser(options: {
  page: string;
  file: string | null;
  stopped: Promise<void>;
  say: (line: string) => void;
  /** is told of faults in our own code */
  report: (error: unknown) => void;
}): Promise<number> {
  const { page, file, stopped, say, report } = options;
  const folder = appFolder(process.platform, homedir(), process.env);
  const note = servingNote(folder);

  const show = async (address: () => string | Promise<string>) => {
    const opened = await openAddress(await address());
    say(
      opened ? `Ribband is open in your browser; if not, open ${await address()}` : `Open ${await address()}`,
    );
  };
  const running = await note.addressAtRunning(file);
  if (running !== undefined) {
    say("Ribband is running already; this is another page of it.");
    await show(async () => (await note.addressAtRunning(file)) ?? running);
    return 0;
  }

  const server = await serveOnFreePort((port) =>
    serve({ page, machine: machine(folder, report), port, report }),
  );
  try {
    await note.write(server);
    await show(() => server.address(file));
    say("Ctrl-C ends it. What is not saved is kept and offered at the next start.");
    await stopped;
    return 0;
  } finally {
    await server.close();
    await note.remove();
  }
}

/** Two starts at once both try the usual port; the one that comes second takes the next. */
async function serveOnFreePort(serveOn: (port: number) => Promise<Loopback>): Promise<Loopback> {
  for (let port = usualPort; port < usualPort + neighbours; port++) {
    try {
      return await serveOn(port);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // EACCES: a range that Windows keeps to itself.
      if (code !== "EADDRINUSE" && code !== "EACCES") throw error;
    }
  }
  return serveOn(0);
}
