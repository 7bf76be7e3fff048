/** Opens the desktop window: finds Electron's binary, fetches it when it is not there yet, and runs it. */
import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

const fetchWithinMs = 600_000;
const heartbeatMs = 5000;
const startsWithinMs = 20_000;

/**
 * Where Electron's binary lies, or undefined when the package has not fetched it yet. The package itself fetches at its
 * first use and throws a stack when it cannot, so it is not asked.
 * @param {string} root the project's folder
 * @param {NodeJS.ProcessEnv} env
 * @returns {string | undefined}
 */
export function electronBinary(root, env) {
  const folder = join(root, "node_modules/electron");
  const note = join(folder, "path.txt");
  if (!existsSync(note)) return undefined;
  const binary = join(
    env.ELECTRON_OVERRIDE_DIST_PATH || join(folder, "dist"),
    readFileSync(note, "utf8").trim(),
  );
  return existsSync(binary) ? binary : undefined;
}

/**
 * Fetches the binary with Electron's own script.
 * @param {string} root
 * @returns {Promise<string | undefined>} why it cannot be had, in words, or undefined when all went well
 */
async function fetchElectron(root) {
  console.log("Fetching Electron, once (about 110 MB).");
  const started = Date.now();
  const script = join(root, "node_modules/electron/install.js");
  const child = spawn(process.execPath, [script], {
    stdio: ["ignore", "ignore", "pipe"],
    timeout: fetchWithinMs,
  });
  const heartbeat = setInterval(() => {
    console.log(`  fetching: ${Math.round((Date.now() - started) / 1000)} s`);
  }, heartbeatMs);
  let said = "";
  child.stderr.setEncoding("utf8").on("data", (/** @type {string} */ text) => {
    said += text;
  });
  try {
    const code = await new Promise((done, fail) => {
      child.once("error", fail);
      child.once("close", done);
    });
    if (code === 0) return undefined;
    const [reason = "it took more than ten minutes"] = said.split("\n").filter((line) => line.trim() !== "");
    // Node's own words for a network that is not there say nothing to a person.
    return reason.replace(/^\w*Error: /, "").replace(/^fetch failed$/, "its server cannot be reached");
  } finally {
    clearInterval(heartbeat);
  }
}

/**
 * Why no window can be opened on this machine, whatever the binary; undefined when nothing stands against it.
 * @param {NodeJS.Platform} platform
 * @param {NodeJS.ProcessEnv} env
 */
export function whyNoWindow(platform, env) {
  if (platform === "linux" && !env.DISPLAY && !env.WAYLAND_DISPLAY) return "there is no display";
  return undefined;
}

/**
 * Runs the desktop window until it is closed.
 * @param {string} root
 * @param {string | null} file absolute path of the project to open
 * @returns {Promise<{ code: number } | { why: string }>} the exit code, or why there is no window
 */
export async function runWindow(root, file) {
  const against = whyNoWindow(process.platform, process.env);
  if (against) return { why: against };
  if (!electronBinary(root, process.env)) {
    const why = await fetchElectron(root);
    if (why) return { why: `Electron cannot be fetched: ${why}` };
  }
  const binary = electronBinary(root, process.env);
  if (!binary) return { why: "Electron was fetched, but its binary is not where it should be" };

  const started = Date.now();
  const child = spawn(binary, file === null ? [root] : [root, file], { stdio: "inherit" });
  // Ctrl-C reaches the window too; it ends by itself, and we end with it.
  const wait = () => {};
  process.on("SIGINT", wait);
  try {
    const code = await new Promise((done, fail) => {
      child.once("error", fail);
      child.once("close", (code, signal) => done(code ?? (signal === "SIGINT" ? 0 : 1)));
    });
    const failedToStart = code !== 0 && Date.now() - started < startsWithinMs;
    return failedToStart ? { why: `Electron ended with code ${code}` } : { code };
  } catch (error) {
    return { why: `Electron cannot be started: ${error instanceof Error ? error.message : error}` };
  } finally {
    process.off("SIGINT", wait);
  }
}
