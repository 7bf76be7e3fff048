import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { machine } from "../../electron/channels/machine.ts";
import { textOf, versionOf } from "./numbered-text.ts";

export interface Killings {
  /** One sentence for each time that something was lost. */
  readonly faults: readonly string[];
  /** How often the file had a torn save beside it: proof that kills fell into the middle of one. */
  readonly midSave: number;
  readonly midAutosave: number;
  /** How often work was offered that the file did not hold yet. */
  readonly offered: number;
}

/** Lets a process save and autosave, kills it at a random moment, and looks at what is left; `times` times over. */
export async function killWhileSaving(times: number): Promise<Killings> {
  const root = mkdtempSync(join(tmpdir(), "ribband-kill-"));
  try {
    const program = join(root, "save.mjs");
    // Bundled once: started from the sources every process would first take half a second to read them.
    await build({
      entryPoints: [join(import.meta.dirname, "save-until-killed.ts")],
      outfile: program,
      bundle: true,
      platform: "node",
      format: "esm",
    });
    const faults: string[] = [];
    let [midSave, midAutosave, offered] = [0, 0, 0];
    for (let time = 1; time <= times; time++) {
      const place = join(root, String(time));
      const left = await killOnce(program, place, Math.random() * 120);
      faults.push(
        ...left.faults.map((fault) => `kill ${time} after ${left.afterMs.toFixed(1)} ms: ${fault}`),
      );
      if (left.tornSave) midSave++;
      if (left.tornAutosave) midAutosave++;
      if (left.offered) offered++;
      rmSync(place, { recursive: true });
    }
    return { faults, midSave, midAutosave, offered };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

async function killOnce(program: string, place: string, afterMs: number) {
  const home = join(place, "home");
  const folder = join(place, "projects");
  const path = join(folder, "tern.ribband.json");
  mkdirSync(home, { recursive: true });
  mkdirSync(folder);
  writeFileSync(path, textOf(0));
  const told = await runAndKill(program, [home, path], afterMs);
  const last = (word: string) => Math.max(0, ...told.filter(([w]) => w === word).map(([, n]) => Number(n)));
  const saved = last("saved");
  const kept = last("kept");

  const faults: string[] = [];
  const onDisk = versionOf(readFileSync(path, "utf8"));
  if (onDisk === undefined) faults.push("the file is torn");
  else if (onDisk < saved) faults.push(`the file holds ${onDisk}, though ${saved} was reported saved`);

  const tornAutosave = readdirSync(join(home, "working")).some((name) => name.endsWith(".saving"));
  const states = await machine(home).handlers.listWorking();
  const [state] = states;
  const working = state && versionOf(state.text);
  if (states.length > 1) faults.push(`${states.length} states are offered, there was one`);
  if (state && working === undefined) faults.push("the state offered is torn");
  if (Math.max(onDisk ?? 0, working ?? 0) < kept) {
    faults.push(`${kept} was kept, but the file holds ${onDisk} and ${working ?? "nothing"} is offered`);
  }
  const names = readdirSync(folder).filter((name) => name !== "tern.ribband.json");
  const strange = names.filter((name) => !/^\.tern\.ribband\.json\.[0-9a-f]{8}\.saving$/.test(name));
  if (strange.length > 0) faults.push(`${strange.join(", ")} lies beside the file`);
  return { faults, afterMs, tornSave: names.length > 0, tornAutosave, offered: state !== undefined };
}

/** What the process said it had done by the time it was killed, `afterMs` after its first word. */
async function runAndKill(program: string, args: string[], afterMs: number): Promise<string[][]> {
  const child = spawn(process.execPath, [program, ...args], { stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  let complained = "";
  child.stderr.setEncoding("utf8").on("data", (text) => {
    complained += text;
  });
  child.stdout.setEncoding("utf8").on("data", (text) => {
    if (said === "") setTimeout(() => child.kill("SIGKILL"), afterMs);
    said += text;
  });
  const signal = await new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", (_code, signal) => done(signal));
  });
  if (signal !== "SIGKILL") throw new Error(`The process ended by itself: ${complained}`);
  // A last line without its end was cut off by the kill.
  return said
    .split("\n")
    .slice(0, -1)
    .map((line) => line.split(" "));
}
