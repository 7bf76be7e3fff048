/**
 * The layer check: does every import in core, renderer and electron run the right way?
 * `npm run layers` runs it; layers.test.ts plants bad imports and sees them caught. Rules: .dependency-cruiser.mjs.
 */
import { existsSync, readdirSync, realpathSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { cruise } from "dependency-cruiser";
import config, { layers } from "../../.dependency-cruiser.mjs";
import { inMirror } from "./import-mirror.mjs";

const folders = ["core", "renderer", "electron"];

/**
 * @typedef {object} LayerReport
 * @property {number} read how many files the cruiser really read
 * @property {readonly string[]} faults one sentence for each thing that is wrong; empty when all is well
 */

/**
 * Every TypeScript file and launcher below a folder, as paths from `root` with forward slashes; none when it is not there.
 * @param {string} root
 * @param {string} folder
 */
export function sourceFiles(root, folder) {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|tsx|mjs)$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
}

/**
 * Checks the imports of the sources under `root`. A file that the cruiser did not read, or one of core that lies in a
 * folder that no layer names, is a fault too: a check that looked at nothing must not pass.
 * @param {string} root the folder that holds `core`
 * @returns {Promise<LayerReport>}
 */
export async function checkLayers(root) {
  const files = folders.flatMap((folder) => sourceFiles(root, folder));
  const { forbidden, options } = config;
  const { output } = await inMirror(resolve(root), folders, (mirror) =>
    cruise(
      folders.filter((folder) => existsSync(join(mirror, folder))),
      { ...options, baseDir: mirror, validate: true, ruleSet: { forbidden } },
    ),
  );
  if (typeof output === "string") throw new Error(`The cruiser answered with text: ${output.slice(0, 200)}`);

  const read = new Set(output.modules.map((module) => module.source));
  const core = files.filter((path) => path.startsWith("core/"));
  const inLayer = new RegExp(`^core/(${layers.join("|")})/`);
  return {
    read: files.filter((path) => read.has(path)).length,
    faults: [
      ...(core.length === 0 ? ["core holds no .ts file: there is nothing to check"] : []),
      ...files.filter((path) => !read.has(path)).map((path) => `${path}: was not read`),
      ...core.filter((path) => !inLayer.test(path)).map((path) => `${path}: is in no layer`),
      ...output.summary.violations.map(({ rule, from, to, cycle }) =>
        cycle
          ? `${from}: ${rule.name} (${cycle.map((step) => step.name).join(" → ")})`
          : `${from} → ${to}: ${rule.name}`,
      ),
    ],
  };
}

if (process.argv[1] && realpathSync(process.argv[1]) === import.meta.filename) {
  const { read, faults } = await checkLayers(process.cwd());
  for (const fault of faults) console.error(fault);
  console.log(`${read} files read, ${faults.length} faults`);
  process.exitCode = faults.length === 0 ? 0 : 1;
}
