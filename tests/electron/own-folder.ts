import { mkdtempSync, realpathSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach } from "vitest";

const folders: string[] = [];

/** A new folder of the test's own, gone when the test is over. */
export function ownFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "ribband-host-")));
  folders.push(folder);
  return folder;
}

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});
