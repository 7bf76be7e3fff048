import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

const lookAgainMs = 200;

/**
 * Runs a work while nobody else on this machine runs one under the same lock file; waits its turn. A lock whose process is
 * gone, killed before it could take it away, holds nobody up.
 * @template T
 * @param {string} lock path of the lock file
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function oneBuild(lock, work) {
  mkdirSync(dirname(lock), { recursive: true });
  while (!take(lock)) {
    if (!isHeld(lock)) rmSync(lock, { force: true });
    else await new Promise((done) => setTimeout(done, lookAgainMs));
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

/** @param {string} lock */
function take(lock) {
  try {
    writeFileSync(lock, String(process.pid), { flag: "wx" });
    return true;
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code === "EEXIST") return false;
    throw error;
  }
}

/** @param {string} lock */
function isHeld(lock) {
  let text;
  try {
    text = readFileSync(lock, "utf8");
  } catch {
    return false;
  }
  // Taken this very moment, its number not written yet.
  if (text === "") return true;
  try {
    process.kill(Number(text), 0);
    return true;
  } catch (error) {
    // EPERM: it lives, and belongs to somebody else.
    return /** @type {NodeJS.ErrnoException} */ (error).code === "EPERM";
  }
}
