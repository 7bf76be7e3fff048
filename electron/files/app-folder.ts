import { join } from "node:path";

/**
 * The app's own folder: settings, recent files, autosave. The same one that Electron calls userData, so that the
 * desktop window and the browser find each other's unsaved work.
 * @param home the user's home folder
 */
export function appFolder(platform: NodeJS.Platform, home: string, env: NodeJS.ProcessEnv): string {
  if (env.RIBBAND_FOLDER) return env.RIBBAND_FOLDER;
  if (platform === "win32") return join(env.APPDATA || join(home, "AppData/Roaming"), "Ribband");
  if (platform === "darwin") return join(home, "Library/Application Support/Ribband");
  return join(env.XDG_CONFIG_HOME || join(home, ".config"), "Ribband");
}
