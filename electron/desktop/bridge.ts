import type { Bridge } from "../../renderer/document/host/contract.ts";
import { wirePrefix } from "./ipc.ts";

/** What is used of Electron's ipcRenderer; the page never sees it, nor an event of it. */
interface Wire {
  invoke(channel: string, ...args: unknown[]): Promise<unknown>;
  on(channel: string, listener: (event: unknown, value: unknown) => void): unknown;
  off(channel: string, listener: (event: unknown, value: unknown) => void): unknown;
}

/** No other event reaches the page, whatever it asks for. */
const events: readonly string[] = ["command", "named", "closeAsked"];

/**
 * What the preload script lends the page: a method a channel by name, and three events.
 * @param pathOf the path of a file that the person dropped; "" for one that the page made up
 */
export function bridge(wire: Wire, pathOf: (file: unknown) => string): Bridge {
  const ask = (channel: keyof Bridge) => (question?: unknown) => wire.invoke(wirePrefix + channel, question);
  return {
    recent: ask("recent"),
    read: ask("read"),
    save: ask("save"),
    putWorking: ask("putWorking"),
    listWorking: ask("listWorking"),
    dropWorking: ask("dropWorking"),
    getSettings: ask("getSettings"),
    setSettings: ask("setSettings"),
    named: ask("named"),
    open: ask("open"),
    saveAs: ask("saveAs"),
    export: ask("export"),
    setTitle: ask("setTitle"),
    answerClose: ask("answerClose"),
    openDropped: (file) => ask("openDropped")(pathOf(file)),
    on(event, listener) {
      if (!events.includes(event)) throw new RangeError(`There is no event "${event}"`);
      const heard = (_event: unknown, value: unknown) => listener(value);
      wire.on(wirePrefix + event, heard);
      return () => {
        wire.off(wirePrefix + event, heard);
      };
    },
  };
}
