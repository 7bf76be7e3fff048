import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { ownFolder } from "./own-folder.ts";

const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

describe("npm start in a browser", () => {
  /** Runs the part of `npm start` that serves, as a process of its own without a display. */
  function start(home: string, file: string | null, env: NodeJS.ProcessEnv = {}) {
    const page = join(home, "page");
    mkdirSync(page, { recursive: true });
    writeFileSync(join(page, "index.html"), "<!doctype html>");
    const script = `
      const { runInBrowser } = await import(${JSON.stringify(join(import.meta.dirname, "../../electron/loopback/run.ts"))});
      const stopped = new Promise((done) => process.once("SIGINT", done));
      process.exitCode = await runInBrowser({ page: ${JSON.stringify(page)}, file: ${JSON.stringify(file)}, stopped,
        say: console.log, report: console.error });`;
    const child = spawn(
      process.execPath,
      ["--import", import.meta.resolve("tsx"), "--input-type=module", "-e", script],
      {
        env: { ...process.env, RIBBAND_FOLDER: join(home, "app"), DISPLAY: "", WAYLAND_DISPLAY: "", ...env },
        stdio: ["ignore", "pipe", "pipe"],
      },
    );
    let said = "";
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding("utf8").on("data", (text: string) => {
        said += text;
      });
    }
    const ended = new Promise<number | null>((done) => child.once("close", done));
    ends.push(async () => {
      child.kill("SIGKILL");
      await ended;
    });
    const saysAddress = async () => {
      for (let tries = 0; tries < 200; tries++) {
        const address = /http:\S+/.exec(said)?.[0];
        if (address) return new URL(address);
        await new Promise((done) => setTimeout(done, 50));
      }
      throw new Error(`No address was printed: ${said}`);
    };
    return { child, ended, saysAddress, said: () => said };
  }

  test("prints one address; a second start is another page of it; Ctrl-C ends it and leaves no note", async () => {
    const home = ownFolder();
    const path = join(home, "tern.ribband.json");
    writeFileSync(path, "text");
    const first = start(home, path);
    const address = await first.saysAddress();
    expect(first.said()).toContain("Ctrl-C ends it.");
    const second = start(home, null);
    expect(await second.ended).toBe(0);
    expect(second.said()).toContain("Ribband is running already; this is another page of it.");
    const other = new URL(/http:\S+/.exec(second.said())![0]);
    expect(other.port).toBe(address.port);
    expect(other.hash).not.toBe(address.hash);
    first.child.kill("SIGINT");
    expect(await first.ended).toBe(0);
    expect(existsSync(join(home, "app/serving.json"))).toBe(false);
  });

  /** A browser that only notes which address it was to open. */
  function openerIn(home: string, exitCode: number) {
    writeFileSync(join(home, "xdg-open"), `#!/bin/sh\necho "$1" > "${home}/opened"\nexit ${exitCode}\n`, {
      mode: 0o755,
    });
    return { DISPLAY: ":0", PATH: `${home}:${process.env.PATH}` };
  }

  test.runIf(process.platform === "linux")("opens the browser on an address of its own", async () => {
    const home = ownFolder();
    const first = start(home, null, openerIn(home, 0));
    const printed = await first.saysAddress();
    expect(first.said()).toContain("Ribband is open in your browser; if not, open http://");
    const opened = new URL(readFileSync(join(home, "opened"), "utf8").trim());
    expect(opened.origin).toBe(printed.origin);
    expect(opened.hash).toMatch(/^#ticket=[\w-]{43}$/);
    expect(opened.hash).not.toBe(printed.hash);
  });

  test.runIf(process.platform === "linux")("prints the address when no browser opens", async () => {
    const home = ownFolder();
    const failing = start(home, null, openerIn(home, 3));
    await failing.saysAddress();
    expect(failing.said()).toMatch(/^Open http:/m);
  });

  test("a killed one does not stand in the way of the next, nor does somebody else at its port", async () => {
    const home = ownFolder();
    const killed = start(home, null);
    const { port } = await killed.saysAddress();
    killed.child.kill("SIGKILL");
    await killed.ended;
    const squatter = createServer((socket) => socket.destroy());
    await new Promise<void>((done) => squatter.listen(Number(port), "127.0.0.1", done));
    ends.push(() => new Promise((done) => squatter.close(done)));
    const next = await start(home, null).saysAddress();
    expect(next.port).not.toBe(port);
    expect((await fetch(`http://127.0.0.1:${next.port}/`)).status).toBe(200);
  });
});
