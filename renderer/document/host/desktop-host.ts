import { answerOf, asking } from "./ask.ts";
import { closeListeners } from "./close-listeners.ts";
import { type Bridge, desktopChannels, desktopEvents, type SaveResult } from "./contract.ts";
import { onFileDropped } from "./dropped.ts";
import type { Host } from "./host.ts";
import { withoutLive } from "./live-states.ts";
import { forgetOpen, rememberedOpen, rememberOpen } from "./open-place.ts";

/** The host in the desktop window, over what the preload script lends. */
export function desktopHost(bridge: Bridge): Host {
  const ask = asking(desktopChannels, (channel, question) =>
    bridge[channel as keyof typeof desktopChannels](question),
  );
  const remember = (result: SaveResult) => {
    if (result.kind === "saved") rememberOpen(result);
    return result;
  };
  const onClose = closeListeners();
  bridge.on("closeAsked", async () => {
    await ask("answerClose", await onClose.mayClose());
  });
  const read = async (handle: string) => rememberOpen(await ask("read", handle));
  const openDropped = async (file: File) =>
    rememberOpen(answerOf(desktopChannels.openDropped, await bridge.openDropped(file)));
  const saveAs: Host["saveAs"] = async (file) => remember(await ask("saveAs", file));

  return {
    kind: "desktop",
    async opening() {
      const handle = rememberedOpen() ?? (await ask("named"));
      return handle === null ? null : read(handle);
    },
    forgetOpen,
    async open() {
      const opened = await ask("open");
      return opened && rememberOpen(opened);
    },
    recent: () => ask("recent"),
    openRecent: read,
    async save({ handle, name, text, seen }) {
      return handle === null ? saveAs({ name, text }) : remember(await ask("save", { handle, text, seen }));
    },
    saveAs,
    autosave: withoutLive({
      put: (working) => ask("putWorking", working),
      list: () => ask("listWorking"),
      drop: (id) => ask("dropWorking", id),
    }),
    export: (file) => ask("export", file),
    settings: { get: () => ask("getSettings"), set: (settings) => ask("setSettings", settings) },
    onCommand: (listener) => bridge.on("command", (value) => listener(desktopEvents.command.parse(value))),
    onOpenFile(listener) {
      const endNamed = bridge.on("named", async () => {
        const handle = await ask("named");
        if (handle !== null) listener(read(handle));
      });
      const endDropped = onFileDropped((file) => listener(openDropped(file)));
      return () => {
        endNamed();
        endDropped();
      };
    },
    onCloseAsked: onClose.add,
    setTitle: (title) => void ask("setTitle", title),
  };
}
