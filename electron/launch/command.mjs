/**
 * `npm run ribband`: the command line, straight from the sources. They are bundled into one file in node_modules/.cache
 * and again whenever one of them has changed, since reading them one by one takes longer than most of the work.
 */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const root = resolve(import.meta.dirname, "../..");
const cache = join(root, "node_modules/.cache/ribband");
const latest = join(cache, "latest.json");

/** What the last bundle was made of: its file, and the state of each of its sources by path from `root`. */
/** @typedef {{ bundle: string, sources: Record<string, string> }} Latest */

/** @param {string} path from `root` */
function stateOf(path) {
  const found = statSync(join(root, path), { throwIfNoEntry: false });
  return found ? `${found.size} ${found.mtimeMs}` : "gone";
}

/** The last bundle, if everything that it came from is as it was. */
function fresh() {
  try {
    /** @type {Latest} */
    const { bundle, sources } = JSON.parse(readFileSync(latest, "utf8"));
    const file = join(cache, bundle);
    const same = Object.entries(sources).every(([path, state]) => stateOf(path) === state);
    return same && statSync(file).isFile() ? pathToFileURL(file).href : undefined;
  } catch {
    // None yet, or one that somebody tampered with: it is made anew.
    return undefined;
  }
}

/** Bundles the sources; gives the address of the bundle, and keeps it for the next time where that can be written. */
async function bundled() {
  const { build } = await import("esbuild");
  const result = await build({
    absWorkingDir: root,
    entryPoints: ["core/cli/main.ts"],
    outfile: join(cache, "main.mjs"),
    bundle: true,
    write: false,
    metafile: true,
    platform: "node",
    format: "esm",
    target: "node20",
    minifyWhitespace: true,
    sourcemap: "linked",
    sourcesContent: false,
    logLevel: "error",
    // For packages that are CommonJS and ask for Node's own modules.
    banner: {
      js: 'import { createRequire as requireFrom } from "node:module"; const require = requireFrom(process.execPath);',
    },
  });
  const [map, code] = result.outputFiles.map(({ text }) => text);
  const name = `main-${createHash("sha256").update(code).digest("hex").slice(0, 16)}.mjs`;
  const sources = Object.fromEntries(
    Object.keys(result.metafile.inputs).map((path) => [path, stateOf(path)]),
  );
  try {
    mkdirSync(cache, { recursive: true });
    put(`${name}.map`, map);
    put(name, code.replace("sourceMappingURL=main.mjs.map", `sourceMappingURL=${name}.map`));
    put("latest.json", JSON.stringify({ bundle: name, sources }));
    // One that still runs may yet start threads from its bundle: what was written within the hour stays.
    for (const old of readdirSync(cache))
      if (
        old.startsWith("main-") &&
        !old.startsWith(name) &&
        Date.now() - statSync(join(cache, old)).mtimeMs > 3.6e6
      )
        rmSync(join(cache, old), { force: true });
    return pathToFileURL(join(cache, name)).href;
  } catch {
    // A disk that cannot be written costs the time of a bundle at every start, and stacks the names of the sources.
    const bare = code.replace("//# sourceMappingURL=main.mjs.map", "");
    return `data:text/javascript;base64,${Buffer.from(bare).toString("base64")}`;
  }
}

/**
 * Puts a file in the cache whole or not at all: two commands may start at once.
 * @param {string} name
 * @param {string} text
 */
function put(name, text) {
  const half = join(cache, `half-${process.pid}-${name}`);
  writeFileSync(half, text);
  renameSync(half, join(cache, name));
}

const address = fresh() ?? (await bundled().catch(explain));
if (address) {
  process.setSourceMapsEnabled(true);
  await import(address);
}

/**
 * What stands in the way of a bundle, in words; esbuild has told its own faults already.
 * @param {unknown} error
 */
function explain(error) {
  process.exitCode = 1;
  if (error instanceof Error && "errors" in error) return;
  if (!(error instanceof Error && "code" in error && error.code === "ERR_MODULE_NOT_FOUND")) throw error;
  console.error("The packages are not installed: run `npm ci` first.");
}
