import { readFileSync, statSync, writeFileSync } from "node:fs";
import { request as httpRequest, type OutgoingHttpHeaders } from "node:http";
import { connect, createServer } from "node:net";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { machine } from "../../electron/channels/machine.ts";
import { servingNote } from "../../electron/loopback/running.ts";
import { type Loopback, serve } from "../../electron/loopback/server.ts";
import { machineChannels } from "../../renderer/document/host/contract.ts";
import { ownFolder } from "./own-folder.ts";

const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

/** A server over one project file, and a way to ask it that can lie in every header, as a browser's fetch cannot. */
async function serving(at: { home?: string; port?: number } = {}) {
  const { home = ownFolder(), port = 0 } = at;
  const page = ownFolder();
  writeFileSync(join(page, "index.html"), "<!doctype html>");
  const path = join(ownFolder(), "tern.ribband.json");
  writeFileSync(path, "old\n");
  const faults: unknown[] = [];
  const server = await serve({ page, machine: machine(home), port, report: (error) => faults.push(error) });
  ends.push(() => server.close());
  return { home, page, path, server, faults };
}

interface Sent {
  method?: string;
  headers?: OutgoingHttpHeaders;
  body?: string;
}

function send(server: Loopback, pathname: string, sent: Sent = {}) {
  const { method = "GET", headers = {}, body } = sent;
  return new Promise<{ status: number; body: string; headers: NodeJS.Dict<string | string[]> }>(
    (done, fail) => {
      const asked = httpRequest(
        { host: "127.0.0.1", port: server.port, path: pathname, method, headers },
        (got) => {
          let text = "";
          got.setEncoding("utf8").on("data", (part) => {
            text += part;
          });
          got.on("end", () => done({ status: got.statusCode!, body: text, headers: got.headers }));
        },
      );
      asked.on("error", fail);
      asked.end(body);
    },
  );
}

function ask(
  server: Loopback,
  channel: string,
  question: unknown,
  key: string,
  headers: OutgoingHttpHeaders = {},
) {
  return send(server, `/host/${channel}`, {
    method: "POST",
    headers: { "Content-Type": "application/json", Authorization: `Bearer ${key}`, ...headers },
    body: JSON.stringify({ question }),
  });
}

/** What the server says to bytes that no client library would send. */
function raw(port: number, bytes: string): Promise<string> {
  return new Promise((done, fail) => {
    let said = "";
    const socket = connect(port, "127.0.0.1", () => socket.write(bytes, "latin1"));
    socket.setEncoding("latin1").on("data", (text) => {
      said += text;
    });
    socket.once("error", fail);
    socket.once("close", () => done(said));
  });
}

/** Comes in as the page does: by the ticket of an address. */
async function enter(server: Loopback, file: string | null) {
  const ticket = new URL(server.address(file)).hash.replace("#ticket=", "");
  const { body } = await ask(server, "enter", { ticket }, "");
  return JSON.parse(body).value as { key: string; named: string | null };
}

describe("a page that came in by its ticket", () => {
  test("opens and saves the file that was named at the start", async () => {
    const { server, path } = await serving();
    const { key, named } = await enter(server, path);
    const opened = JSON.parse((await ask(server, "read", named, key)).body).value;
    expect(opened).toMatchObject({ handle: named, name: "tern.ribband.json", text: "old\n" });
    const saved = await ask(server, "save", { handle: named, text: "new\n", seen: opened.stamp }, key, {
      Origin: `http://127.0.0.1:${server.port}`,
    });
    expect(JSON.parse(saved.body)).toMatchObject({ ok: true, value: { kind: "saved" } });
    expect(readFileSync(path, "utf8")).toBe("new\n");
  });

  test("hears trouble in words", async () => {
    const { server, path, faults } = await serving();
    const { key } = await enter(server, path);
    const { status, body } = await ask(server, "read", `disk-${"0".repeat(32)}`, key);
    expect(status).toBe(200);
    expect(JSON.parse(body)).toMatchObject({
      ok: false,
      sentence: expect.stringContaining("not known any more"),
    });
    expect(JSON.parse((await ask(server, "read", "/etc/passwd", key)).body)).toMatchObject({ ok: false });
    expect(JSON.parse((await ask(server, "open", null, key)).body)).toMatchObject({ ok: false });
    expect(faults).toEqual([]);
  });
});

