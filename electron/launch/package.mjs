/** `npm run package [-- --linux|--mac|--win …]`: builds the app and packs it with electron-builder into out/packages. */
import { spawn } from "node:child_process";
import { join, resolve } from "node:path";
import { buildApp } from "./build.mjs";
import { LaunchError, launch, setUp } from "./setup.mjs";

const root = resolve(import.meta.dirname, "../..");

await launch(async () => {
  await setUp(root);
  await buildApp(root);
  const child = spawn(
    process.execPath,
    [join(root, "node_modules/electron-builder/cli.js"), "--publish", "never", ...process.argv.slice(2)],
    { cwd: root, stdio: ["ignore", "inherit", "inherit"] },
  );
  const code = await new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", done);
  });
  if (code !== 0)
    throw new LaunchError(`electron-builder ended with code ${code}; its own words stand above.`);
  return 0;
});
