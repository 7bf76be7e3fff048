import { describe, expect, it } from "vitest";
import { nearestMark, rimMarks } from "../../core/layup/rim-marks.ts";
import { tapeAt } from "../../core/layup/tape.ts";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import { offsetField } from "../../core/surface/field.ts";
import { demoProject } from "../project/demo-files.ts";
import { basin, basinProject, shellOf } from "./ground.ts";

const t = 6;
const shell = shellOf(basinProject());
const field = offsetField(shell.field, t);
/** Down the surface from the rim to where the plain wall begins. */
const rimArc = ((basin.rim - t) * Math.PI) / 4;

describe("a tape reading", () => {
  it("on the wall is the rim's half radius and the plumb way down", () => {
    const { from, alongMm, downMm } = tapeAt(shell, field, [1000, -basin.width / 2 - t, -500]);
    expect(from).toBe("shallow-right");
    expect(alongMm).toBeCloseTo(1000 - basin.corner + (Math.PI / 4) * basin.corner, 6);
    expect(Math.abs(downMm! - (rimArc + 500 - basin.rim))).toBeLessThan(0.01);
  });

  it("on the floor goes down the wall, round the cove and on, from the nearest wall", () => {
    const reading = tapeAt(shell, field, [2000, 700, -basin.depth - t]);
    const wall = basin.depth - basin.cove - basin.rim;
    const floor = basin.width / 2 - 700 - basin.cove;
    const exact = rimArc + wall + ((basin.cove + t) * Math.PI) / 2 + floor;
    expect(Math.abs(reading.downMm! - exact)).toBeLessThan(0.02);
    expect(reading.from).toBe("shallow-left");
    expect(reading.alongMm).toBeLessThan(0);
  });

  it("starts at the centre of an end where that is nearest, and reads nothing down on the coping", () => {
    const end = tapeAt(shell, field, [-t, 100, -300]);
    expect(end.from).toBe("shallow centre");
    // Counter-clockwise past the shallow centre the rim runs to the right, so the left lies behind.
    expect(end.alongMm).toBeCloseTo(-100, 6);
    expect(tapeAt(shell, field, [-80, 0, -t]).downMm).toBeNull();
  });
});

describe("the rim's marks", () => {
  const marksOf = (outline: ShellSpec["outline"]) => {
    const built = buildOutline(outline);
    if (!built.ok) throw new Error(built.refusals[0].why);
    return { marks: rimMarks(built.outline, { outline }), outline: built.outline };
  };

  it("are the ends' centres and the corners' middles", () => {
    const { marks } = marksOf({ kind: "rectangle", length: 6000, width: 3000, cornerRadius: 500 });
    const names = [
      "shallow centre",
      "deep centre",
      "shallow-right",
      "deep-right",
      "deep-left",
      "shallow-left",
    ];
    expect(marks.map(({ name }) => name)).toEqual(names);
    const quarter = (Math.PI / 2) * 500;
    expect(marks[1].station).toBeCloseTo(1000 + quarter + 5000 + quarter + 1000, 6);
    expect(marks[2].station).toBeCloseTo(1000 + quarter / 2, 6);
  });

  it("are on a stadium the ends' centres alone, whose half circles are no corners", () => {
    const { marks } = marksOf({ kind: "stadium", length: 6000, width: 3000 });
    expect(marks.map(({ name }) => name)).toEqual(["shallow centre", "deep centre"]);
  });

  it("are on a freeform outline the points that it was drawn through", () => {
    const { outline } = demoProject("turnstone-7").shell;
    const { marks } = marksOf(outline);
    expect(marks.map(({ name }) => name)).toContain("start of span-3");
  });

  it("are read the short way round", () => {
    const { marks, outline } = marksOf({ kind: "rectangle", length: 6000, width: 3000, cornerRadius: 500 });
    const { length } = outline.chain;
    expect(nearestMark(marks, length - 30, length)).toEqual({ from: "shallow centre", alongMm: -30 });
    for (let s = 0; s < length; s += 97) {
      const { from, alongMm } = nearestMark(marks, s, length);
      const mark = marks.find(({ name }) => name === from)!;
      const there = mark.station + alongMm;
      expect(there - Math.floor(there / length) * length).toBeCloseTo(s, 6);
    }
  });
});
