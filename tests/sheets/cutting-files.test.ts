import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, test } from "vitest";
import { cuttingFiles } from "../../core/sheets/cutting-files.ts";
import { markerPages } from "../../core/sheets/marker-pages.ts";
import { papers, roomOn } from "../../core/sheets/paper/page.ts";
import { pieceCards } from "../../core/sheets/piece-cards.ts";
import { auditDxf, auditor, withoutAuditor } from "./paper/dxf-auditor.ts";
import { fonts } from "./paper/fonts.ts";
import { areaOf, readDxf } from "./paper/read-dxf.ts";
import { sampleLot, sampleModel } from "./sample-lot.ts";

const one = sampleLot([sampleModel("Whimbrel 9", 2)], "hand");
const two = sampleLot([sampleModel("Whimbrel 9", 2), sampleModel("Turnstone 7", 1)], "table");
const options = { fonts, paper: "a4", templates: "full", labels: "a4-14" } as const;
const files = cuttingFiles(one, options);
const filesOfTwo = cuttingFiles(two, options);

const textOf = (name: string) => {
  const found = files.get(name);
  if (typeof found !== "string") throw new Error(`${name} is no text`);
  return found;
};

/** The words of each page of a PDF, in the order in which they were set. */
async function wordsOf(bytes: string | Uint8Array | undefined): Promise<string[]> {
  if (!(bytes instanceof Uint8Array)) throw new Error("no PDF");
  const file = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const pages: string[] = [];
  for (let i = 1; i <= file.numPages; i++) {
    const { items } = await (await file.getPage(i)).getTextContent();
    pages.push(items.map((item) => ("str" in item ? item.str : "")).join(" "));
  }
  return pages;
}

/** Area of what lies on each marker, by the packing's own outlines. */
function placedAreas(lot: typeof one): Map<string, number[]> {
  return new Map(
    lot.markers.flatMap(({ material, plan }) =>
      plan.markers.map(({ placements }, i): [string, number[]] => [
        `markers/${material}-${i + 1}.dxf`,
        placements.map(({ outline }) => {
          const xs = Array.from(outline).filter((_, k) => k % 2 === 0);
          const ys = Array.from(outline).filter((_, k) => k % 2 === 1);
          return areaOf({ type: "", layer: "", vertices: xs.map((x, k) => ({ x, y: ys[k] })) });
        }),
      ]),
    ),
  );
}

