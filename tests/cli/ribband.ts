import { spawn } from "node:child_process";
import { join } from "node:path";
import type { Terminal } from "../../core/cli/terminal.ts";

export const root = join(import.meta.dirname, "../..");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  /** Without progress lines: a busy machine has some, an idle one none. */
  readonly err: string;
}

export const withoutProgress = (err: string) => err.replace(/^[A-Za-z0-9:., -]+ … \(\d+\.\d s\)\n/gm, "");

/** Runs the command line as a person does, in the project's folder. */
export function ribband(...args: string[]): Promise<Ran> {
  const child = spawn(process.execPath, ["electron/launch/command.mjs", ...args], { cwd: root });
  let out = "";
  let err = "";
  child.stdout.on("data", (data) => {
    out += data;
  });
  child.stderr.on("data", (data) => {
    err += data;
  });
  return new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", (code) => done({ code, out, err: withoutProgress(err) }));
  });
}

/** A terminal that remembers. */
export function pretendTerminal(): Terminal & { out: string; err: string } {
  const terminal = {
    out: "",
    err: "",
    watched: false,
    print: (text: string) => {
      terminal.out += text;
    },
    flash: () => {},
    say: (text: string) => {
      terminal.err += text;
    },
  };
  return terminal;
}

export const demoFile = (name: string) => join(root, `assets/demo/${name}.ribband.json`);
