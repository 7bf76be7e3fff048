import { fc, test as property } from "@fast-check/vitest";
import type { MenuItemConstructorOptions } from "electron";
import { describe, expect, test } from "vitest";
import { closeQuestion } from "../../electron/desktop/close-question.ts";
import { menuTemplate } from "../../electron/desktop/menu.ts";
import { placeOn, smallest } from "../../electron/desktop/window-place.ts";
import { appFolder } from "../../electron/files/app-folder.ts";
import { namedFile } from "../../electron/files/named-file.ts";
import { type MenuCommand, menuCommands } from "../../renderer/document/host/contract.ts";

describe("closing with unsaved work", () => {
  const window = () => {
    const told: string[] = [];
    const question = closeQuestion(
      () => told.push("ask"),
      () => told.push("close"),
      () => told.push("stayed"),
    );
    const isHeldBack = () => {
      let held = false;
      question.closing({ preventDefault: () => (held = true) });
      return held;
    };
    return { question, told, isHeldBack };
  };

  test("nothing unsaved: it closes at once", () => {
    const { isHeldBack, told } = window();
    expect(isHeldBack()).toBe(false);
    expect(told).toEqual([]);
  });

  test("the page is asked once, however often the person clicks, and its yes closes the window", () => {
    const { question, isHeldBack, told } = window();
    question.setChanged(true);
    expect([isHeldBack(), isHeldBack(), isHeldBack()]).toEqual([true, true, true]);
    question.answer(true);
    expect(told).toEqual(["ask", "close"]);
    expect(isHeldBack()).toBe(false);
  });

  test("its no leaves the window, and the next try is asked about again", () => {
    const { question, isHeldBack, told } = window();
    question.setChanged(true);
    isHeldBack();
    question.answer(false);
    expect(isHeldBack()).toBe(true);
    expect(told).toEqual(["ask", "stayed", "ask"]);
  });

  test("a page that answers unasked closes nothing", () => {
    const { question, told } = window();
    question.setChanged(true);
    question.answer(true);
    expect(told).toEqual([]);
  });

  test("saved, or crashed, meanwhile: nobody needs to be asked", () => {
    const { question, isHeldBack } = window();
    question.setChanged(true);
    question.setChanged(false);
    expect(isHeldBack()).toBe(false);
  });
});

describe("where the window opens", () => {
  const screen = { x: 0, y: 25, width: 1920, height: 1055 };
  const second = { x: 1920, y: 0, width: 1280, height: 1024 };

  test("the first time in the middle of the main screen", () => {
    expect(placeOn([screen], null)).toEqual({ x: 240, y: 103, width: 1440, height: 900, maximised: false });
  });
  test("as it was left, on whichever screen", () => {
    const left = { x: 2000, y: 40, width: 1000, height: 700, maximised: true };
    expect(placeOn([screen, second], left)).toEqual(left);
  });
  test("in the middle of the main screen when the other was unplugged", () => {
    const left = { x: 2000, y: 40, width: 1000, height: 700, maximised: false };
    expect(placeOn([screen], left)).toEqual({ x: 460, y: 203, width: 1000, height: 700, maximised: false });
  });

  const side = fc.integer({ min: 640, max: 8000 });
  const at = fc.integer({ min: -20_000, max: 20_000 });
  const screens = fc.array(fc.record({ x: at, y: at, width: side, height: side }), {
    minLength: 1,
    maxLength: 3,
  });
  const anyPlace = fc.record({
    x: at,
    y: at,
    width: fc.integer({ min: 1, max: 20_000 }),
    height: fc.integer({ min: 1, max: 20_000 }),
    maximised: fc.boolean(),
  });
  property.prop([screens, fc.option(anyPlace)], { numRuns: 1000 })(
    "its title bar is always in reach, and it is never larger than its screen nor needlessly small",
    (screens, left) => {
      const { x, y, width, height } = placeOn(screens, left);
      const home = screens.find(
        (screen) =>
          Math.min(x + width, screen.x + screen.width) - Math.max(x, screen.x) >= 200 &&
          y >= screen.y &&
          y + 40 <= screen.y + screen.height &&
          width <= screen.width &&
          height <= screen.height,
      );
      expect(home).toBeDefined();
      expect(width).toBeGreaterThanOrEqual(Math.min(smallest.width, home!.width));
      expect(height).toBeGreaterThanOrEqual(Math.min(smallest.height, home!.height));
    },
  );
});

