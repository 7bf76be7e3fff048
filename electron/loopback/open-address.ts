import { spawn } from "node:child_process";

const triedAfterMs = 2000;

/** The command that opens an address in the person's browser, or undefined where there is no screen to open it on. */
export function openCommand(
  platform: NodeJS.Platform,
  env: NodeJS.ProcessEnv,
): { file: string; args: string[] } | undefined {
  if (platform === "win32") return { file: "rundll32.exe", args: ["url.dll,FileProtocolHandler"] };
  if (platform === "darwin") return { file: "open", args: [] };
  return env.DISPLAY || env.WAYLAND_DISPLAY ? { file: "xdg-open", args: [] } : undefined;
}

/** Tells whether a browser was started; one that is still starting after two seconds counts. */
export async function openAddress(address: string): Promise<boolean> {
  const command = openCommand(process.platform, process.env);
  if (!command) return false;
  const child = spawn(command.file, [...command.args, address], { stdio: "ignore", detached: true });
  child.unref();
  return new Promise((done) => {
    const timer = setTimeout(() => done(true), triedAfterMs);
    const settle = (opened: boolean) => {
      clearTimeout(timer);
      done(opened);
    };
    child.once("error", () => settle(false));
    child.once("exit", (code) => settle(code === 0));
  });
}
