import { describe, expect, test } from "vitest";
import { bridge } from "../../electron/desktop/bridge.ts";
import { type Frame, isTrustedSender } from "../../electron/desktop/guards.ts";
import { listen, tell } from "../../electron/desktop/ipc.ts";
import {
  type Bridge,
  desktopChannels,
  desktopEvents,
  type Outcome,
} from "../../renderer/document/host/contract.ts";

type Listener = (event: { senderFrame: Frame | null }, ...args: unknown[]) => Promise<Outcome>;

const main: Frame = { url: "app://ribband/index.html", processId: 7, frameToken: "A3" };

function listening() {
  const wire = new Map<string, Listener>();
  const asked: [string, unknown][] = [];
  listen(
    { handle: (channel, listener) => void wire.set(channel, listener) },
    Object.keys(desktopChannels),
    (sender) => isTrustedSender(sender, main),
    async (name, question) => {
      asked.push([name, question]);
      return { ok: true, value: name };
    },
  );
  return { wire, asked };
}

describe("the main process", () => {
  test("answers the app's own page on every channel", async () => {
    const { wire, asked } = listening();
    expect([...wire.keys()].sort()).toEqual(
      Object.keys(desktopChannels)
        .map((name) => `ribband:${name}`)
        .sort(),
    );
    expect(await wire.get("ribband:read")!({ senderFrame: main }, "x")).toEqual({ ok: true, value: "read" });
    expect(asked).toEqual([["read", "x"]]);
  });

  test.each([
    ["a frame that is gone", null],
    ["an inner frame with the same address", { ...main, frameToken: "B4" }],
    ["another site's frame", { ...main, url: "https://example.org/" }],
    ["a file", { ...main, url: "file:///tmp/x.html" }],
  ])("answers nothing to %s, on any channel", async (_, senderFrame) => {
    const { wire, asked } = listening();
    for (const listener of wire.values())
      expect(await listener({ senderFrame }, "x")).toMatchObject({ ok: false });
    expect(asked).toEqual([]);
  });

  test("says its events by their names", () => {
    const sent: unknown[][] = [];
    tell({ send: (...args) => void sent.push(args) }, "command", "save");
    expect(sent).toEqual([["ribband:command", "save"]]);
  });
});

describe("what the preload script lends the page", () => {
  const lend = () => {
    const invoked: unknown[][] = [];
    const heard = new Map<string, Set<(event: unknown, value: unknown) => void>>();
    const lent = bridge(
      {
        invoke: async (...args) => void invoked.push(args),
        on: (channel, listener) => heard.set(channel, (heard.get(channel) ?? new Set()).add(listener)),
        off: (channel, listener) => heard.get(channel)?.delete(listener),
      },
      (file) => (file as { path: string }).path,
    );
    return { lent, invoked, heard };
  };

  test("is one method a channel and `on`, nothing more", () => {
    expect(Object.keys(lend().lent).sort()).toEqual([...Object.keys(desktopChannels), "on"].sort());
  });

  test("carries one question on its own channel only", async () => {
    const { lent, invoked } = lend();
    const methods = Object.keys(desktopChannels).filter((name) => name !== "openDropped") as (keyof Bridge)[];
    for (const name of methods) {
      invoked.length = 0;
      await (lent[name] as (...args: unknown[]) => Promise<unknown>)("question", "more", "channel");
      expect(invoked).toEqual([[`ribband:${name}`, "question"]]);
    }
  });

  test("takes the path of a dropped file from Electron, not from the page", async () => {
    const { lent, invoked } = lend();
    await lent.openDropped({ path: "/home/ann/tern.ribband.json" });
    expect(invoked).toEqual([["ribband:openDropped", "/home/ann/tern.ribband.json"]]);
  });

  test("passes on the value of an event, never the event itself, until it is ended", () => {
    const { lent, heard } = lend();
    for (const name of Object.keys(desktopEvents) as (keyof typeof desktopEvents)[]) {
      const values: unknown[][] = [];
      const end = lent.on(name, (...args) => values.push(args));
      const [listener] = heard.get(`ribband:${name}`)!;
      listener({ sender: "the whole of Electron" }, "value");
      expect(values).toEqual([["value"]]);
      end();
      expect(heard.get(`ribband:${name}`)!.size).toBe(0);
    }
  });

  test("no other event can be listened to", () => {
    const { lent, heard } = lend();
    for (const name of ["", "save", "__proto__", "../other", "ELECTRON_BROWSER_WINDOW_ALERT"]) {
      expect(() => lent.on(name as "command", () => {})).toThrow(RangeError);
    }
    expect(heard.size).toBe(0);
  });
});