describe("nobody else is let in", () => {
  test("a ticket is good for one use", async () => {
    const { server, path } = await serving();
    const ticket = new URL(server.address(path)).hash.replace("#ticket=", "");
    const first = JSON.parse((await ask(server, "enter", { ticket }, "")).body);
    expect(first.value.key).toMatch(/^[\w-]{43}$/);
    expect(JSON.parse((await ask(server, "enter", { ticket }, "")).body)).toEqual({ ok: true, value: null });
    expect(JSON.parse((await ask(server, "enter", { ticket: "guessed" }, "")).body)).toEqual({
      ok: true,
      value: null,
    });
  });

  test("without the key, or with the starter's, no channel answers", async () => {
    const { server, path } = await serving();
    const { key } = await enter(server, path);
    for (const wrong of ["", "undefined", key.slice(1), `${key}x`, server.starterKey]) {
      for (const channel of Object.keys(machineChannels)) {
        expect((await ask(server, channel, null, wrong)).status).toBe(401);
      }
    }
    expect((await ask(server, "recent", undefined, key)).status).toBe(200);
  });

  test("a page cannot name paths: that door opens to a second start only", async () => {
    const { server, path } = await serving();
    const { key } = await enter(server, path);
    expect((await ask(server, "start", { file: "/etc/passwd" }, key)).status).toBe(401);
  });

  test("another site's page is refused by its origin, or by the name under which it came", async () => {
    const { server, path } = await serving();
    const { key } = await enter(server, path);
    const { port } = server;
    for (const Origin of [
      "https://example.org",
      "null",
      `http://127.0.0.1:${port + 1}`,
      `https://127.0.0.1:${port}`,
    ]) {
      expect((await ask(server, "recent", undefined, key, { Origin })).status).toBe(403);
      expect((await ask(server, "enter", { ticket: "x" }, key, { Origin })).status).toBe(403);
    }
    for (const Host of ["example.org", `example.org:${port}`, "127.0.0.1", `127.0.0.1.example.org:${port}`]) {
      expect((await ask(server, "recent", undefined, key, { Host })).status).toBe(403);
      expect((await send(server, "/", { headers: { Host } })).status).toBe(403);
    }
    expect((await ask(server, "recent", undefined, key, { Host: `localhost:${port}` })).status).toBe(200);
  });

  test("a question is a POST of JSON, of a reasonable length", async () => {
    const { server, path } = await serving();
    const { key } = await enter(server, path);
    const Authorization = `Bearer ${key}`;
    const json = { Authorization, "Content-Type": "application/json" };
    const post = (headers: OutgoingHttpHeaders, body: string) =>
      send(server, "/host/recent", { method: "POST", headers, body });
    for (const method of ["GET", "HEAD", "PUT", "DELETE", "OPTIONS"]) {
      expect((await send(server, "/host/recent", { method, headers: json })).status).toBe(405);
    }
    for (const type of ["text/plain", "application/x-www-form-urlencoded", "application/jsonp"]) {
      expect((await post({ Authorization, "Content-Type": type }, "{}")).status).toBe(415);
    }
    for (const body of ["", "no JSON", "3", "null", '{"question":'])
      expect((await post(json, body)).status).toBe(400);
    expect((await post({ ...json, "Content-Length": 65 * 2 ** 20 }, "")).status).toBe(413);
    expect(JSON.parse((await post(json, "{}")).body)).toEqual({ ok: true, value: [] });
  });

  test("no answer lets another site read it", async () => {
    const { server, path } = await serving();
    const { key } = await enter(server, path);
    const answers = [
      await ask(server, "recent", undefined, key),
      await send(server, "/"),
      await send(server, "/gone"),
    ];
    for (const { headers } of answers) {
      expect(headers["access-control-allow-origin"]).toBeUndefined();
      expect(headers["cross-origin-resource-policy"]).toBe("same-origin");
      expect(headers["content-security-policy"]).toContain("script-src 'self'");
      expect(headers["x-content-type-options"]).toBe("nosniff");
    }
  });

  test.each([
    "/../secret.json",
    "/%2e%2e/secret.json",
    "/..%2fsecret.json",
    "//etc/passwd",
    "/host/",
    "/host/a/b",
  ])("%s is no file of the page", async (pathname) => {
    const { server } = await serving();
    expect((await send(server, pathname)).status).toBe(404);
  });

  test("no request line upsets it, however odd", async () => {
    const { server, faults } = await serving();
    const odd = [
      "//",
      "/?",
      "http://x/",
      "*",
      "/%",
      "/\\",
      "/host/enter?x#y",
      "/host/enter/..",
      "/[",
      "//[::1",
      "/\u00ff",
    ];
    const targets = fc.oneof(
      fc.constantFrom(...odd),
      fc.string({ unit: fc.constantFrom(..."/\\%.:?#[]@abc0123") }).map((text) => `/${text}`),
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom("GET", "POST", "OPTIONS", "BREW"), targets, async (method, target) => {
        const said = await raw(
          server.port,
          `${method} ${target} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`,
        );
        expect(said).toMatch(/^HTTP\/1\.1 (200|400|403|404|405|415) /);
      }),
      { numRuns: 300 },
    );
    expect(faults).toEqual([]);
    expect((await send(server, "/")).status).toBe(200);
  });

  test("it listens on this machine only", async () => {
    const { server } = await serving();
    expect(new URL(server.address(null)).hostname).toBe("127.0.0.1");
    await expect(
      serve({ page: "", machine: machine(ownFolder()), port: server.port, report: () => {} }),
    ).rejects.toThrow("EADDRINUSE");
  });
});

