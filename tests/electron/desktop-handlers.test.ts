import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Dialog } from "electron";
import { describe, expect, test } from "vitest";
import { machine } from "../../electron/channels/machine.ts";
import { desktopHandlers } from "../../electron/desktop/desktop-handlers.ts";
import { systemDialogs } from "../../electron/desktop/system-dialogs.ts";
import { ownFolder } from "./own-folder.ts";

/** The desktop's handlers with dialogs in which the person always chooses `chosen`. */
function desk(chosen?: string, named?: string) {
  const asked: string[] = [];
  const handlers = desktopHandlers(
    machine(ownFolder()),
    {
      open: async () => chosen,
      save: async (name, kind) => {
        asked.push(`${kind} ${name}`);
        return chosen;
      },
    },
    { setTitle: () => {}, answerClose: () => {} },
    () => named,
  );
  return { handlers, asked };
}

describe("opening", () => {
  test("the file that the person chose, or none", async () => {
    const path = join(ownFolder(), "tern.ribband.json");
    writeFileSync(path, "text");
    expect(await desk(path).handlers.open()).toMatchObject({ name: "tern.ribband.json", text: "text" });
    expect(await desk().handlers.open()).toBeNull();
  });

  test("a file named from outside, by its handle", async () => {
    const path = join(ownFolder(), "tern.ribband.json");
    writeFileSync(path, "text");
    const { handlers } = desk(undefined, path);
    expect((await handlers.read((await handlers.named())!)).text).toBe("text");
    expect(await desk().handlers.named()).toBeNull();
  });

  test("a dropped file, if it is called as a project is", async () => {
    const folder = ownFolder();
    for (const name of ["tern.ribband.json", "TERN.RIBBAND.JSON", "id_rsa", "package.json"]) {
      writeFileSync(join(folder, name), name);
    }
    const { handlers } = desk();
    expect((await handlers.openDropped(join(folder, "tern.ribband.json"))).text).toBe("tern.ribband.json");
    expect((await handlers.openDropped(join(folder, "TERN.RIBBAND.JSON"))).text).toBe("TERN.RIBBAND.JSON");
    for (const name of ["id_rsa", "package.json"]) {
      await expect(handlers.openDropped(join(folder, name))).rejects.toThrow(
        `${name} cannot be opened: a project file is called ….ribband.json.`,
      );
    }
  });
});

describe("saving under a name", () => {
  test("writes where the person says and gives a handle for the next save", async () => {
    const path = join(ownFolder(), "tern.ribband.json");
    const { handlers, asked } = desk(path);
    const saved = await handlers.saveAs({ name: "Tern 7.ribband.json", text: "one" });
    expect(asked).toEqual(["project Tern 7.ribband.json"]);
    expect(saved).toMatchObject({ kind: "saved", name: "tern.ribband.json" });
    if (saved.kind !== "saved") return;
    await handlers.save({ handle: saved.handle!, text: "two", seen: saved.stamp });
    expect(readFileSync(path, "utf8")).toBe("two");
    expect(await desk().handlers.saveAs({ name: "x", text: "" })).toEqual({ kind: "dismissed" });
  });

  test("a bare name gets the ending, unless such a file is there that was not asked about", async () => {
    const folder = ownFolder();
    const { handlers } = desk(join(folder, "tern"));
    expect(await handlers.saveAs({ name: "x", text: "one" })).toMatchObject({ name: "tern.ribband.json" });
    await expect(handlers.saveAs({ name: "x", text: "two" })).rejects.toThrow(
      "tern.ribband.json exists already",
    );
    expect(readFileSync(join(folder, "tern.ribband.json"), "utf8")).toBe("one");
    expect(readdirSync(folder)).toEqual(["tern.ribband.json"]);
  });
});

describe("writing a result", () => {
  test("text and bytes as they are", async () => {
    const path = join(ownFolder(), "cut.csv");
    const { handlers, asked } = desk(path);
    expect(await handlers.export({ name: "cut.csv", bytes: "a;½\n", type: "text/csv" })).toBe(true);
    expect(readFileSync(path, "utf8")).toBe("a;½\n");
    expect(await handlers.export({ name: "a.png", bytes: new Uint8Array([0, 255]), type: "image/png" })).toBe(
      true,
    );
    expect([...readFileSync(path)]).toEqual([0, 255]);
    expect(asked).toEqual(["result cut.csv", "result a.png"]);
    expect(await desk().handlers.export({ name: "a", bytes: "", type: "" })).toBe(false);
  });

  test("a folder that is gone is told in words", async () => {
    const { handlers } = desk(join(ownFolder(), "gone/cut.csv"));
    await expect(handlers.export({ name: "cut.csv", bytes: "", type: "" })).rejects.toThrow(
      "cut.csv cannot be written: there is no such file or folder.",
    );
  });
});

test("the system's dialogs: attached to the window while there is one; dismissed is nothing", async () => {
  const calls: unknown[][] = [];
  const dialog = {
    showOpenDialog: async (...args: unknown[]) => {
      calls.push(args);
      return { canceled: false, filePaths: ["/a.json"] };
    },
    showSaveDialog: async (...args: unknown[]) => {
      calls.push(args);
      return { canceled: true, filePath: "" };
    },
  } as unknown as Dialog;
  const window = { id: 1 };
  const attached = systemDialogs(dialog, () => window as never);
  expect(await attached.open()).toBe("/a.json");
  expect(await attached.save("tern.ribband.json", "project")).toBeUndefined();
  expect(await systemDialogs(dialog, () => undefined).open()).toBe("/a.json");
  expect(calls.map((args) => args.length)).toEqual([2, 2, 1]);
  expect(calls[0][0]).toBe(window);
  expect(calls[1][1]).toMatchObject({ defaultPath: "tern.ribband.json" });
});
