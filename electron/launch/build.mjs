/** Builds the app: the window by vite into out/window, what stands behind it by esbuild into out/host. */
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { oneBuild } from "./one-build.mjs";
import { LaunchError } from "./setup.mjs";

/** Whatever the built app comes from. */
const sources = ["core", "renderer", "electron", "assets", "vite.config.ts", "package-lock.json"];

/** Without one of these the app does not run, whatever the note says. */
const built = ["out/window/index.html", "out/host/main.cjs", "out/host/preload.cjs", "out/host/loopback.mjs"];

/**
 * Builds the app if its sources changed since the last time; says so, since it takes some seconds.
 * @param {string} root the project's folder
 * @throws {LaunchError} when the sources do not build
 */
export async function buildApp(root) {
  await oneBuild(join(root, "out/building.lock"), async () => {
    const note = join(root, "out/built.txt");
    const now = stateOf(root);
    const whole = built.every((path) => existsSync(join(root, path)));
    if (whole && existsSync(note) && readFileSync(note, "utf8") === now) return;
    console.log("Building the app.");
    try {
      await Promise.all([buildWindow(root), buildHost(root, join(root, "out/host"))]);
    } catch (error) {
      throw new LaunchError(`The app does not build: ${error instanceof Error ? error.message : error}`);
    }
    writeFileSync(note, now);
  });
}

/**
 * Changes with every file that is added, changed or taken away.
 * @param {string} root
 */
function stateOf(root) {
  const hash = createHash("sha256");
  for (const source of sources) {
    const place = join(root, source);
    const files = statSync(place, { throwIfNoEntry: false })?.isDirectory()
      ? readdirSync(place, { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile())
          .map((entry) => join(entry.parentPath, entry.name))
          .sort()
      : [place];
    for (const file of files) {
      const found = statSync(file, { throwIfNoEntry: false });
      hash.update(`${file}\n${found?.size} ${found?.mtimeMs}\n`);
    }
  }
  return hash.digest("hex");
}

/**
 * The window is always the one that is shipped: vite would make another of it, with React's checks and without what lists leave
 * out of sight, where a test runner has set NODE_ENV.
 * @param {string} root
 */
async function buildWindow(root) {
  const { build } = await import("vite");
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = "production";
  try {
    await build({ configFile: join(root, "vite.config.ts"), logLevel: "warn" });
  } finally {
    if (NODE_ENV === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = NODE_ENV;
  }
}

/**
 * Electron's main and preload scripts are CommonJS: a sandboxed preload script can be nothing else.
 * @param {string} root
 * @param {string} folder where the scripts go
 */
export async function buildHost(root, folder) {
  const { build } = await import("esbuild");
  const common = /** @type {const} */ ({
    bundle: true,
    absWorkingDir: root,
    platform: "node",
    target: "node20",
    outdir: folder,
    logLevel: "warning",
    legalComments: "linked",
  });
  await Promise.all([
    build({
      ...common,
      entryPoints: ["electron/desktop/main.ts", "electron/desktop/preload.ts"],
      format: "cjs",
      external: ["electron"],
      define: { "import.meta.dirname": "__dirname" },
      outExtension: { ".js": ".cjs" },
    }),
    build({
      ...common,
      entryPoints: { loopback: "electron/loopback/run.ts" },
      format: "esm",
      outExtension: { ".js": ".mjs" },
    }),
  ]);
}
