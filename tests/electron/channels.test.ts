import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { answering } from "../../electron/channels/answer.ts";
import {
  type Channels,
  desktopChannels,
  type Handlers,
  HostError,
  outcome,
} from "../../renderer/document/host/contract.ts";

const names = Object.keys(desktopChannels) as (keyof typeof desktopChannels)[];

/** Handlers that only note what reached them. */
function noting() {
  const reached: [string, unknown][] = [];
  const handlers = Object.fromEntries(
    names.map((name) => [
      name,
      async (asked: unknown) => {
        reached.push([name, asked]);
      },
    ]),
  ) as unknown as Handlers<typeof desktopChannels>;
  return {
    reached,
    answer: answering(desktopChannels as Channels, handlers as Handlers<Channels>, () => {}),
  };
}

const handle = `disk-${"a".repeat(32)}`;
const stamp = "b".repeat(64);
const state = {
  id: "11111111-2222-4333-8444-555555555555",
  name: "Tern",
  handle,
  savedAt: "2031-05-06T07:08:09.000Z",
  text: "{}",
  stamp,
};

describe("a question that fits its channel reaches the handler", () => {
  test.each<[keyof typeof desktopChannels, unknown]>([
    ["recent", undefined],
    ["read", handle],
    ["save", { handle, text: "{}", seen: stamp }],
    ["save", { handle, text: "", seen: null }],
    ["putWorking", state],
    ["putWorking", { ...state, handle: null, stamp: null }],
    ["dropWorking", state.id],
    ["setSettings", { lengths: "ft-in", theme: "paper", panels: { side: [30, 70] } }],
    ["openDropped", "/home/ann/tern.ribband.json"],
    ["saveAs", { name: "tern.ribband.json", text: "{}" }],
    ["export", { name: "tern.csv", bytes: "a;b", type: "text/csv" }],
    ["export", { name: "tern.png", bytes: new Uint8Array(3), type: "image/png" }],
    ["setTitle", { name: "Tern", changed: true }],
    ["answerClose", false],
  ])("%s", async (name, question) => {
    const { reached, answer } = noting();
    expect(await answer(name, question)).toEqual({ ok: true, value: undefined });
    expect(reached).toEqual([[name, question]]);
  });
});

describe("a hostile question does not", () => {
  test.each<[keyof typeof desktopChannels, string, unknown]>([
    ["read", "a path in place of a handle", "/etc/passwd"],
    ["read", "a way out of the folder", "../../../etc/passwd"],
    ["read", "a handle with more after it", `${handle}/../x`],
    ["read", "a handle with a line break after it", `${handle}\n`],
    ["read", "a list that reads like a handle", [handle]],
    ["save", "a field too many", { handle, text: "", seen: null, path: "/etc/passwd" }],
    ["save", "a field too few", { handle, text: "" }],
    ["save", "no text but a number", { handle, text: 3, seen: null }],
    ["putWorking", "an id that is a path", { ...state, id: "../../settings" }],
    ["putWorking", "an id in upper case", { ...state, id: "A".repeat(36) }],
    ["putWorking", "a time that is none", { ...state, savedAt: "yesterday" }],
    ["dropWorking", "an id that is a path", "../../recent"],
    ["dropWorking", "an empty id", ""],
    ["openDropped", "no path: a file that the page made up", ""],
    ["openDropped", "an object", { toString: () => "/etc/passwd" }],
    ["saveAs", "a name of 256 letters", { name: "n".repeat(256), text: "" }],
    ["export", "bytes that are a list", { name: "a", bytes: [1, 2], type: "" }],
    ["export", "a view of something else", { name: "a", bytes: new DataView(new ArrayBuffer(8)), type: "" }],
    ["setTitle", "a truth that is a word", { name: "a", changed: "yes" }],
    ["answerClose", "nothing", undefined],
    ["recent", "something where nothing is asked", { __proto__: null }],
  ])("%s: %s", async (name, _, question) => {
    const { reached, answer } = noting();
    const said = await answer(name, question);
    expect(said).toMatchObject({ ok: false, sentence: expect.stringMatching(`^The question "${name}`) });
    expect(reached).toEqual([]);
  });

  test("texts longer than any project", async () => {
    const { reached, answer } = noting();
    const text = "x".repeat(32 * 2 ** 20 + 1);
    expect(await answer("save", { handle, text, seen: null })).toMatchObject({ ok: false });
    expect(await answer("saveAs", { name: "a", text })).toMatchObject({ ok: false });
    expect(reached).toEqual([]);
  });

  test.each(["toString", "__proto__", "constructor", "hasOwnProperty", "", "exec", "save "])(
    "the channel %o does not exist",
    async (name) => {
      expect(await noting().answer(name, undefined)).toMatchObject({ ok: false });
    },
  );
});

property.prop([fc.constantFrom(...names), fc.anything({ withNullPrototype: true, withTypedArray: true })], {
  numRuns: 2000,
})(
  "whatever is asked, the answer is an outcome, and only what fits reaches a handler",
  async (name, question) => {
    const { reached, answer } = noting();
    const said = outcome.parse(await answer(name, question));
    expect(said.ok).toBe(desktopChannels[name].ask.safeParse(question).success);
    expect(reached.length).toBe(said.ok ? 1 : 0);
  },
);

test("trouble in words arrives as it is; a fault of ours is reported too", async () => {
  const faults: unknown[] = [];
  const failing = (error: Error) =>
    answering({ recent: desktopChannels.recent }, { recent: async () => Promise.reject(error) }, (fault) =>
      faults.push(fault),
    );
  expect(await failing(new HostError("The disk is full."))("recent", undefined)).toEqual({
    ok: false,
    sentence: "The disk is full.",
  });
  expect(faults).toEqual([]);
  const fault = new TypeError("x is not a function");
  expect(await failing(fault)("recent", undefined)).toEqual({
    ok: false,
    sentence: 'Ribband failed at "recent": x is not a function',
  });
  expect(faults).toEqual([fault]);
});
