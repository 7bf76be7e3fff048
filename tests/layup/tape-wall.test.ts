import { describe, expect, it } from "vitest";
import { around } from "../../core/layup/rim-marks.ts";
import { placeOnTape } from "../../core/layup/tape.ts";
import { flatFaces } from "../../core/layup/tape-treads.ts";
import { unrollWall } from "../../core/layup/tape-wall.ts";
import { zoneOnTape } from "../../core/layup/tape-zones.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { basin, basinProject, demoGround, groundOf, laid, ledge, openGround } from "./ground.ts";

const t = 6;
const site = openGround(groundOf(basinProject()));
const wall = unrollWall(site);
/** Down the surface from the rim: the rim's half radius, then plumb to the cove, then half of its quarter turn. Closed form. */
const plainFrom = ((basin.rim - t) * Math.PI) / 4;
const plainTo = plainFrom + basin.depth - basin.cove - basin.rim;
const quarter = ((basin.cove + t) * Math.PI) / 2;
const footDown = plainTo + quarter / 2;
const rim = 2 * (basin.length + basin.width - 4 * basin.corner) + 2 * Math.PI * basin.corner;
/** Rim station of the middle of the right side. */
const right = basin.width / 2 - basin.corner + (Math.PI / 2) * basin.corner + basin.length / 2 - basin.corner;

const pairs = (line: Float64Array) =>
  Array.from({ length: line.length / 2 }, (_, i) => [line[2 * i], line[2 * i + 1]] as const);

function shoelace(outline: Float64Array): number {
  const points = pairs(outline);
  const twice = points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length];
    return sum + x * v - u * y;
  }, 0);
  return Math.abs(twice) / 2;
}

describe("the unrolled wall of a plumb basin", () => {
  it("is as long as the rim, and its foot lies where the closed form has it all round", () => {
    expect(wall.rimLengthMm).toBeCloseTo(rim, 6);
    const points = wall.foot.flatMap(({ line }) => pairs(line));
    for (const [, down] of points) expect(Math.abs(down - footDown)).toBeLessThan(0.02);
    const along = points.map(([at]) => at);
    expect(Math.min(...along)).toBeCloseTo(0, 2);
    expect(Math.max(...along)).toBeCloseTo(rim, 2);
    for (const { line, points } of wall.foot) {
      expect(points.length / 3).toBe(line.length / 2);
      for (let i = 0; i < points.length / 3; i++) {
        const under = nearest(site.shell.outline.chain, points[3 * i], points[3 * i + 1]);
        expect(Math.abs(around(under.station - line[2 * i], rim))).toBeLessThan(0.02);
      }
    }
    expect(wall.foot.map(({ face, feature }) => `${face} ${feature}`)).toEqual(["floor "]);
  });

  it("tells where the cove begins and ends", () => {
    expect(wall.cove.length).toBeGreaterThan(40);
    for (const { beginsMm, endsMm } of wall.cove) {
      expect(Math.abs(beginsMm - plainTo)).toBeLessThan(0.02);
      expect(Math.abs(endsMm - plainTo - quarter)).toBeLessThan(0.02);
    }
  });

  it("keeps the corners that a strip cannot lie on", () => {
    const tight = unrollWall(
      openGround(
        groundOf(
          basinProject({ outline: { kind: "rectangle", length: 5000, width: 2600, cornerRadius: 300 } }),
        ),
      ),
    );
    const [from, to] = [1000, 1000 + 150 * Math.PI];
    expect(tight.corners).toHaveLength(4);
    expect(tight.corners[0].from).toBeCloseTo(from, 6);
    expect(tight.corners[0].to).toBeCloseTo(to, 6);
  });

  it("puts a fitting at its place, as high as it is along the wall", () => {
    const at = { wall: { run: "right", part: 0.5 }, depth: 400 };
    const fitted = basinProject({
      fittings: [{ id: "light", kind: "light", at, width: 220, height: 200, clearance: 100 }],
    });
    const [light] = unrollWall(openGround(groundOf(fitted))).fittings;
    expect(light.alongMm).toBeCloseTo(right, 6);
    expect(Math.abs(light.downMm - (plainFrom + 400 - basin.rim))).toBeLessThan(0.02);
    expect(light.halfHeightMm).toBeCloseTo(100, 2);
  });
});

