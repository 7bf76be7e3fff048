import { Group, PerspectiveCamera, Vector3 } from "three";
import { expect, test } from "vitest";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { LinesFigure } from "../../../renderer/scene/lines-figure.ts";
import { aimAt, thingAt } from "../../../renderer/scene/picking.ts";
import { ShellFigure } from "../../../renderer/scene/shell-figure.ts";
import type { Figures } from "../../../renderer/scene/use-figures.ts";
import { ZonesFigure } from "../../../renderer/scene/zones-figure.ts";
import { bandTool } from "../../../renderer/tools/band.ts";
import { ribTool } from "../../../renderer/tools/rib.ts";
import { demoProject } from "../../project/demo-files.ts";
import { groundOf } from "./ground.ts";

const demo = demoProject("whimbrel-9");

/** Ribs at many places of both long walls, with the zones of the demo: 300 in all. */
function many(): ZoneSpec[] {
  const count = 300 - demo.layup.length;
  const ribs = Array.from({ length: count }, (_, i): ZoneSpec => {
    const part = (Math.floor(i / 2) + 0.5) / Math.ceil(count / 2);
    const at = { run: i % 2 ? "left" : "right", part };
    return {
      kind: "rib",
      id: `many-${i}`,
      at,
      top: 60,
      foot: { kind: "over", onto: 40 },
      material: "rib-strip",
    };
  });
  return [...demo.layup, ...ribs];
}

test("what is hovered, or offered by a tool, is found within 30 ms of computing among 300 zones", {
  timeout: 120_000,
}, async () => {
  const { ground, shell, trials } = await groundOf(demo);
  const zones = trials.lay(demo, many()).flatMap((each) => (each.ok ? [each.zone] : []));
  expect(zones.length).toBeGreaterThan(270);
  const [shellFigure, linesFigure, zonesFigure] = [new ShellFigure(), new LinesFigure(), new ZonesFigure()];
  shellFigure.setShell(shell);
  linesFigure.setLines(ground.lines);
  zonesFigure.setZones(zones);
  const figures = { stand: new Group(), shellFigure, linesFigure, zonesFigure } as unknown as Figures;
  const canvas = { clientWidth: 1000, clientHeight: 640 } as HTMLCanvasElement;
  const camera = new PerspectiveCamera(26, 1000 / 640, 100, 120_000);
  camera.up = new Vector3(0, 0, 1);
  camera.position.set(4500, -16_000, -9000);
  camera.lookAt(4500, 0, -900);
  camera.updateMatrixWorld(true);
  const look = { canvas, camera, figures, shell, section: null };
  const spots = Array.from({ length: 100 }, (_, i) => ({
    x: 60 + (i % 10) * 90,
    y: 80 + Math.floor(i / 10) * 48,
  }));
  /** Computing time of one answer, ms; the first builds the trees of whatever it meets. */
  const timed = (answer: (spot: { x: number; y: number }) => unknown) =>
    spots.map((spot) => {
      const from = process.cpuUsage();
      answer(spot);
      const { user, system } = process.cpuUsage(from);
      return (user + system) / 1000;
    });
  const kinds = new Set(spots.map((spot) => thingAt(spot, look)?.kind));
  expect(kinds).toContain("zone");
  expect(kinds).toContain("face");
  const worst = (answer: (spot: { x: number; y: number }) => unknown) => {
    // Of three rounds the best at each rank: what else the machine does meanwhile is not ours.
    const rounds = [0, 1, 2].map(() => timed(answer).sort((a, b) => a - b));
    return spots.map((_, i) => Math.min(...rounds.map((round) => round[i])))[Math.floor(0.99 * spots.length)];
  };
  expect(worst((spot) => thingAt(spot, look))).toBeLessThan(30);
  for (const tool of [bandTool, ribTool]) {
    expect(
      worst((spot) => {
        const aim = aimAt(spot, look);
        return aim && tool.at(ground, aim);
      }),
    ).toBeLessThan(30);
  }
});
