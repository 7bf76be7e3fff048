import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { machine } from "../../electron/channels/machine.ts";
import type { WorkingState } from "../../renderer/document/host/contract.ts";
import { ownFolder } from "./own-folder.ts";

const untitled: WorkingState = {
  id: "11111111-2222-4333-8444-555555555555",
  name: "Untitled",
  handle: null,
  savedAt: "2031-05-06T07:08:09.000Z",
  text: "half a pool",
  stamp: null,
};

test("what was being worked on is offered by the next run, newest first, until it is dropped", async () => {
  const home = ownFolder();
  const later = {
    ...untitled,
    id: "99999999-2222-4333-8444-555555555555",
    savedAt: "2031-05-06T07:09:09.000Z",
  };
  const { handlers } = machine(home);
  await handlers.putWorking(untitled);
  await handlers.putWorking({ ...untitled, text: "three quarters of a pool" });
  await handlers.putWorking(later);
  const next = machine(home).handlers;
  expect(await next.listWorking()).toEqual([later, { ...untitled, text: "three quarters of a pool" }]);
  await next.dropWorking(later.id);
  await next.dropWorking(later.id);
  expect((await machine(home).handlers.listWorking()).map(({ id }) => id)).toEqual([untitled.id]);
});

test("it never touches the user's file, and its file is known again in the next run", async () => {
  const home = ownFolder();
  const path = join(ownFolder(), "tern.ribband.json");
  writeFileSync(path, "saved");
  const here = machine(home);
  const { handle, stamp } = await here.files.read(path);
  await here.handlers.putWorking({
    ...untitled,
    name: "tern.ribband.json",
    handle,
    stamp,
    text: "not saved",
  });
  expect(readFileSync(path, "utf8")).toBe("saved");

  // Thirteen other files push it off the list of recent ones.
  for (let i = 0; i < 13; i++) {
    const other = join(ownFolder(), `other-${i}.json`);
    writeFileSync(other, "");
    await here.files.read(other);
  }
  const next = machine(home);
  const [offered] = await next.handlers.listWorking();
  expect(offered).toMatchObject({ handle, stamp, text: "not saved" });
  const saved = await next.handlers.save({
    handle: offered.handle!,
    text: offered.text,
    seen: offered.stamp,
  });
  expect(saved).toMatchObject({ kind: "saved" });
  expect(readFileSync(path, "utf8")).toBe("not saved");
});

test("what equals its file by now has nothing to offer", async () => {
  const home = ownFolder();
  const path = join(ownFolder(), "tern.ribband.json");
  writeFileSync(path, "saved");
  const here = machine(home);
  const { handle, stamp } = await here.files.read(path);
  await here.handlers.putWorking({ ...untitled, handle, stamp, text: "mine" });
  await here.handlers.save({ handle: handle!, text: "mine", seen: stamp });
  expect(await machine(home).handlers.listWorking()).toEqual([]);
  expect(readdirSync(join(home, "working"))).toEqual([]);
});

test("a state picked in a browser comes back as it is; a handle that nobody gave out is refused", async () => {
  const { handlers } = machine(ownFolder());
  const picked = { ...untitled, handle: `picked-${"0".repeat(32)}` };
  await handlers.putWorking(picked);
  expect(await handlers.listWorking()).toEqual([picked]);
  const made = handlers.putWorking({ ...untitled, handle: `disk-${"0".repeat(32)}` });
  await expect(made).rejects.toThrow("not known any more");
});

test("a state that cannot be understood is set aside and hides no other", async () => {
  const home = ownFolder();
  const { handlers } = machine(home);
  await handlers.putWorking(untitled);
  mkdirSync(join(home, "working"), { recursive: true });
  writeFileSync(join(home, "working/broken.json"), '{ "id": "broken"');
  writeFileSync(join(home, "working/.x.json.0123abcd.saving"), "torso");
  expect(await handlers.listWorking()).toEqual([untitled]);
  expect(readFileSync(join(home, "working/broken.json.unreadable"), "utf8")).toBe('{ "id": "broken"');
});

test("puts and drops of one state keep their order", async () => {
  const { handlers } = machine(ownFolder());
  const works: Promise<unknown>[] = [];
  for (let i = 0; i < 20; i++) {
    works.push(handlers.putWorking({ ...untitled, text: `${i}` }), handlers.dropWorking(untitled.id));
  }
  works.push(handlers.putWorking({ ...untitled, text: "last" }));
  await Promise.all(works);
  expect(await handlers.listWorking()).toEqual([{ ...untitled, text: "last" }]);
});
