/** A process that saves and autosaves without rest until it is killed; kill-while-saving.ts kills it. */
import { writeSync } from "node:fs";
import { machine } from "../../electron/channels/machine.ts";
import { textOf } from "./numbered-text.ts";

const [home, path] = process.argv.slice(2);
const here = machine(home);
const { handle, name, stamp } = await here.files.read(path);
let seen = stamp;
let version = 0;
for (;;) {
  // Three autosaves to a save, as somebody works on who saves now and then.
  for (let i = 0; i < 3; i++) {
    version++;
    const text = textOf(version);
    const savedAt = new Date().toISOString();
    const id = "11111111-2222-4333-8444-555555555555";
    await here.handlers.putWorking({ id, name, handle, savedAt, text, stamp: seen });
    writeSync(1, `kept ${version}\n`);
  }
  const result = await here.handlers.save({ handle: handle!, text: textOf(version), seen });
  if (result.kind !== "saved") throw new Error(`version ${version}: ${result.kind}`);
  seen = result.stamp;
  writeSync(1, `saved ${version}\n`);
}
