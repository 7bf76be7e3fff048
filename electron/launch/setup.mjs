/**
 * Set-up for a fresh clone, on Node's own modules only: nothing else is installed yet.
 * `npm start` and `npm test` call `setUp` first; it does nothing when the installed packages match the lock file.
 */
import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Trouble that a person can act on: one sentence, shown without a stack. */
export class LaunchError extends Error {}

const leastNode = 20;
const heartbeatMs = 5000;

/**
 * @typedef {{ version?: string, integrity?: string, optional?: boolean, devOptional?: boolean, os?: string[], cpu?: string[], libc?: string[] }} LockEntry
 * @typedef {Record<string, LockEntry>} LockEntries by place, such as `node_modules/zod`
 */

/**
 * @param {string} file a lock file
 * @returns {LockEntries}
 */
function readLock(file) {
  return JSON.parse(readFileSync(file, "utf8")).packages;
}

/**
 * Why the packages must be installed, in words, or undefined when they match the lock file.
 * npm leaves a list of what it installed in node_modules/.package-lock.json, and writes it last; so a missing or
 * different list tells of an absent, broken-off or outdated installation, whoever did it.
 * @param {string} root the project's folder
 */
export function whyInstall(root) {
  const installedList = join(root, "node_modules/.package-lock.json");
  if (!existsSync(join(root, "node_modules"))) return "the packages are not installed yet";
  if (!existsSync(installedList)) return "the last installation did not finish";
  const wanted = readLock(join(root, "package-lock.json"));
  const installed = readLock(installedList);
  for (const [place, entry] of Object.entries(wanted)) {
    if (place === "") continue;
    const found = installed[place];
    // An optional package made for another kind of machine is rightly absent.
    if (!found && (entry.optional || entry.devOptional)) continue;
    if (found?.version !== entry.version || found?.integrity !== entry.integrity) {
      return `the lock file changed (${place.replace(/^.*node_modules\//, "")})`;
    }
  }
  const extra = Object.keys(installed).find((place) => !(place in wanted));
  return extra ? `the lock file changed (${extra.replace(/^.*node_modules\//, "")})` : undefined;
}

/** How to start npm: through the npm that started us, if one did; by name otherwise. */
function npmCommand() {
  const script = process.env.npm_execpath;
  return script?.endsWith("js")
    ? { file: process.execPath, first: [script], shell: false }
    : { file: "npm", first: [], shell: process.platform === "win32" };
}

/**
 * How many packages of the lock file are for this machine and have a folder of their own in node_modules, as `countPackages` counts them.
 * @param {LockEntries} lock
 * @param {{ platform: string, arch: string }} machine
 */
export function packagesFor(lock, { platform, arch } = process) {
  /** @param {readonly string[] | undefined} list @param {string} own */
  const takes = (list, own) =>
    !list || list.includes(own) || (list.every((name) => name.startsWith("!")) && !list.includes(`!${own}`));
  return Object.entries(lock).filter(
    ([place, { os, cpu, libc }]) =>
      /^node_modules\/(@[^/]+\/)?[^/]+$/.test(place) &&
      takes(os, platform) &&
      takes(cpu, arch) &&
      takes(libc, "glibc"),
  ).length;
}

/**
 * How many packages are unpacked by now; npm makes all folders at once and fills them one by one.
 * @param {string} folder node_modules
 */
function countPackages(folder) {
  if (!existsSync(folder)) return 0;
  const places = readdirSync(folder).flatMap((name) =>
    name.startsWith("@") ? readdirSync(join(folder, name)).map((inner) => join(name, inner)) : [name],
  );
  return places.filter((place) => existsSync(join(folder, place, "package.json"))).length;
}

/**
 * Runs `npm ci` with a line of progress every few seconds.
 * @param {string} root
 */
async function install(root) {
  const { file, first, shell } = npmCommand();
  // Warnings are left out: several packages ask for a newer Node than they need, and nobody here can act on that.
  const args = [...first, "ci", "--loglevel=error", "--no-fund", "--no-audit"];
  const started = Date.now();
  const seconds = () => Math.round((Date.now() - started) / 1000);
  const child = spawn(file, args, { cwd: root, stdio: ["ignore", "inherit", "inherit"], shell });
  const all = packagesFor(readLock(join(root, "package-lock.json")));
  const heartbeat = setInterval(() => {
    const number = countPackages(join(root, "node_modules"));
    const done =
      number > 0 ? `${number} of about ${all} packages unpacked` : "the packages are being fetched";
    console.log(`  npm ci: ${seconds()} s, ${done}`);
  }, heartbeatMs);
  try {
    const code = await new Promise((resolve, reject) => {
      child.once("error", reject);
      child.once("close", resolve);
    });
    if (code === 0) return;
    throw new LaunchError(
      `Set-up failed: \`npm ci\` ended with code ${code}; its own words stand above. ` +
        "Check the network connection and the free disk space, then run the same command again.",
    );
  } catch (error) {
    if (error instanceof LaunchError) throw error;
    throw new LaunchError(
      `Set-up failed: npm could not be started (${error instanceof Error ? error.message : error}). ` +
        "Install Node.js 20 or newer together with npm, then run the same command again.",
    );
  } finally {
    clearInterval(heartbeat);
  }
}

/**
 * Makes sure that the packages of the lock file are installed.
 * @param {string} root the project's folder
 * @throws {LaunchError} when Node is too old or the installation fails
 */
export async function setUp(root) {
  const major = Number(process.versions.node.split(".")[0]);
  if (major < leastNode) {
    throw new LaunchError(`Ribband needs Node.js ${leastNode} or newer; this is ${process.versions.node}.`);
  }
  const reason = whyInstall(root);
  if (!reason) return;
  console.log(`Setting up: ${reason}. This takes about a minute.`);
  await install(root);
  console.log("Set-up done.\n");
}

/**
 * Runs a launcher's work and turns trouble into one sentence and exit code 1.
 * @param {() => Promise<number>} work gives the exit code
 */
export async function launch(work) {
  try {
    process.exitCode = await work();
  } catch (error) {
    if (!(error instanceof LaunchError)) throw error;
    console.error(error.message);
    process.exitCode = 1;
  }
}
