import type { Ask } from "./ask.ts";
import { closeListeners } from "./close-listeners.ts";
import { HostError, type machineChannels, type OpenedFile, type SaveResult, titleOf } from "./contract.ts";
import { database } from "./database.ts";
import { onFileDropped } from "./dropped.ts";
import type { Host } from "./host.ts";
import { withoutLive } from "./live-states.ts";
import { forgetOpen, rememberedOpen, rememberOpen } from "./open-place.ts";
import { contentOf, pickedFiles } from "./picked-files.ts";
import { download, pickFile, pickPlace } from "./pickers.ts";
import { stampOf } from "./stamp.ts";

/**
 * The host in a browser. Files that the machine behind the page knows go through `ask`; files that the person picks here
 * are read and written by the browser.
 * @param named handle of the file that the page was asked to open, or null
 * @param usedBefore why the page cannot know what it was asked to open, to be told when that is asked for
 */
export function browserHost(
  ask: Ask<typeof machineChannels>,
  named: string | null,
  usedBefore: string | null = null,
): Host {
  const picked = pickedFiles(database());
  const read = (handle: string) => (handle.startsWith("picked-") ? picked.read(handle) : ask("read", handle));
  const take = async (file: FileSystemFileHandle | File): Promise<OpenedFile> =>
    rememberOpen(await (file instanceof File ? contentOf(file) : picked.add(file)));

  const onClose = closeListeners();
  let unsaved = false;
  window.addEventListener("beforeunload", (event) => {
    if (unsaved && !onClose.isEmpty()) event.preventDefault();
  });

  const saveAs: Host["saveAs"] = async ({ name, text }) => {
    const place = await pickPlace(name);
    if (place === null) return { kind: "dismissed" };
    if (place !== "download") return remember(await picked.saveOver(place, text));
    download(name, text, "application/json");
    return { kind: "saved", handle: null, name, stamp: await stampOf(new TextEncoder().encode(text)) };
  };

  return {
    kind: "browser",
    async opening() {
      if (usedBefore) throw new HostError(usedBefore);
      // A file named at this start goes before the one that this tab had; loaded again, the address names none.
      const handle = named ?? rememberedOpen();
      return handle === null ? null : rememberOpen(await read(handle));
    },
    forgetOpen,
    async open() {
      const file = await pickFile();
      return file && take(file);
    },
    async openRecent(handle) {
      return rememberOpen(await read(handle));
    },
    recent: async () => [...(await ask("recent")), ...(await picked.recent())],
    async save({ handle, name, text, seen }) {
      if (handle === null) return saveAs({ name, text });
      if (handle.startsWith("picked-")) return remember(await picked.save(handle, text, seen));
      return remember(await ask("save", { handle, text, seen }));
    },
    saveAs,
    autosave: withoutLive({
      put: (working) => ask("putWorking", working),
      list: () => ask("listWorking"),
      drop: (id) => ask("dropWorking", id),
    }),
    async export({ name, bytes, type }) {
      download(name, typeof bytes === "string" ? bytes : new Uint8Array(bytes), type);
      return true;
    },
    settings: { get: () => ask("getSettings"), set: (settings) => ask("setSettings", settings) },
    // A page has no menu, and nothing can open a file in it from outside but a drop.
    onCommand: () => () => {},
    onOpenFile: (listener) =>
      onFileDropped((file, item) => {
        // Both must be asked for before the drop is over; the first answer may then be waited for.
        const handle = item.getAsFileSystemHandle?.();
        listener(droppedFile(file, handle).then(take));
      }),
    onCloseAsked: onClose.add,
    setTitle({ name, changed }) {
      unsaved = changed;
      document.title = titleOf(name, changed);
    },
  };
}

function remember(result: SaveResult): SaveResult {
  if (result.kind === "saved") rememberOpen(result);
  return result;
}

async function droppedFile(
  file: File,
  handle: Promise<FileSystemHandle | null> | undefined,
): Promise<FileSystemFileHandle | File> {
  const found = await handle;
  if (!found) return file;
  if (found instanceof FileSystemFileHandle) return found;
  throw new HostError(`${found.name} cannot be opened: it is a folder.`);
}