describe("the files that the cutting room takes to the table", () => {
  test("have names that tell what they are", () => {
    expect([...files.keys()]).toEqual([
      ...["woven-600-1", "woven-800-1", "core-sheet-1"].flatMap((name) =>
        ["dxf", "svg", "pdf"].map((kind) => `markers/${name}.${kind}`),
      ),
      "sheets.pdf",
      "strips.pdf",
      "templates/foot-1a.pdf",
      "templates/gussets-1.pdf",
      "templates/pad-seat-1.pdf",
      "labels.pdf",
    ]);
    expect([...filesOfTwo.keys()]).toContain("templates/turnstone-7-foot-1a.pdf");
  });

  test("are the same, byte for byte, at every run", () => {
    const again = cuttingFiles(sampleLot([sampleModel("Whimbrel 9", 2)], "hand"), options);
    expect([...again.keys()]).toEqual([...files.keys()]);
    for (const [name, content] of files) expect(again.get(name), name).toEqual(content);
  });

  test("each PDF says on every page that lengths are in mm and the first shell is measured", async () => {
    for (const [name, content] of files) {
      if (!name.endsWith(".pdf")) continue;
      for (const page of await wordsOf(content)) {
        expect(page, name).toContain("Lengths in mm.");
        expect(page, name).toMatch(/Measure the first shell .* local codes/);
      }
    }
  });

  test("each marker's DXF reads back with every piece as a closed outline of its area", () => {
    for (const [lot, own] of [
      [one, files],
      [two, filesOfTwo],
    ] as const)
      for (const [name, areas] of placedAreas(lot)) {
        const { header, entities } = readDxf(own.get(name) as string);
        expect(header.$INSUNITS).toBe(4);
        const cuts = entities.filter(({ layer }) => layer === "CUT");
        expect(cuts.length).toBe(areas.length);
        cuts.forEach((cut, i) => {
          expect(cut.shape).toBe(true);
          // Written to the thousandth of a mm.
          expect(Math.abs(areaOf(cut) - areas[i])).toBeLessThan(2);
        });
        const names = entities.filter(({ layer }) => layer === "TEXT").map(({ text }) => text);
        expect(names.length).toBe(areas.length);
      }
    // Two of the shaped piece for each of two shells, with its dart and three notches.
    const marks = readDxf(textOf("markers/woven-800-1.dxf")).entities.filter(({ layer }) => layer === "MARK");
    const [dart, notches, labels, arrow] = [3, 1 + 2 + 1, 2, 2];
    expect(marks.length).toBe(4 * (dart + notches + labels) + 8 * arrow);
    expect(marks.flatMap(({ text }) => (text ? [text] : [])).sort()).toEqual([
      ..."1111",
      "1b",
      "1b",
      "1b",
      "1b",
    ]);
  });

  test(`each marker's DXF stands the audit of an independent reader, areas read back equal${withoutAuditor}`, (context) => {
    if (!auditor) context.skip("Python with ezdxf is not on this machine");
    const placed = [...placedAreas(two)];
    const audits = auditDxf(placed.map(([name]) => filesOfTwo.get(name) as string));
    for (const [i, audit] of audits.entries()) {
      const [, areas] = placed[i];
      expect(audit).toMatchObject({ units: 4, errors: [], fixes: [] });
      expect(audit.areas.length).toBe(areas.length);
      audit.areas.forEach((area, k) => {
        expect(Math.abs(area - areas[k])).toBeLessThan(2);
      });
    }
  });

  test("each marker's SVG is as large as what is cut, its outlines the DXF's", () => {
    const text = textOf("markers/woven-800-1.svg");
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(text) ?? [];
    const [{ usedMm, widthMm }] = one.markers[1].plan.markers;
    expect(Number(width)).toBeCloseTo(usedMm, 2);
    expect(Number(height)).toBe(widthMm);
    const cut = text.slice(text.indexOf('<g id="cut">'), text.indexOf('<g id="mark">'));
    const rings = [...cut.matchAll(/points="([^"]+)"/g)].map(([, points]) =>
      points.split(" ").map((pair) => pair.split(",").map(Number)),
    );
    const dxf = readDxf(textOf("markers/woven-800-1.dxf")).entities.filter(({ layer }) => layer === "CUT");
    expect(rings).toEqual(
      dxf.map(({ vertices = [] }) => vertices.map(({ x, y }) => [x, Number((widthMm - y).toFixed(3))])),
    );
  });

  test("the drawing for cutting by hand numbers every cut, and lists every piece", async () => {
    const [marker] = one.markers[1].plan.markers;
    const pages = (await wordsOf(files.get("markers/woven-800-1.pdf"))).join(" ");
    marker.cuts.forEach((_, i) => {
      expect(pages).toMatch(new RegExp(`\\b${i + 1} {1,3}(across|along) the`));
    });
    for (const name of ["foot/1a", "foot/1b", "foot/2a"]) expect(pages).toContain(name);
    expect(pages).toMatch(/scale 1:\d+/);
    for (const page of await wordsOf(files.get("markers/woven-800-1.pdf")))
      expect(page).toMatch(/Section: .*\. Lane: /);
    expect(pages).toMatch(/100 mm on paper: \d+ mm/);
  });

  test("a marker without straight cuts is drawn in stretches, with the place of every piece", () => {
    const [marker] = two.markers[1].plan.markers;
    const cards = new Map(pieceCards(two.models).map((card) => [card.id, card]));
    const paper = papers.a4;
    const pages = markerPages(
      { marker: { ...marker, cuts: [] }, title: "Roll", cards },
      { paper, fonts, lot: "Week 14" },
    );
    expect(pages.length).toBeGreaterThan(1);
    const said = pages.flatMap(({ marks }) =>
      marks.flatMap((mark) => (mark.kind === "words" ? [mark.words] : [])),
    );
    // Several stretches go onto a page; none runs into the foot.
    const { low, high } = roomOn(paper);
    for (const { marks } of pages) {
      const panes = marks.filter((mark) => mark.kind === "pane");
      expect(panes.length).toBeGreaterThan(0);
      for (const pane of panes) expect([pane.y > low, pane.y + pane.height < high]).toEqual([true, true]);
    }
    expect(pages.flatMap(({ marks }) => marks.filter(({ kind }) => kind === "pane")).length).toBeGreaterThan(
      pages.length,
    );
    expect(said).toContain("cutting table");
    expect(said).not.toContain("cut");
    expect(said.join(" ")).not.toContain("Lane: ");
    for (const { piece } of marker.placements) expect(said).toContain(piece);
    expect(said.filter((text) => text === "→" || text === "←").length).toBe(marker.placements.length);
  });

  test("the numbers of two cuts close to one another stand apart", () => {
    const [marker] = two.markers[1].plan.markers;
    const cuts = [
      { stage: 1, fromMm: [1000, 0], toMm: [1000, marker.widthMm] },
      { stage: 2, fromMm: [0, 700], toMm: [1000, 700] },
      { stage: 4, fromMm: [0, 690], toMm: [1000, 690] },
    ] as const;
    const cards = new Map(pieceCards(two.models).map((card) => [card.id, card]));
    const [page] = markerPages(
      { marker: { ...marker, placements: [], cuts, usedMm: 1000 }, title: "Roll", cards },
      { paper: papers.a4, fonts, lot: "Week 14" },
    );
    const numbers = page.marks
      .flatMap((mark) => (mark.kind === "pane" ? mark.marks : [mark]))
      .flatMap((mark) => (mark.kind === "words" && mark.bold && /^\d$/.test(mark.words) ? [mark] : []));
    expect(numbers.map(({ words }) => words).sort()).toEqual(["1", "2", "3"]);
    // A ring is 3.4 mm wide.
    for (const a of numbers)
      for (const b of numbers) if (a !== b) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(3.4);
  });

  test("a piece too small for its name bears the letter that the list has it by", () => {
    const [marker] = two.markers[1].plan.markers;
    const cards = new Map(
      pieceCards(two.models).map((card) => [
        card.id,
        { ...card, called: `${card.called} ${"x".repeat(400)}` },
      ]),
    );
    const options = { paper: papers.a4, fonts, lot: "Week 14" };
    const said = markerPages({ marker: { ...marker, cuts: [] }, title: "Roll", cards }, options).map(
      ({ marks }) =>
        marks
          .flatMap((mark) => (mark.kind === "pane" ? mark.marks : [mark]))
          .flatMap((mark) => (mark.kind === "words" ? [mark.words] : [])),
    );
    // On the piece and in the list of each stretch.
    for (const page of said) expect(page.filter((text) => text === "a").length % 2).toBe(0);
    const letters = said.flat().filter((text) => /^[a-z]$/.test(text));
    expect(letters).toHaveLength(2 * marker.placements.length);
  });

  test("of a kit without pieces there are none", () => {
    const model = sampleModel("Knot 5", 1);
    const kit = { ...model.kit, pieces: [], strips: [], sheets: [], totals: [] };
    expect(cuttingFiles(sampleLot([{ ...model, kit }], "hand"), options).size).toBe(0);
  });

  test("the plan of strips has every strip with its length and where it begins", async () => {
    const pages = (await wordsOf(files.get("strips.pdf"))).join(" ");
    for (const { cuts, times } of one.strips[0].plan.bars) {
      expect(times).toBeGreaterThan(0);
      for (const { id, lengthMm, fromMm } of cuts) {
        expect(pages).toContain(id.replace("Whimbrel 9: ", ""));
        expect(pages).toContain(lengthMm.toFixed(1));
        expect(pages).toContain(fromMm.toFixed(1));
      }
    }
  });
});
