import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { kitCommand } from "../../core/cli/kit.ts";
import { pretendTerminal } from "./ribband.ts";
import { lostZone, smallProject } from "./small-project.ts";

test("a band wider than its roll ends in exit code 2; in a lot its own rolls count", {
  timeout: 120_000,
}, async () => {
  const place = mkdtempSync(join(tmpdir(), "ribband-uncut-"));
  try {
    const project = smallProject();
    const materials = project.materials.map((each) =>
      each.id === "woven-800" && each.kind === "woven" ? { ...each, rollWidth: 440 } : each,
    );
    const file = join(place, "narrow-roll.ribband.json");
    writeFileSync(file, JSON.stringify({ ...project, materials }));
    const kit = pretendTerminal();
    expect(await kitCommand(file, { shells: 1, out: undefined, json: true }, kit)).toBe(2);
    expect(JSON.parse(kit.out).cannotBeCut).toEqual([
      {
        zone: "foot",
        says: expect.stringMatching(/^\d+ mm wide, and .* comes 440 mm wide: cut it in 2 widths/),
      },
    ]);

    const lot = join(place, "week.ribband-lot.json");
    const stock = {
      rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75000 }],
      sheets: [],
      bars: [{ id: "bar", material: "rib-strip", length: 2400 }],
    };
    const models = [{ project: "narrow-roll.ribband.json", shells: 1 }];
    const cutting = { way: "hand" };
    writeFileSync(
      lot,
      JSON.stringify({ format: "ribband-lot", version: 1, name: "Week 14", models, cutting, stock }),
    );
    const terminal = pretendTerminal();
    expect(await kitCommand(lot, { shells: 1, out: undefined, json: true }, terminal)).toBe(0);
    expect(JSON.parse(terminal.out)).toMatchObject({ findings: [], cannotBeCut: [], adrift: [] });

    // What of a model is adrift is told where the exit code says that something is.
    writeFileSync(file, JSON.stringify(smallProject([lostZone])));
    const withLost = pretendTerminal();
    expect(await kitCommand(lot, { shells: 1, out: undefined, json: true }, withLost)).toBe(2);
    expect(JSON.parse(withLost.out).adrift).toEqual([
      { model: "Knot 5", says: expect.stringMatching(/^zone bench-rise is adrift: /) },
    ]);
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
});
