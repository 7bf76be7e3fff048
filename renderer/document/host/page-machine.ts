import { type Handlers, HostError, type machineChannels, settings, workingState } from "./contract.ts";
import type { Database } from "./database.ts";

/** The machine's channels for a page that has no machine behind it: autosave and settings stay in the browser. */
export function pageMachine(database: Database): Handlers<typeof machineChannels> {
  const unknown = async (): Promise<never> => {
    throw new HostError("This page has no way to that file: open it again.");
  };
  return {
    recent: async () => [],
    read: unknown,
    save: unknown,
    putWorking: (working) => database.put("working", working.id, working),
    async listWorking() {
      const states = (await database.all("working")).map((value) => workingState.parse(value));
      return states.sort((a, b) => b.savedAt.localeCompare(a.savedAt));
    },
    dropWorking: (id) => database.remove("working", id),
    getSettings: async () => settings.parse((await database.get("settings", "all")) ?? {}),
    setSettings: (value) => database.put("settings", "all", value),
  };
}
