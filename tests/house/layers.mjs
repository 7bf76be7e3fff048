/**
 * The layer check: does every import in core run the right way?
 * `npm run layers` runs it; layers.test.ts plants bad imports and sees them caught. Rules: .dependency-cruiser.mjs.
 */
import { readdirSync, realpathSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { cruise } from "dependency-cruiser";
import config, { layers } from "../../.dependency-cruiser.mjs";

/**
 * @typedef {object} LayerReport
 * @property {number} read how many .ts files of core the cruiser really read
 * @property {readonly string[]} faults one sentence for each thing that is wrong; empty when all is well
 */

/**
 * Every .ts file below a folder, as paths from `root` with forward slashes.
 * @param {string} root
 * @param {string} folder
 */
export function typescriptFiles(root, folder) {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
}

/**
 * Checks the imports of `core` under `root`. A file that the cruiser did not read, or that lies in a folder that no
 * layer names, is a fault too: a check that looked at nothing must not pass.
 * @param {string} root the folder that holds `core`
 * @returns {Promise<LayerReport>}
 */
export async function checkLayers(root) {
  const files = typescriptFiles(root, "core");
  const { forbidden, options } = config;
  const { output } = await cruise(["core"], {
    ...options,
    baseDir: resolve(root),
    validate: true,
    ruleSet: { forbidden },
  });
  if (typeof output === "string") throw new Error(`The cruiser answered with text: ${output.slice(0, 200)}`);

  const modules = output.modules.map((module) => module.source);
  const read = new Set(modules.filter((path) => /^core\/.*\.ts$/.test(path)));
  const inLayer = new RegExp(`^core/(${layers.join("|")})/`);
  return {
    read: read.size,
    faults: [
      ...(files.length === 0 ? ["core holds no .ts file: there is nothing to check"] : []),
      ...files.filter((path) => !read.has(path)).map((path) => `${path}: was not read`),
      ...files.filter((path) => !inLayer.test(path)).map((path) => `${path}: is in no layer`),
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
  console.log(`${read} files of core read, ${faults.length} faults`);
  process.exitCode = faults.length === 0 ? 0 : 1;
}
