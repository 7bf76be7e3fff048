import type { BaseWindow, Dialog, FileFilter } from "electron";
import type { Dialogs } from "./desktop-handlers.ts";

const projects: FileFilter[] = [
  { name: "Ribband projects", extensions: ["json"] },
  { name: "All files", extensions: ["*"] },
];

/** The system's dialogs, attached to the window while there is one. */
export function systemDialogs(
  dialog: Pick<Dialog, "showOpenDialog" | "showSaveDialog">,
  windowNow: () => BaseWindow | undefined,
): Dialogs {
  return {
    async open() {
      const options = { properties: ["openFile" as const], filters: projects };
      const window = windowNow();
      const { filePaths } = await (window
        ? dialog.showOpenDialog(window, options)
        : dialog.showOpenDialog(options));
      return filePaths[0];
    },
    async save(name, kind) {
      const options = { defaultPath: name, ...(kind === "project" ? { filters: projects } : {}) };
      const window = windowNow();
      const { canceled, filePath } = await (window
        ? dialog.showSaveDialog(window, options)
        : dialog.showSaveDialog(options));
      return canceled || filePath === "" ? undefined : filePath;
    },
  };
}
