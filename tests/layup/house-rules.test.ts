import { describe, expect, it } from "vitest";
import { coverage } from "../../core/layup/coverage.ts";
import { automaticLayup } from "../../core/layup/house-rules.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import { checkProject } from "../../core/project/parse.ts";
import type { Project } from "../../core/project/schema.ts";
import { demoNames } from "../project/demo-files.ts";
import { basin, basinProject, demoGround, type Ground, groundOf, ledge, namesOf } from "./ground.ts";

const automatic = ({ project, shell, transitions }: Ground): Project => ({
  ...project,
  layup: automaticLayup(project, shell, transitions),
});

describe("the automatic layout", () => {
  it.each(demoNames)("covers every re-entrant transition and every straight wall with room: %s", (name) => {
    const ground = demoGround(name);
    const { shell, transitions } = ground;
    const project = automatic(ground);
    expect(project.layup.length).toBeGreaterThan(8);
    const layup = layUp(project, shell, { transitions });
    expect(layup.adrift).toEqual([]);
    const bare = coverage(project, shell, transitions, layup);
    // By the usual rules noses get no band: nothing else may be bare.
    expect(bare.transitions.filter(({ kind }) => kind !== "nose")).toEqual([]);
    for (const wall of bare.walls)
      expect(wall.why, wall.id).toMatch(/less than the strip's width|house rules ask/);
    const treads = shell.faces.filter(({ kind }) => kind === "tread").length;
    const under = project.layup.filter(({ kind }) => kind === "pad").length;
    expect(under).toBeLessThanOrEqual(treads);
    expect(under).toBeGreaterThan(0);
  });

  it.each(["dunlin-4"])(
    "is a valid part of the project, with an id of its own for every zone, the same each time: %s",
    (name) => {
      const ground = demoGround(name);
      const project = automatic(ground);
      const checked = checkProject(project);
      expect(checked.ok ? [] : checked.problems.map(({ sentence }) => sentence)).toEqual([]);
      expect(JSON.stringify(automatic(ground).layup)).toBe(JSON.stringify(project.layup));
      expect(new Set(project.layup.map(({ id }) => id)).size).toBe(project.layup.length);
    },
  );

  it.each([60, 100, 200])(
    "proposes no rib that its own check doubts for its strip or its top, on a cove of %d mm",
    (cove) => {
      const coping = { flange: 150, rimRadius: 60, edge: { kind: "flat" as const } };
      const radii = { cove, step: 50, nose: 30, pairs: [] };
      const ground = groundOf(basinProject({ features: [ledge], coping, radii }));
      const { layup } = automatic(ground);
      const laid = layUp({ ...ground.project, layup }, ground.shell, { transitions: ground.transitions });
      const rows = laid.zones.filter((zone) => zone.kind === "rib-row");
      expect(rows.length).toBe(4);
      const { bendRadius } = ground.project.materials.find(({ id }) => id === "rib-strip") as {
        bendRadius: number;
      };
      const doubts = rows.flatMap((row) => row.doubts);
      for (const row of rows)
        if (row.kind === "rib-row")
          for (const rib of row.ribs) expect(rib.leastBendMm).toBeGreaterThan(bendRadius);
      // The top of the rules, 60 mm, would lie on this rim's radius.
      expect(doubts.filter((doubt) => /rim's radius/.test(doubt))).toEqual([]);
      const feet = Object.fromEntries(
        layup.flatMap((zone) => (zone.kind === "rib-row" ? [[zone.id, zone.foot.kind]] : [])),
      );
      // The ledge's radius of 50 mm is tight for every rib of its end; that of the cove for all others where it is less than the strip's.
      expect(feet).toMatchObject({ "ribs-shallow": "to", "ribs-deep": cove < 120 ? "to" : "over" });
      const said = doubts.filter((doubt) => /stopped above ledge\/top/.test(doubt));
      expect(said.length).toBe(cove < 120 ? 0 : 2);
    },
  );

  it("names its zones after what they lie on", () => {
    const ids = automatic(groundOf(basinProject({ features: [ledge] }))).layup.map(({ id }) => id);
    expect(ids).toEqual([
      "band-foot",
      "band-floor-ledge-riser",
      "ribs-shallow",
      "ribs-right",
      "ribs-deep",
      "ribs-left",
      "gussets-ledge-top",
      "pad-ledge-top",
      "stiffener-shallow",
      "stiffener-right",
      "stiffener-deep",
      "stiffener-left",
    ]);
  });

  it("carries bands past the tangent lines by the rule's reach", () => {
    const project = automatic(groundOf(basinProject({ features: [ledge] })));
    const halfWidths = (id: string) => {
      const zone = project.layup.find((each) => each.id === id);
      return zone?.kind === "band" ? zone.halfWidths : [];
    };
    // Half a quarter turn of the radius and the laminate to each side, then the reach; in whole millimetres.
    const cove = Math.ceil(((basin.cove + 6) * Math.PI) / 4 + 150);
    const step = Math.ceil((56 * Math.PI) / 4 + 100);
    for (const [id, exact] of [
      ["band-foot", cove],
      ["band-floor-ledge-riser", step],
    ] as const)
      for (const width of halfWidths(id)) expect(Math.abs(width - exact)).toBeLessThanOrEqual(1);
  });

  it("follows the rules to the letter", () => {
    const ground = groundOf(basinProject({ features: [ledge] }));
    const withRules = (rules: Partial<Project["rules"]>) =>
      automatic({ ...ground, project: { ...ground.project, rules: { ...ground.project.rules, ...rules } } })
        .layup;
    const { ribs, noseBand, gussets, pads, stiffeners } = ground.project.rules;
    const none = (kind: string) => ({ kind });
    expect(withRules({ noseBand: { ...noseBand, plies: 1 } }).map(({ id }) => id)).toContain(
      "band-ledge-top-ledge-riser",
    );
    expect(
      withRules({ ribs: { ...ribs, leastWall: 3000 } })
        .filter(({ kind }) => kind === "rib-row")
        .map(({ id }) => id),
    ).toEqual(["ribs-right", "ribs-left"]);
    expect(withRules({ gussets: { ...gussets, leastWidth: 1600 } })).not.toContainEqual(
      expect.objectContaining(none("gussets")),
    );
    expect(withRules({ pads: { ...pads, leastWidth: 1600 } })).not.toContainEqual(
      expect.objectContaining(none("pad")),
    );
    expect(withRules({ stiffeners: { ...stiffeners, leastRun: 9000 } })).not.toContainEqual(
      expect.objectContaining(none("stiffener")),
    );
    const stopping = withRules({ ribs: { ...ribs, overCove: false } }).find(({ id }) => id === "ribs-left");
    expect(stopping?.kind === "rib-row" && stopping.foot).toEqual({ kind: "to", clear: 24 });
  });
});

describe("coverage", () => {
  const ground = groundOf(basinProject({ features: [ledge] }));
  const bareWith = (layup: Project["layup"]) => {
    const project = { ...ground.project, layup };
    const laid = layUp(project, ground.shell, { transitions: ground.transitions });
    return coverage(project, ground.shell, ground.transitions, laid);
  };
  const all = automatic(ground).layup;

  it("tells everything bare when nothing is laid", () => {
    const bare = bareWith([]);
    const ids = ground.transitions
      .filter(({ kind }) => ["stretch", "step", "nose"].includes(kind))
      .map(({ id }) => id);
    expect(bare.transitions.map(({ id }) => id)).toEqual(ids);
    for (const { bareMm, lengthMm } of bare.transitions) expect(bareMm).toBe(lengthMm);
    expect(bare.walls.map(({ id }) => id).sort()).toEqual(["deep", "left", "right", "shallow"]);
  });

  it("tells what one zone less leaves bare", () => {
    expect(bareWith(all).walls).toEqual([]);
    const without = (id: string) => bareWith(all.filter((zone) => zone.id !== id));
    expect(without("band-floor-ledge-riser").transitions.map(({ id }) => id)).toContain("floor|ledge/riser");
    expect(without("ribs-left").walls.map(({ id }) => id)).toEqual(["left"]);
    expect(without("band-foot").transitions.filter(({ kind }) => kind === "stretch").length).toBeGreaterThan(
      3,
    );
  });

  it("counts a part of the foot for what it is", () => {
    const half = all.map((zone) =>
      zone.kind === "band" && zone.on === "foot" ? { ...zone, stretch: { from: 0, to: 0.5 } } : zone,
    );
    const foot = ground.transitions.find(({ kind }) => kind === "foot")!;
    const bare = bareWith(half).transitions.filter(({ kind }) => kind === "stretch");
    const sum = bare.reduce((total, { bareMm }) => total + bareMm, 0);
    expect(Math.abs(sum - foot.lengthMm / 2)).toBeLessThan(20);
    expect(bare.some(({ why }) => /only in part/.test(why))).toBe(true);
  });

  it("does not count a zone that is adrift", () => {
    const astray = all.map((zone) =>
      zone.id === "ribs-left" && zone.kind === "rib-row" ? { ...zone, top: 1400 } : zone,
    );
    expect(bareWith(astray).walls.map(({ id }) => id)).toEqual(["left"]);
    expect(namesOf(layUp({ ...ground.project, layup: astray }, ground.shell, ground)).length).toBe(
      all.length,
    );
  });

  it("comes to an end where the laminate is thicker than the nose it is laid on, which leaves a crease", () => {
    const project = basinProject({
      outline: { kind: "rectangle", length: 10450, width: 3250, cornerRadius: 310 },
      floor: {
        stations: [
          { at: 3200, depth: 1160 },
          { at: 7850, depth: 2610 },
        ],
        breakRadius: 1150,
        crossFall: 0,
        hopper: { depthAtWall: 1350, slopeDeg: 45 },
      },
      radii: { cove: 80, step: 115, nose: 15, pairs: [] },
      features: [
        {
          kind: "seat",
          id: "seat",
          place: {
            kind: "along",
            from: { run: "right", part: 0.3305640938691795 },
            to: { run: "left", part: 0.799433009698987 },
            endRadius: 110,
          },
          depth: 500,
          reach: 490,
        },
        {
          kind: "steps",
          id: "steps",
          place: { kind: "end", end: "deep" },
          treads: [
            { depth: 280, going: 270 },
            { depth: 540, going: 350 },
            { depth: 810, going: 340 },
          ],
        },
      ],
      coping: { flange: 125, rimRadius: 46, edge: { kind: "rolled", radius: 16 } },
      waterLine: 80,
    });
    const ground = groundOf({ ...project, shop: { ...project.shop, laidThickness: 30 } });
    expect(automatic(ground).layup.length).toBeGreaterThan(8);
  });
});
