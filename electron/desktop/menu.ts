import type { MenuItemConstructorOptions } from "electron";
import type { MenuCommand, RecentFile } from "../../renderer/document/host/contract.ts";

type Item = MenuItemConstructorOptions;

interface MenuActions {
  command(command: MenuCommand): void;
  openRecent(handle: string): void;
}

/** The menu as each platform expects it: on macOS the app's own menu holds settings and quitting, elsewhere File does. */
export function menuTemplate(
  platform: NodeJS.Platform,
  recent: readonly RecentFile[],
  { command, openRecent }: MenuActions,
): Item[] {
  const mac = platform === "darwin";
  const item = (label: string, name: MenuCommand, accelerator?: string): Item => ({
    id: name,
    label,
    click: () => command(name),
    ...(accelerator ? { accelerator } : {}),
  });
  const line: Item = { type: "separator" };
  const settings = item(mac ? "Settings…" : "Settings", "settings", "CmdOrCtrl+,");

  const app: Item = {
    label: "Ribband",
    submenu: [
      { role: "about" },
      line,
      settings,
      line,
      { role: "services" },
      line,
      { role: "hide" },
      { role: "hideOthers" },
      { role: "unhide" },
      line,
      { role: "quit" },
    ],
  };
  const file: Item = {
    label: mac ? "File" : "&File",
    submenu: [
      item("New", "new", "CmdOrCtrl+N"),
      item("Open…", "open", "CmdOrCtrl+O"),
      {
        label: "Open recent",
        enabled: recent.length > 0,
        submenu: recent.map(({ handle, name, folder }) => ({
          // A single & would underline the letter after it.
          label: `${name} – ${folder}`.replaceAll("&", "&&"),
          click: () => openRecent(handle),
        })),
      },
      line,
      item("Save", "save", "CmdOrCtrl+S"),
      item("Save as…", "save-as", "CmdOrCtrl+Shift+S"),
      line,
      ...(mac ? [{ role: "close" } satisfies Item] : [settings, line, { role: "quit" } satisfies Item]),
    ],
  };
  const edit: Item = {
    label: mac ? "Edit" : "&Edit",
    submenu: [
      item("Undo", "undo", "CmdOrCtrl+Z"),
      item("Redo", "redo", mac ? "Cmd+Shift+Z" : "Ctrl+Y"),
      line,
      { role: "cut" },
      { role: "copy" },
      { role: "paste" },
      item("Delete", "delete"),
      line,
      item("Select all", "select-all", "CmdOrCtrl+A"),
    ],
  };
  const view: Item = {
    label: mac ? "View" : "&View",
    submenu: [
      item("Fit", "fit"),
      line,
      { role: "resetZoom" },
      { role: "zoomIn" },
      { role: "zoomOut" },
      line,
      { role: "togglefullscreen" },
    ],
  };
  const help: Item = {
    role: "help",
    label: mac ? "Help" : "&Help",
    submenu: [
      item("Keys and pointer", "help", "F1"),
      ...(mac ? [] : [line, { role: "about" } satisfies Item]),
    ],
  };
  return [
    ...(mac ? [app] : []),
    file,
    edit,
    view,
    ...(mac ? [{ role: "windowMenu" } satisfies Item] : []),
    help,
  ];
}
