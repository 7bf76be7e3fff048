import { join } from "node:path";
import { type Handlers, type machineChannels, settings } from "../../renderer/document/host/contract.ts";
import { jsonFile } from "../files/json-file.ts";
import { type KnownFiles, knownFiles } from "../files/known-files.ts";
import { type ProjectFiles, projectFiles } from "../files/project-files.ts";
import { workingStates } from "../files/working-states.ts";

/** What the desktop window and the loopback server do alike, and the files that they do it with. */
export interface Machine {
  readonly known: KnownFiles;
  readonly files: ProjectFiles;
  readonly handlers: Handlers<typeof machineChannels>;
}

/**
 * @param folder the app's own folder
 * @param report hears of what failed beside the work itself, and holds nothing up; without it such a failure is one
 */
export function machine(folder: string, report: (error: unknown) => void = rethrow): Machine {
  const known = knownFiles(folder);
  const files = projectFiles(known, report);
  const states = workingStates(folder, known);
  const set = jsonFile(join(folder, "settings.json"), settings, settings.parse({}));
  return {
    known,
    files,
    handlers: {
      recent: () => known.recent(),
      read: async (handle) => files.read(await known.pathOf(handle)),
      save: async ({ handle, text, seen }) => files.save(await known.pathOf(handle), text, seen),
      putWorking: states.put,
      listWorking: states.list,
      dropWorking: states.drop,
      getSettings: set.read,
      setSettings: set.write,
    },
  };
}

function rethrow(error: unknown): never {
  throw error;
}
