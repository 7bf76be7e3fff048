import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Download, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ribband } from "../cli/ribband.ts";
import { thinDunlin } from "../project/thin-dunlin.ts";
import { PATIENCE, windows } from "./windows.ts";

const SHELLS = 3;

const { open, address } = windows();
let place: string;
let page: Page;

beforeAll(() => {
  place = mkdtempSync(join(tmpdir(), "ribband-rooms-"));
  for (const name of ["mine", "shown"]) writeFileSync(fileOf(name), JSON.stringify(thinDunlin()));
});
afterAll(() => {
  rmSync(place, { recursive: true, force: true });
});

/** A project's file of this name. */
const fileOf = (name: string) => join(place, `${name}.ribband.json`);
const goTo = (room: string) => page.getByRole("button", { name: room, exact: true }).click();

async function downloaded(button: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all<[Promise<Download>, Promise<void>]>([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** Rows of the list that is open, as far as they are in sight: cells by the names of their columns. */
const rowsInSight = () =>
  page.locator('[role="row"]:has([data-column])').evaluateAll((rows) =>
    rows.map((row) => {
      const cells = [...row.querySelectorAll<HTMLElement>("[data-column]")];
      return Object.fromEntries(cells.map((cell) => [cell.dataset.column, cell.textContent]));
    }),
  );

const list = (name: string) =>
  page.getByRole("radiogroup", { name: "Lists of the kit" }).getByText(name).click();

interface KitJson {
  readonly zones: readonly { kind: string; lengthMm: number }[];
  readonly pieces: readonly {
    name: string;
    zone: string;
    lengthMm: number;
    areaM2: number;
    glassKg: number;
    quantity: number;
  }[];
  readonly strips: readonly { name: string; zone: string; lengthMm: number; quantity: number }[];
  readonly sheets: readonly { name: string; areaM2: number; quantity: number }[];
  readonly totals: readonly { material: string; pieces: number; areaM2: number; massKg: number }[];
}

test("with letters of twice the usual size, and in a window of half the size, nothing that is pressed is cut off or covered", {
  timeout: 240_000,
}, async () => {
  for (const [viewport, letters] of [
    [{ width: 1440, height: 900 }, "200%"],
    [{ width: 720, height: 450 }, "100%"],
  ] as const) {
    page = await open({ address: address(fileOf("shown")), viewport, reducedMotion: "reduce" });
    await page.evaluate((size) => {
      document.documentElement.style.fontSize = size;
    }, letters);
    for (const room of ["Drawing office", "Lay-up floor", "Cutting room", "Showroom"]) {
      await goTo(room);
      await page.waitForTimeout(300);
      expect(await page.evaluate(outOfReach), `${room}, letters of ${letters}`).toEqual([]);
    }
    await page.context().close();
  }
});

/** Runs in the page: buttons whose words run out of them, and those that are covered or off the window once they are scrolled to. */
function outOfReach(): string[] {
  return [...document.querySelectorAll<HTMLElement>("button")].flatMap((button) => {
    if (!button.checkVisibility({ visibilityProperty: true })) return [];
    const name = button.getAttribute("aria-label") ?? button.textContent ?? "";
    const faults: string[] = [];
    if (button.scrollWidth > button.clientWidth + 1) faults.push(`${name}: its words are cut`);
    button.scrollIntoView({ block: "nearest", inline: "nearest" });
    const { left, top, width, height } = button.getBoundingClientRect();
    const there = document.elementFromPoint(left + width / 2, top + height / 2);
    if (!there || !(button.contains(there) || there.contains(button))) {
      faults.push(`${name}: covered by ${there?.tagName} ${there?.className}`);
    }
    return faults;
  });
}

test("the cutting room shows and saves what the command line cuts from the saved file; panels stay as they were left", {
  timeout: 300_000,
}, async () => {
  const file = fileOf("mine");
  page = await open({ address: address(file) });
  const length = page.getByLabel("length", { exact: true });
  await length.fill("4200 mm");
  await length.press("Enter");
  await page.keyboard.press("Control+s");
  await page.getByText("all saved").waitFor();
  await goTo("Cutting room");
  const lot = page.getByLabel("shells in the lot");
  await lot.fill(String(SHELLS));
  await lot.press("Enter");
  await page.getByRole("heading", { name: `What ${SHELLS} shells take` }).waitFor();
  const save = page.getByRole("button", { name: "Save cut-list.csv" });
  await expect.poll(() => save.isEnabled(), { timeout: PATIENCE }).toBe(true);

  const out = join(place, "kit");
  const { out: said } = await ribband(
    "kit",
    file,
    "--shells",
    String(SHELLS),
    "--out",
    out,
    "--lists-only",
    "--json",
  );
  const kit: KitJson = JSON.parse(said);

  for (const { material, pieces, areaM2, massKg } of kit.totals) {
    const told = await page.locator(`[data-material="${material}"]`).textContent();
    expect(told).toContain(`${pieces} pieces`);
    expect(told).toContain(`${areaM2.toFixed(3)} m²`);
    expect(told).toContain(`${massKg.toFixed(2)} kg`);
  }
  const cloth = await rowsInSight();
  expect(cloth.length).toBeGreaterThan(8);
  cloth.forEach((row, i) => {
    const piece = kit.pieces[i];
    expect(row).toMatchObject({
      name: piece.name,
      ofLot: String(SHELLS),
      length: piece.lengthMm.toFixed(0),
      area: piece.areaM2.toFixed(3),
      mass: piece.glassKg.toFixed(2),
    });
  });
  // A piece of several places: pointed at, or gone to by keys, it is read whole below the table.
  const at = kit.pieces.findIndex(({ quantity }) => quantity > 1);
  const several = kit.pieces[at];
  const scrolled = (to: number) =>
    page.getByRole("grid", { name: /^Cloth/ }).evaluate((table, top) => {
      table.scrollTop = top;
    }, to);
  await scrolled(28 * at);
  const told = page.locator("strong", { hasText: several.name }).locator("..");
  await page.getByRole("rowheader", { name: several.name, exact: true }).hover();
  await expect.poll(() => told.textContent()).toMatch(/ to .*; .* to .*; its band begins .* down$/);
  await scrolled(0);
  await page.getByRole("rowheader", { name: kit.pieces[0].name, exact: true }).click();
  await page.mouse.move(5, 5);
  await page.keyboard.press("ArrowDown");
  await page.locator("strong", { hasText: kit.pieces[1].name }).waitFor();
  const files = [
    ["Cloth", "cut-list.csv"],
    ["Strips", "strips.csv"],
    ["Sheets", "sheets.csv"],
    ["Totals", "totals.csv"],
  ];
  for (const [name, csv] of files) {
    await list(name);
    const { name: called, bytes } = await downloaded(`Save ${csv}`);
    expect(called).toBe(csv);
    expect(bytes.equals(readFileSync(join(out, csv))), csv).toBe(true);
    await page.getByText(`${csv} is saved`).waitFor();
  }
  await list("Strips");
  await expect.poll(async () => (await rowsInSight())[0]?.name).toBe(kit.strips[0].name);
  (await rowsInSight()).forEach((row, i) => {
    expect(row).toMatchObject({
      name: kit.strips[i].name,
      length: kit.strips[i].lengthMm.toFixed(1),
      ofLot: String(SHELLS * kit.strips[i].quantity),
    });
  });

  // Ordered by length, longest first: two presses on the head.
  await page.getByRole("columnheader", { name: "length" }).click();
  await page.getByRole("columnheader", { name: "length" }).click();
  const longest = Math.max(...kit.strips.map(({ lengthMm }) => lengthMm));
  await expect.poll(async () => (await rowsInSight())[0]?.length).toBe(longest.toFixed(1));

  // A row lights up its zone, with all its rows; the totals of that choice stay those of the kit.
  const [first] = await rowsInSight();
  const zone = kit.strips.find(({ name }) => name === first.name)?.zone;
  await page
    .getByRole("row")
    .filter({ hasText: String(first.name) })
    .first()
    .click();
  const inked = page.locator('[role="row"][aria-selected="true"]');
  await expect.poll(() => inked.count()).toBeGreaterThan(0);
  for (const name of await inked.locator('[data-column="name"]').allTextContents())
    expect(kit.strips.find((strip) => strip.name === name)?.zone).toBe(zone);
  await expectPanelsKept();
});

describe("one visit, in a small window", () => {
  beforeAll(async () => {
    page = await open({ address: address(fileOf("shown")), viewport: { width: 1024, height: 640 } });
  }, PATIENCE);

  test("no figure of the cutting list is cut off in feet and inches", {
    timeout: 120_000,
  }, async () => {
    const write = async (lengths: string) => {
      await page.getByRole("button", { name: /Lengths in/ }).click();
      await page.getByRole("option", { name: lengths, exact: true }).click();
    };
    await write("ft in");
    await goTo("Cutting room");
    const lengths = page.locator('[role="rowgroup"] [data-column="length"]');
    await lengths.getByText(/'.*\//).first().waitFor();
    const cut = await page
      .locator("[data-column][data-right]")
      .evaluateAll((cells) =>
        cells.filter((cell) => cell.scrollWidth > cell.clientWidth).map((cell) => cell.textContent),
      );
    // The setting is kept, and the other tests read millimetres.
    await write("mm");
    expect(cut).toEqual([]);
  });

  test("the showroom shows the command line's figures, one kind at a time, and saves a picture of twice the size", {
    timeout: 240_000,
  }, async () => {
    await goTo("Showroom");
    await page.getByRole("heading", { level: 1, name: "Dunlin 4" }).waitFor();
    const file = fileOf("shown");
    const [measure, kit] = await Promise.all(
      [
        ["measure", file, "--json"],
        ["kit", file, "--json"],
      ].map(async (args) => JSON.parse((await ribband(...args)).out)),
    );
    await page
      .locator('[data-figure="water"]')
      .getByText(`${measure.shell.volumeToWaterM3.toFixed(2)} m³`)
      .waitFor();
    await page
      .locator('[data-figure="surface"]')
      .getByText(`${measure.shell.areaM2.toFixed(3)} m²`)
      .waitFor();
    await page.getByText("greatest depth, after the radii").waitFor();
    const ribsMm = (kit as KitJson).zones
      .filter(({ kind }) => kind === "rib" || kind === "rib-row")
      .reduce((sum, { lengthMm }) => sum + lengthMm, 0);
    await page
      .locator("label", { hasText: "Ribs" })
      .getByText(`${(ribsMm / 1000).toFixed(3)} m`)
      .waitFor();

    await page.getByText("Outside", { exact: true }).click();
    const bare = await downloaded("Save a picture");
    expect(bare.name).toBe("dunlin-4.png");
    const { width, height } = await page.locator("canvas").evaluate(({ clientWidth, clientHeight }) => ({
      width: clientWidth,
      height: clientHeight,
    }));
    expect(sizeOfPng(bare.bytes)).toEqual([2 * width, 2 * height]);
    await page.getByText("dunlin-4.png is saved").waitFor();

    const bands = page.getByRole("switch", { name: /^Woven bands/ });
    const why = page.getByText("the cloth spreads the strain");
    expect(await why.count()).toBe(0);
    await bands.focus();
    await page.keyboard.press("Space");
    await why.waitFor();
    const dressed = await downloaded("Save a picture");
    // The weave takes more bytes than the bare laminate.
    expect(dressed.bytes.length).toBeGreaterThan(1.1 * bare.bytes.length);
  });

  test("the showroom turns only on request, and not at all for those who ask for stillness", {
    timeout: 240_000,
  }, async () => {
    await goTo("Showroom");
    await page.locator('[data-figure="water"]').getByText("m³").waitFor();
    const seen = () => page.locator("canvas").screenshot();
    const rests = async () => {
      const before = await seen();
      await page.waitForTimeout(400);
      return (await seen()).equals(before);
    };
    await expect.poll(rests, { timeout: PATIENCE }).toBe(true);
    const turn = page.getByRole("button", { name: "Turn slowly" });
    await turn.click();
    await expect.poll(rests, { timeout: PATIENCE }).toBe(false);
    await turn.click();
    await expect.poll(rests, { timeout: PATIENCE }).toBe(true);
    await page.emulateMedia({ reducedMotion: "reduce" });
    await turn.waitFor({ state: "detached" });
  });

  test("the cutting room turns to the pieces of a zone that is picked in the scene, and says when nothing is laid up", {
    timeout: 240_000,
  }, async () => {
    await goTo("Cutting room");
    await page.getByRole("radio", { name: /^Totals/ }).waitFor();
    await list("Totals");
    await expect
      .poll(() => page.getByRole("button", { name: "Save totals.csv" }).isEnabled(), { timeout: PATIENCE })
      .toBe(true);
    const canvas = await page.locator("canvas").boundingBox();
    if (!canvas) throw new Error("The scene is not on screen.");
    const inked = page.locator('[role="row"][aria-selected="true"]');
    // The plug fills the middle of the picture: somewhere on the way down its near side lies a zone.
    for (let i = 0; i < 24 && (await inked.count()) === 0; i++) {
      await page.mouse.click(canvas.x + canvas.width * 0.5, canvas.y + canvas.height * (0.3 + 0.018 * i));
      await page.waitForTimeout(60);
    }
    expect(await inked.count()).toBeGreaterThan(0);
    expect(await page.getByRole("radio", { name: /^Totals/ }).getAttribute("aria-checked")).toBe("false");

    await page.getByRole("button", { name: "Back to the start" }).click();
    await expect.poll(() => page.title()).toBe("Ribband");
    await page.getByRole("button", { name: "Start from a plain shell" }).click();
    await page.getByText("Nothing is laid up yet").first().waitFor({ timeout: 30000 });
    await page.getByText("Nothing is laid up yet, so there is nothing to cut.").first().waitFor();
    await page.getByRole("button", { name: "Go to the lay-up floor" }).waitFor();
  });
});

/** Sizes of panels are those of before after loading the page again, each room with its own. */
async function expectPanelsKept(): Promise<void> {
  let kept = 0;
  page.on("response", (response) => {
    if (response.url().endsWith("/host/setSettings")) kept++;
  });
  const heightOfFoot = async () =>
    Math.round((await page.locator('[data-panel][id="cutting-room foot"]').boundingBox())?.height ?? 0);
  const border = page.getByRole("separator", { name: "Height of the foot" });
  const before = await heightOfFoot();
  await border.focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowDown");
  await expect.poll(heightOfFoot).toBeLessThan(before - 20);
  // Loaded again only when the last of the sizes was taken down: a busy machine takes its time with that.
  await expect
    .poll(
      async () => {
        const before = kept;
        await page.waitForTimeout(400);
        return before > 0 && kept === before;
      },
      { timeout: PATIENCE },
    )
    .toBe(true);
  const left = await heightOfFoot();
  await page.reload();
  await goTo("Cutting room");
  await expect.poll(heightOfFoot, { timeout: PATIENCE }).toBe(left);
  // Another room has a foot of its own height.
  await goTo("Drawing office");
  await goTo("Cutting room");
  await expect.poll(heightOfFoot).toBe(left);
}

/** Width and height of a PNG: the first two figures of its first chunk (ISO/IEC 15948, 11.2.2). */
const sizeOfPng = (bytes: Buffer) => [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
