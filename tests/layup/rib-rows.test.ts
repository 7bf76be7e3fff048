import { describe, expect, it } from "vitest";
import type { LaidRibs } from "../../core/layup/laid.ts";
import type { ShellSpec, ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, groundOf, laid, ledge, openGround, siteOf } from "./ground.ts";

type RowSpec = Extract<ZoneSpec, { kind: "rib-row" }>;
type Fitting = ShellSpec["fittings"][number];

const row: RowSpec = {
  kind: "rib-row",
  id: "ribs",
  from: { run: "right", part: 0 },
  to: { run: "right", part: 1 },
  pitch: 600,
  clear: 150,
  top: 60,
  foot: { kind: "over", onto: 150 },
  material: "rib-strip",
};
/** The right side begins at this rim station and is this long; a strip is 100 mm wide. */
const start = basin.width / 2 - basin.corner + (Math.PI / 2) * basin.corner;
const side = basin.length - 2 * basin.corner;
const half = 50;

const along = (zone: LaidRibs) => zone.ribs.map(({ rimStationMm }) => rimStationMm - start);

const fitting = (id: string, at: number, more: Partial<Fitting> = {}): Fitting => ({
  id,
  kind: "light",
  at: { wall: { run: "right", distance: at }, depth: 600 },
  width: 200,
  height: 200,
  clearance: 80,
  ...more,
});

