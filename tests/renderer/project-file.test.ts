import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { parseProject } from "../../core/project/parse.ts";
import { printProject } from "../../core/project/print.ts";
import type { Host, OpenedFile, SaveResult, WorkingState } from "../../renderer/document/host/host.ts";
import { fileNameFor, projectFile } from "../../renderer/document/project-file.ts";
import { isSaved, makeProjectStore, wouldBeLost } from "../../renderer/document/project-store.ts";
import { demoProject } from "../project/demo-files.ts";

/** A machine with one file on its disk, whose stamp is a count of writings. */
function machine(text: string) {
  const disk = { text, writes: 1 };
  const kept = new Map<string, WorkingState>();
  const stamp = () => `stamp-${disk.writes}`;
  const write = (next: string): SaveResult => {
    disk.text = next;
    disk.writes++;
    return { kind: "saved", handle: "file", name: "whimbrel-9.ribband.json", stamp: stamp() };
  };
  const host: Pick<Host, "save" | "saveAs" | "autosave"> = {
    save: async ({ text: next, seen }) =>
      seen === stamp() ? write(next) : { kind: "changed-on-disk", stamp: stamp() },
    saveAs: async () => ({ kind: "dismissed" }),
    autosave: {
      put: async (working) => void kept.set(working.id, working),
      list: async () => [...kept.values()],
      drop: async (id) => void kept.delete(id),
    },
  };
  const opened: OpenedFile = { handle: "file", name: "whimbrel-9.ribband.json", text, stamp: stamp() };
  return { host: host as Host, disk, kept, opened };
}

const demo = demoProject("whimbrel-9");
const rename = (name: string) => (draft: typeof demo) => {
  draft.name = name;
};

function opened() {
  const given = machine(printProject(demo));
  const store = makeProjectStore(demo);
  const trouble: string[] = [];
  const file = projectFile(given.host, store, given.opened, (sentence) => trouble.push(sentence));
  return { ...given, store, file, trouble };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test("what is saved and read again is the same project, and saving it once more the same bytes", async () => {
  const { store, file, disk } = opened();
  store.edit("Rename", rename("Whimbrel 9 long"));
  expect(await file.save()).toBe("saved");
  expect(isSaved(store.state.getState())).toBe(true);
  const first = disk.text;
  const read = parseProject(first);
  expect(read.ok && read.project).toEqual(store.state.getState().project);
  expect(await file.save()).toBe("saved");
  expect(disk.text).toBe(first);
});

test("a file that somebody else wrote to is left alone until one says to write over it", async () => {
  const { store, file, disk } = opened();
  disk.text = "theirs";
  disk.writes++;
  store.edit("Rename", rename("Mine"));
  expect(await file.save()).toBe("changed-on-disk");
  expect(disk.text).toBe("theirs");
  expect(isSaved(store.state.getState())).toBe(false);
  expect(await file.save(true)).toBe("saved");
  expect(disk.text).toContain('"Mine"');
});

test("work is kept a moment after the last change, never in the file, and dropped once it is saved", async () => {
  const { store, file, disk, kept } = opened();
  const before = disk.text;
  for (const name of ["A", "B", "C"]) {
    store.edit("Rename", rename(name));
    await vi.advanceTimersByTimeAsync(400);
  }
  expect(kept.size).toBe(0);
  await vi.advanceTimersByTimeAsync(2000);
  expect([...kept.values()].map(({ text }) => text)).toEqual([printProject(store.state.getState().project)]);
  expect(disk.text).toBe(before);
  expect(await file.save()).toBe("saved");
  expect(kept.size).toBe(0);
});

test("what is back as it was saved is not unsaved, by undo or by hand, and nothing of it is kept", async () => {
  const { store, kept } = opened();
  const { name } = demo;
  for (const goBack of [() => store.undo(), () => store.edit("Rename", rename(name))]) {
    store.edit("Rename", rename("A"));
    await vi.advanceTimersByTimeAsync(2000);
    expect([kept.size, wouldBeLost(store.state.getState())]).toEqual([1, true]);
    goBack();
    expect([wouldBeLost(store.state.getState()), isSaved(store.state.getState())]).toEqual([false, true]);
    await vi.advanceTimersByTimeAsync(2000);
    expect(kept.size).toBe(0);
  }
});

test("a file that was closed keeps no more", async () => {
  const { store, file, kept } = opened();
  store.edit("Rename", rename("A"));
  file.end();
  await vi.advanceTimersByTimeAsync(5000);
  expect(kept.size).toBe(0);
});

test("trouble with keeping the work is told, and nothing else is lost by it", async () => {
  const { host, store, trouble } = opened();
  host.autosave.put = () => Promise.reject(new Error("the disk is full"));
  store.edit("Rename", rename("A"));
  await vi.advanceTimersByTimeAsync(5000);
  expect(trouble).toEqual(["the disk is full"]);
  expect(store.state.getState().project.name).toBe("A");
});

test.each([
  ["Whimbrel 9", "whimbrel-9.ribband.json"],
  ["  Größe/XL  ", "größe-xl.ribband.json"],
  ["///", "project.ribband.json"],
])("%j is saved as %s", (name, file) => {
  expect(fileNameFor(name)).toBe(file);
});