describe("the menu", () => {
  const recent = [{ handle: "disk-1", name: "tern & co.ribband.json", folder: "/home/ann" }];
  const flat = (items: readonly MenuItemConstructorOptions[]): MenuItemConstructorOptions[] =>
    items.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? flat(item.submenu) : [])]);
  const menu = (platform: NodeJS.Platform, files = recent) => {
    const told: string[] = [];
    const items = menuTemplate(platform, files, {
      command: (command) => told.push(command),
      openRecent: (handle) => told.push(handle),
    });
    return { items, all: flat(items), told };
  };

  test.each<NodeJS.Platform>(["linux", "win32", "darwin"])(
    "gives every command once on %s, each by its own item",
    (p) => {
      const { all, told } = menu(p);
      const commands = all.filter(({ id }) => id !== undefined);
      for (const { click } of commands) click!({} as never, undefined, {} as never);
      expect([...told].sort()).toEqual([...menuCommands].sort());
      expect(commands.map(({ id }) => id as MenuCommand)).toEqual(told);
    },
  );

  test.each<NodeJS.Platform>(["linux", "win32", "darwin"])("gives no key twice on %s", (platform) => {
    const keys = menu(platform).all.flatMap(({ accelerator }) => accelerator ?? []);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toContain("CmdOrCtrl+S");
  });

  test("quitting, settings and about stand where the platform has them", () => {
    const roles = (items: readonly MenuItemConstructorOptions[]) => flat(items).map(({ role }) => role);
    const mac = menu("darwin").items;
    expect(roles([mac[0]])).toEqual(expect.arrayContaining(["about", "services", "hide", "quit"]));
    expect(flat([mac[0]]).some(({ id }) => id === "settings")).toBe(true);
    expect(roles(mac)).toContain("windowMenu");
    const other = menu("linux").items;
    expect(other[0].label).toBe("&File");
    expect(roles([other[0]])).toContain("quit");
    expect(roles(other)).not.toContain("services");
  });

  test("recent files open; with none the list is grey; a name's & is no key", () => {
    const { all, told } = menu("linux");
    const item = all.find(({ label }) => label?.startsWith("tern"));
    expect(item?.label).toBe("tern && co.ribband.json – /home/ann");
    item!.click!({} as never, undefined, {} as never);
    expect(told).toEqual(["disk-1"]);
    expect(menu("linux", []).all.find(({ label }) => label === "Open recent")?.enabled).toBe(false);
  });
});

test("the app's folder is where each system keeps such things", () => {
  expect(appFolder("linux", "/home/ann", {})).toBe("/home/ann/.config/Ribband");
  expect(appFolder("linux", "/home/ann", { XDG_CONFIG_HOME: "/x" })).toBe("/x/Ribband");
  expect(appFolder("darwin", "/Users/ann", {})).toBe("/Users/ann/Library/Application Support/Ribband");
  expect(appFolder("win32", "/u", { APPDATA: "/u/roaming" })).toBe("/u/roaming/Ribband");
  expect(appFolder("linux", "/home/ann", { RIBBAND_FOLDER: "/tmp/r" })).toBe("/tmp/r");
});

test.each<[string[], string | undefined]>([
  [[], undefined],
  [["."], undefined],
  [["--inspect", "/app"], undefined],
  [["/app", "tern.ribband.json"], "/home/ann/tern.ribband.json"],
  [["/app", "/pools/TERN.JSON"], "/pools/TERN.JSON"],
  [["--config=x.json"], undefined],
  [["a.json", "b.json"], "/home/ann/b.json"],
])("of the command line %j the file is %o", (args, file) => {
  expect(namedFile(args, "/home/ann")).toBe(file);
});
