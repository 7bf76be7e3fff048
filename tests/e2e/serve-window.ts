import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize, sep } from "node:path";
import { build } from "vite";

const root = new URL("../../", import.meta.url).pathname;
const folder = join(root, "out/window");

const TYPES: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
};

/** The policy that the app is served with everywhere: no script but its own files. */
const POLICY =
  "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; worker-src 'self'; connect-src 'self'";

/** Builds the window and serves it on a free port of this machine, under the policy of the real hosts. */
export async function serveWindow(): Promise<{ readonly address: string; close(): Promise<void> }> {
  await build({ root: join(root, "renderer"), configFile: join(root, "vite.config.ts"), logLevel: "warn" });
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://localhost");
    const file = normalize(join(folder, pathname === "/" ? "index.html" : decodeURIComponent(pathname)));
    if (!file.startsWith(folder + sep) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      "content-type": TYPES[extname(file)] ?? "application/octet-stream",
      "content-security-policy": POLICY,
    });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/`,
    close: () => new Promise((done) => server.close(() => done())),
  };
}