describe("zones on the unrolled wall", () => {
  it("a rib is a strip from its top to its foot about its place", () => {
    const rib = laid(site, {
      kind: "rib",
      id: "rib",
      at: { run: "right", part: 0.5 },
      top: 60,
      foot: { kind: "to", clear: 30 },
      material: "rib-strip",
    });
    const [{ outline }] = zoneOnTape(site, rib);
    const box = pairs(outline);
    expect(box[0][0]).toBeCloseTo(right - 50, 6);
    expect(box[1][0]).toBeCloseTo(right + 50, 6);
    expect(box[0][1]).toBe(60);
    expect(box[2][1]).toBeCloseTo(plainTo - 30, 2);
  });

  it("a band on a straight side keeps its area, and its edges lie a half width from the foot line", () => {
    const foot = site.transitions.find(({ id }) => id === "foot")!;
    // The middle metre of the right side, in parts of the foot line.
    const middle = foot.curve.length * (right / rim);
    const stretch = { from: (middle - 500) / foot.curve.length, to: (middle + 500) / foot.curve.length };
    const band = laid(site, {
      kind: "band",
      id: "band",
      on: "foot",
      stretch,
      halfWidths: [400, 250],
      plies: 1,
      material: "woven-800",
    });
    const [{ outline, edges }] = zoneOnTape(site, band);
    for (const [, down] of pairs(edges![0])) expect(down).toBeCloseTo(footDown - 400, 1);
    for (const [, down] of pairs(edges![1])) expect(down).toBeCloseTo(footDown + 250, 1);
    expect(Math.abs(shoelace(outline) / band.areaMm2 - 1)).toBeLessThan(1e-4);
    const along = pairs(outline).map(([at]) => at);
    expect(Math.max(...along) - Math.min(...along)).toBeCloseTo(1000, 2);
  });

  it("a band all round runs on past the shallow centre without a jump", () => {
    const band = laid(site, {
      kind: "band",
      id: "foot",
      on: "foot",
      halfWidths: [300, 100],
      plies: 2,
      material: "woven-800",
    });
    const [{ line }] = zoneOnTape(site, band);
    const along = pairs(line).map(([at]) => at);
    for (let i = 1; i < along.length; i++) expect(along[i]).toBeGreaterThanOrEqual(along[i - 1]);
    expect(along[along.length - 1] - along[0]).toBeCloseTo(rim, 2);
  });

  it("a stiffener lies on the coping, above the rim", () => {
    const stiffener = laid(site, {
      kind: "stiffener",
      id: "s",
      run: "right",
      margin: 100,
      material: "rib-strip",
    });
    const [{ line, outline }] = zoneOnTape(site, stiffener);
    expect(line[2] - line[0]).toBeCloseTo(basin.length - 2 * basin.corner - 200, 2);
    expect(Math.max(...pairs(outline).map(([, down]) => down))).toBeLessThan(0);
  });
});

describe("the tape of the demo projects", () => {
  // Slow and obvious beside fast: each point of the drawn foot read again on the true surface, off the kept points too.
  it.each(["whimbrel-9", "turnstone-7"])(
    "%s: the drawn foot lies within 3 mm of every point read from the shell",
    (name) => {
      const ground = openGround(demoGround(name));
      const drawn = unrollWall(ground);
      const foot = ground.transitions.find(({ id }) => id === "foot")!;
      const { points, stations } = foot.curve;
      const all = drawn.foot.map(({ line }) => pairs(line));
      for (let i = 5; i < stations.length; i += 37) {
        const { station, downMm } = placeOnTape(ground, points.subarray(3 * i, 3 * i + 3));
        const off = Math.min(...all.map((line) => distanceTo(line, station, downMm!, drawn.rimLengthMm)));
        expect(off, `${name} at ${station}`).toBeLessThan(3);
      }
    },
  );

  it("whimbrel-9: what stands against the wall is named by its feature", () => {
    const drawn = unrollWall(openGround(demoGround("whimbrel-9")));
    const features = new Set(drawn.foot.map(({ feature }) => feature));
    expect([...features].sort()).toEqual(["", "ledge", "seat", "steps"]);
  });
});

function distanceTo(
  line: readonly (readonly [number, number])[],
  x: number,
  y: number,
  turn: number,
): number {
  let best = Infinity;
  for (const shift of [-turn, 0, turn])
    for (let i = 1; i < line.length; i++) {
      const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
      const [ux, uy, vx, vy] = [bx - ax, by - ay, x + shift - ax, y - ay];
      const square = ux * ux + uy * uy;
      const part = square > 0 ? Math.min(1, Math.max(0, (ux * vx + uy * vy) / square)) : 0;
      best = Math.min(best, Math.hypot(vx - part * ux, vy - part * uy));
    }
  return best;
}

describe("a ledge laid flat", () => {
  const ground = openGround(groundOf(basinProject({ features: [ledge] })));
  const pad = laid(ground, { kind: "pad", id: "pad", on: "ledge/top", margin: 40, material: "core-sheet" });
  const webs = laid(ground, {
    kind: "gussets",
    id: "webs",
    under: "ledge/top",
    pitch: 500,
    margin: 150,
    reach: 200,
    drop: 200,
    material: "core-sheet",
  });
  const [face] = flatFaces(ground, [pad, webs]);

  it("has the longer way along, from side to side, and is bounded by the wall and its nose", () => {
    expect(face.id).toBe("ledge/top");
    expect(face.alongMm).toBeGreaterThan(face.acrossMm);
    expect(face.alongMm).toBeCloseTo(basin.width + 2 * t - 2 * (50 + t) * (1 - Math.SQRT1_2), 0);
    expect(face.bounds.map(({ id }) => id).sort()).toEqual(["ledge/top|ledge/riser", "wall|ledge/top"]);
  });

  it("carries its pad and webs in their true sizes, inside its bounds", () => {
    const [area] = face.parts.filter(({ zone }) => zone === "pad").map(({ outline }) => shoelace(outline));
    expect(Math.abs(area / pad.areaMm2 - 1)).toBeLessThan(1e-9);
    const web = face.parts.filter(({ zone }) => zone === "webs");
    expect(web).toHaveLength(webs.gussets.length);
    for (const { outline } of face.parts)
      for (const [along, across] of pairs(outline)) {
        expect(along).toBeGreaterThan(0);
        expect(along).toBeLessThan(face.alongMm);
        expect(across).toBeGreaterThan(-1);
        expect(across).toBeLessThan(face.acrossMm + 31);
      }
  });

  it("is seen from outside: turned, never mirrored against the tape of the wall", () => {
    // The wall at the shallow end lies at the far side of the face from its nose; along the tape there the rim runs to −y.
    const wallLine = pairs(face.bounds.find(({ id }) => id === "wall|ledge/top")!.line);
    const nose = pairs(face.bounds.find(({ id }) => id === "ledge/top|ledge/riser")!.line);
    const mean = (line: typeof nose) => line.reduce((sum, [, across]) => sum + across, 0) / line.length;
    expect(mean(wallLine)).toBeGreaterThan(mean(nose));
  });
});
