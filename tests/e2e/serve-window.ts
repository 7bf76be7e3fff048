import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { machine } from "../../electron/channels/machine.ts";
import { buildApp } from "../../electron/launch/build.mjs";
import { serve } from "../../electron/loopback/server.ts";

const root = join(import.meta.dirname, "../..");

export interface Served {
  /** A fresh address of the app; each lets one browser in. `file`: path of a project that it opens. */
  address(file?: string): string;
  close(): Promise<void>;
}

/** Builds the app and serves it as `npm start` does, on a free port and with an app folder of its own. */
export async function serveWindow(): Promise<Served> {
  await buildApp(root);
  const home = mkdtempSync(join(tmpdir(), "ribband-app-"));
  const server = await serve({
    page: join(root, "out/window"),
    machine: machine(home),
    port: 0,
    report(error) {
      throw error;
    },
  });
  return {
    address: (file) => server.address(file ?? null),
    async close() {
      await server.close();
      rmSync(home, { recursive: true, force: true });
    },
  };
}