describe("a second start", () => {
  test("finds the first, and gets an address that opens its file", async () => {
    const { server, home, path } = await serving();
    await servingNote(home).write(server);
    if (process.platform !== "win32") expect(statSync(join(home, "serving.json")).mode & 0o777).toBe(0o600);
    // The note is this process's own, as it must not find itself; a second start is another.
    const note = JSON.parse(readFileSync(join(home, "serving.json"), "utf8"));
    writeFileSync(join(home, "serving.json"), JSON.stringify({ ...note, pid: note.pid + 1 }));
    const address = await servingNote(home).addressAtRunning(path);
    const ticket = new URL(address!).hash.replace("#ticket=", "");
    const { key, named } = JSON.parse((await ask(server, "enter", { ticket }, "")).body).value;
    expect(JSON.parse((await ask(server, "read", named, key)).body).value.text).toBe("old\n");
  });

  test("a note that a killed server left, or whose port somebody else has now, is no server", async () => {
    const { server, home } = await serving();
    const other = createServer((socket) => socket.end("hello\n", () => socket.destroy()));
    await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
    ends.push(() => new Promise((done) => other.close(done)));
    const { port } = other.address() as { port: number };
    for (const note of [
      { pid: 1, port, starterKey: "x" },
      { pid: 1, port: 1, starterKey: "x" },
      { pid: 1, port: server.port, starterKey: "of another run" },
    ]) {
      writeFileSync(join(home, "serving.json"), JSON.stringify(note));
      expect(await servingNote(home).addressAtRunning(null)).toBeUndefined();
    }
    writeFileSync(join(home, "serving.json"), "torn");
    expect(await servingNote(home).addressAtRunning(null)).toBeUndefined();
  });
});