describe("a row of ribs", () => {
  it("stands at the pitch, evenly between the corners and clear of them", () => {
    const zone = laid(siteOf(basinProject()), row);
    const room = side - 2 * (row.clear + half);
    const count = Math.floor(room / 600) + 1;
    const first = row.clear + half + (room - (count - 1) * 600) / 2;
    const stations = along(zone);
    expect(stations.length).toBe(count);
    stations.forEach((at, i) => {
      expect(at).toBeCloseTo(first + 600 * i, 6);
    });
    expect(zone.doubts).toEqual([]);
    expect(zone.lengthMm).toBeCloseTo(
      zone.ribs.reduce((sum, rib) => sum + rib.cutLengthMm, 0),
      9,
    );
  });

  it("goes over the cove where its strip bends to it and stops above a tighter radius, which it says once", () => {
    const zone = laid(siteOf(basinProject({ features: [ledge] })), row);
    const bevel = 20 / Math.tan((40 * Math.PI) / 180);
    const [onLedge, onFloor] = [
      zone.ribs.filter(({ rimStationMm }) => rimStationMm < start + 900),
      zone.ribs.slice(-3),
    ];
    expect(onLedge.length).toBeGreaterThan(0);
    // The wall above the ledge is plain down to its radius: 400 mm less 50, as the tape reads from the middle of the rim's radius.
    const down = ((basin.rim - 6) * Math.PI) / 4 + 400 - 50 - basin.rim;
    for (const rib of onLedge) {
      expect(Math.abs(rib.footDownMm - (down - Math.ceil(bevel)))).toBeLessThan(0.05);
      expect(rib.leastBendMm).toBe(Infinity);
    }
    for (const rib of onFloor) expect(Math.abs(rib.leastBendMm - (basin.cove + 6))).toBeLessThan(0.5);
    const said = zone.doubts.filter((doubt) => doubt.includes("stopped above"));
    expect(said).toEqual([
      expect.stringMatching(
        /stopped above ledge\/top: over its radius it would be bent to 56 mm, and .* bends to 120 mm/,
      ),
    ]);
  });

  it("keeps a strip's width and the clearance off a fitting: it moves, or is left out and names it", () => {
    const plain = along(laid(siteOf(basinProject()), row));
    const [, second, third] = plain;
    // In the way of the second rib only, by 40 mm more than its clear room: it moves away by as much.
    const room = 100 + 150 + half;
    const moved = laid(siteOf(basinProject({ fittings: [fitting("light", second + room - 40)] })), row);
    const stations = along(moved);
    expect(stations.length).toBe(plain.length);
    expect(second - stations[1]).toBeCloseTo(40, 1);
    expect(moved.doubts.join()).toMatch(/rib 2: moved by 40 mm, clear of light \(200 × 200 mm\)/);
    // Wider than the pitch leaves room for: left out, the others keep their numbers.
    const wide = fitting("skimmer", third, { width: 800 });
    const without = laid(siteOf(basinProject({ fittings: [wide] })), row);
    expect(without.ribs.map(({ name }) => name)).not.toContain("3");
    expect(without.ribs.at(-1)?.name).toBe(String(plain.length));
    expect(without.doubts.join()).toMatch(
      /rib 3 is left out: it would stand too near to skimmer \(800 × 200 mm\)/,
    );
    for (const at of along(without)) expect(Math.abs(at - third)).toBeGreaterThanOrEqual(400 + 150 + half);
  });

  it("does not mind a fitting that lies wholly above its top or below its foot", () => {
    const [, second] = along(laid(siteOf(basinProject()), row));
    const high = fitting("skimmer", second, {
      height: 60,
      at: { wall: { run: "right", distance: second }, depth: 100 },
    });
    const low: RowSpec = { ...row, top: 400 };
    expect(laid(siteOf(basinProject({ fittings: [high] })), low).doubts).toEqual([]);
    expect(laid(siteOf(basinProject({ fittings: [high] })), row).doubts.length).toBe(1);
  });

  it("runs down to the ledge where there is one, and stands clear of its end", () => {
    const site = openGround(groundOf(basinProject({ features: [ledge] })));
    const zone = laid(site, row);
    // The ledge's riser meets the side wall about 1500 mm from the shallow end.
    const end = 1500 - basin.corner;
    const lengths = zone.ribs.map((rib, i) => [along(zone)[i], rib.surfaceLengthMm] as const);
    for (const [at, length] of lengths) {
      expect(Math.abs(at - end)).toBeGreaterThan(row.clear + half);
      expect(length > 1000).toBe(at > end);
    }
    expect(lengths.filter(([at]) => at < end).length).toBeGreaterThan(0);
  });

  it("leaves out ribs where a ledge leaves too little wall, and is adrift where it is so everywhere", () => {
    const high = { ...ledge, depth: 150 };
    const site = openGround(groundOf(basinProject({ features: [high] })));
    const zone = laid(site, row);
    expect(zone.doubts.join()).toMatch(/rib 1 is left out: .*ledge\/top, less than the strip's width/);
    expect(() =>
      laid(site, { ...row, from: { run: "shallow", part: 0 }, to: { run: "shallow", part: 1 } }),
    ).toThrow(/No rib of the row finds a place.*ledge\/top/);
  });

  it("keeps clear of a corner where it has grown with depth", () => {
    const tight = basinProject({
      outline: { kind: "rectangle", length: 5000, width: 2600, cornerRadius: 150 },
      draftDeg: 3,
    });
    const site = siteOf(tight);
    const zone = laid(site, row);
    const draft = Math.tan((3 * Math.PI) / 180);
    // Where the cove begins the wall stands `inset` inside the rim, and its corner has grown to hold draft and cove.
    const need = basin.depth * draft + basin.cove / Math.cos((3 * Math.PI) / 180);
    const inset = (basin.depth - basin.cove) * draft;
    const first = zone.ribs[0].rimStationMm - (basin.width / 2 - 150 + (Math.PI / 2) * 150);
    expect(first).toBeGreaterThan(need + inset - 150 + row.clear + half - 30);
    for (const { curve } of zone.ribs) {
      for (let i = 0; i < curve.stations.length; i++)
        expect(Math.abs(curve.normals[3 * i])).toBeLessThan(1e-6);
    }
  });

  it("goes round a corner and counts on", () => {
    const zone = laid(siteOf(basinProject()), { ...row, to: { run: "deep", part: 1 } });
    const right = laid(siteOf(basinProject()), row);
    const deep = laid(siteOf(basinProject()), {
      ...row,
      from: { run: "deep", part: 0 },
      to: { run: "deep", part: 1 },
    });
    expect(zone.ribs.length).toBe(right.ribs.length + deep.ribs.length);
    expect(zone.ribs.map(({ name }) => name)).toEqual(zone.ribs.map((_, i) => String(i + 1)));
  });
});
