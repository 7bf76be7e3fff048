import { existsSync } from "node:fs";
import { basename } from "node:path";
import { systemReason } from "../../core/cli/bad-input.ts";
import { type desktopChannels, type Handlers, HostError } from "../../renderer/document/host/contract.ts";
import type { Machine } from "../channels/machine.ts";
import { writeAtomically } from "../files/write-atomically.ts";

const ending = ".ribband.json";

/** The system's own dialogs: a path, or undefined when the person dismissed it. */
export interface Dialogs {
  open(): Promise<string | undefined>;
  save(name: string, kind: "project" | "result"): Promise<string | undefined>;
}

/** What the page may do to its window. */
export interface WindowFrame {
  setTitle(title: { readonly name: string | null; readonly changed: boolean }): void;
  answerClose(mayClose: boolean): void;
}

/** @param takeNamed gives the path that was named from outside, once */
export function desktopHandlers(
  machine: Machine,
  dialogs: Dialogs,
  frame: WindowFrame,
  takeNamed: () => string | undefined,
): Handlers<typeof desktopChannels> {
  const { files, known } = machine;
  return {
    ...machine.handlers,
    async named() {
      const path = takeNamed();
      return path === undefined ? null : known.know(path);
    },
    async open() {
      const path = await dialogs.open();
      return path === undefined ? null : files.read(path);
    },
    async openDropped(path) {
      if (!path.toLowerCase().endsWith(ending)) {
        throw new HostError(`${basename(path)} cannot be opened: a project file is called …${ending}.`);
      }
      return files.read(path);
    },
    async saveAs({ name, text }) {
      const path = await dialogs.save(name, "project");
      return path === undefined ? { kind: "dismissed" } : files.saveOver(withEnding(path), text);
    },
    async export({ name, bytes }) {
      const path = await dialogs.save(name, "result");
      if (path === undefined) return false;
      try {
        await writeAtomically(path, bytes);
      } catch (error) {
        throw new HostError(`${basename(path)} cannot be written: ${systemReason(error)}.`);
      }
      return true;
    },
    setTitle: async (title) => frame.setTitle(title),
    answerClose: async (mayClose) => frame.answerClose(mayClose),
  };
}

/** Some systems' dialogs leave a name as it was typed; the file under the full one was not asked about, so it stays. */
function withEnding(path: string): string {
  if (path.toLowerCase().endsWith(".json")) return path;
  const full = path + ending;
  if (existsSync(full)) {
    throw new HostError(`${basename(full)} exists already: choose it in the dialog to write over it.`);
  }
  return full;
}
