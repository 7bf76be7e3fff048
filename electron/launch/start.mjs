/**
 * `npm start [-- [--browser] [FILE]]`: sets up a fresh clone, builds the app, and opens it: in the desktop window, or
 * in a browser where there can be no window.
 */
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { readArguments } from "./arguments.mjs";
import { buildApp } from "./build.mjs";
import { launch, setUp } from "./setup.mjs";
import { runWindow } from "./window.mjs";

const root = resolve(import.meta.dirname, "../..");

/** Ctrl-C, a closed terminal, or a polite kill. */
function stopped() {
  return new Promise((done) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => done(undefined));
  });
}

await launch(async () => {
  // npm runs this in the project's folder; INIT_CWD is where the person typed it.
  const { browser, file } = readArguments(process.argv.slice(2), process.env.INIT_CWD ?? process.cwd());
  await setUp(root);
  await buildApp(root);
  if (!browser) {
    const window = await runWindow(root, file);
    if ("code" in window) return window.code;
    console.log(
      `The desktop window cannot be opened (${window.why}), so Ribband opens in a browser instead.`,
    );
  }
  const { runInBrowser } = await import(pathToFileURL(join(root, "out/host/loopback.mjs")).href);
  return runInBrowser({
    page: join(root, "out/window"),
    file,
    stopped: stopped(),
    say: console.log,
    report: console.error,
  });
});
