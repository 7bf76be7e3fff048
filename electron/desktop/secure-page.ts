import type { Session, Shell, WebContents, WebPreferences } from "electron";
import { isOwnPage, mayOpenOutside } from "./guards.ts";

/** The page is walled off from Node and from the preload script, and runs in the system's sandbox. */
export function pagePreferences(preload: string): WebPreferences {
  return {
    preload,
    contextIsolation: true,
    sandbox: true,
    webSecurity: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
  };
}

/** The page stays on the app's own address, opens no windows, and gets none of the browser's permissions. */
export function securePage(contents: WebContents, shell: Pick<Shell, "openExternal">): void {
  contents.on("will-navigate", (event) => {
    if (!isOwnPage(event.url)) event.preventDefault();
  });
  contents.on("will-frame-navigate", (event) => {
    if (!isOwnPage(event.url)) event.preventDefault();
  });
  contents.on("will-redirect", (event) => {
    if (!isOwnPage(event.url)) event.preventDefault();
  });
  contents.on("will-attach-webview", (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url }) => {
    if (mayOpenOutside(url)) void shell.openExternal(url);
    return { action: "deny" };
  });
}

export function denyPermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}
